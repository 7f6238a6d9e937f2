namespace Groundstation.Core.Earth;

/// <summary>Angles in degrees without loss at the quadrants: sin 180° is 0, not 1.2·10⁻¹⁶.</summary>
internal static class Angles
{
    public const double RadPerDeg = Math.PI / 180;

    public static (double Sin, double Cos) SinCosDeg(double degrees)
    {
        double r = Math.IEEERemainder(degrees, 360);
        int quarter = (int)Math.Round(r / 90);
        r -= 90 * quarter;
        (double s, double c) = Math.SinCos(r * RadPerDeg);
        return (quarter & 3) switch
        {
            0 => (s, c),
            1 => (c, -s),
            2 => (-s, -c),
            _ => (-c, s),
        };
    }

    public static double Atan2Deg(double y, double x)
    {
        if (Math.Abs(y) <= Math.Abs(x))
            return x >= 0 ? Math.Atan(y / x) / RadPerDeg : Math.CopySign(180, y) + Math.Atan(y / x) / RadPerDeg;
        return Math.CopySign(90, y) - Math.Atan(x / y) / RadPerDeg;
    }

    /// <summary>Into 0 ≤ x &lt; 360.</summary>
    public static double Azimuth(double degrees)
    {
        double x = Math.IEEERemainder(degrees, 360);
        x = x < 0 ? x + 360 : x;
        return x >= 360 ? 0 : x + 0.0;
    }
}
