namespace Groundstation.Core.Flight;

/// <summary>
/// The heights at which paths are stepped: every 100 m from −500 m (below the lowest land) to 50 000 m above mean sea
/// level. 100 m keeps the quadrature error of a fall under a millimetre a metre (density changes by 1.5 % over it).
/// </summary>
public static class Levels
{
    /// <summary>Lowest level, metres above mean sea level.</summary>
    public const double BottomM = -500;

    /// <summary>Distance between levels, m.</summary>
    public const double StepM = 100;

    /// <summary>How many levels.</summary>
    public const int Count = 506;

    /// <summary>Highest level, metres above mean sea level.</summary>
    public const double TopM = BottomM + (Count - 1) * StepM;

    /// <summary>Height of a level, metres above mean sea level.</summary>
    public static double HeightM(int level) => BottomM + level * StepM;

    /// <summary>The level at or below a height, so that it and the next one enclose it; clamped to the grid.</summary>
    public static int Below(double heightM) =>
        Math.Clamp((int)Math.Floor((heightM - BottomM) / StepM), 0, Count - 2);

    /// <summary>A table over the levels at a height, linear in between, clamped outside.</summary>
    public static double At(ReadOnlySpan<double> table, double heightM)
    {
        int i = Below(heightM);
        double f = Math.Clamp((heightM - HeightM(i)) / StepM, 0, 1);
        return table[i] + f * (table[i + 1] - table[i]);
    }
}
