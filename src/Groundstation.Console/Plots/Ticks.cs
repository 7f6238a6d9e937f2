namespace Groundstation.Console.Plots;

/// <summary>Round numbers for scales and axes.</summary>
internal static class Ticks
{
    /// <summary>The smallest of 1, 2, 5 × 10ⁿ that is not below <paramref name="value"/> (&gt; 0).</summary>
    public static double NotBelow(double value)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(value)));
        double lead = value / power;
        return power * (lead <= 1.000_001 ? 1 : lead <= 2.000_001 ? 2 : lead <= 5.000_001 ? 5 : 10);
    }

    /// <summary>
    /// As <see cref="NotBelow"/> in ten steps a decade: a picture that needs 2.1 does not become one of 5.
    /// </summary>
    public static double FineNotBelow(double value)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(value)));
        foreach (double lead in (ReadOnlySpan<double>)[1, 1.25, 1.6, 2, 2.5, 3, 4, 5, 6, 8])
            if (value <= lead * power * 1.000_001) return lead * power;
        return 10 * power;
    }

    /// <summary>Steps along the row 1, 2, 5, 10, … from a number in it.</summary>
    public static double Step(double value, int steps)
    {
        for (; steps > 0; steps--) value = NotBelow(value * 1.1);
        for (; steps < 0; steps++) value = NotBelow(value / 2.6);
        return value;
    }

    /// <summary>
    /// A time step for an axis, in seconds, such that at most <paramref name="most"/> fit into the span.
    /// </summary>
    public static double Time(double spanS, int most)
    {
        ReadOnlySpan<double> steps = [60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400, 28_800, 86_400];
        foreach (double step in steps)
            if (spanS / step <= Math.Max(1, most)) return step;
        return Math.Ceiling(spanS / Math.Max(1, most) / 86_400) * 86_400;
    }
}
