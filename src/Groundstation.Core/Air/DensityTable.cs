namespace Groundstation.Core.Air;

/// <summary>
/// A column's density and the square root of its reciprocal, every 20 m from −1 km to 60 km geometric height, read by
/// linear interpolation: for inner loops of ensembles, where the powers of the formula would take most of the time.
/// Within 3·10⁻⁶ of the column (20² / 8 over the square of a scale height of at least 5 km), 6·10⁻⁵ in steps that hold
/// a kink between two layers. Heights outside are taken at the nearer end. Immutable, any thread may read it.
/// </summary>
public sealed class DensityTable
{
    private const double BottomM = -1000, StepM = 20;
    private const int Count = 61_000 / 20 + 1;

    private readonly double[] _density = new double[Count];
    private readonly double[] _fallFactor = new double[Count];

    /// <summary>Tabulates a column.</summary>
    public DensityTable(AtmosphereProfile profile) : this(profile.DensityKgM3)
    {
    }

    /// <summary>Tabulates any density, kg/m³, above 0, by geometric height above mean sea level, m.</summary>
    public DensityTable(Func<double, double> densityKgM3)
    {
        // Against the standard's own sea level, not the profile's: rates "at sea level" mean the standard's.
        double seaLevel = 101_325 / (AtmosphereProfile.GasConstantAir * 288.15);
        for (int i = 0; i < Count; i++)
        {
            double z = BottomM + StepM * i;
            _density[i] = densityKgM3(z);
            _fallFactor[i] = Math.Sqrt(seaLevel / _density[i]
                * AtmosphereProfile.Gravity(z) / AtmosphereProfile.StandardGravity);
        }
    }

    /// <summary>Density, kg/m³.</summary>
    public double DensityKgM3(double geometricHeightM) => Read(_density, geometricHeightM);

    /// <summary>
    /// Terminal speed at this height over that at sea level of the 1976 standard, for constant Cd·S:
    /// √(ρ₀·g(z) / (ρ(z)·g₀)).
    /// </summary>
    public double FallFactor(double geometricHeightM) => Read(_fallFactor, geometricHeightM);

    private static double Read(double[] table, double heightM)
    {
        double x = Math.Clamp((heightM - BottomM) * (1 / StepM), 0, Count - 1);
        int i = Math.Min((int)x, Count - 2);
        double low = table[i];
        return low + (x - i) * (table[i + 1] - low);
    }
}
