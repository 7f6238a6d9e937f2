namespace Groundstation.Core.Quantities;

/// <summary>
/// Units that are exact by definition, in SI: the international yard and pound (1959), the international nautical mile
/// (1929), and standard gravity of 9.80665 m/s² for the pound-force. The inch of mercury is the conventional one.
/// </summary>
public static class CustomaryUnits
{
    /// <summary>A foot, m.</summary>
    public const double FootM = 0.3048;

    /// <summary>An inch, m.</summary>
    public const double InchM = 0.0254;

    /// <summary>A statute mile, m.</summary>
    public const double MileM = 1609.344;

    /// <summary>A knot, m/s: a nautical mile of 1852 m an hour.</summary>
    public const double KnotMps = 1852.0 / 3600;

    /// <summary>A pound, kg.</summary>
    public const double PoundKg = 0.45359237;

    /// <summary>A pound-force, N.</summary>
    public const double PoundForceN = 4.4482216152605;

    /// <summary>
    /// An inch of mercury at 0 °C, Pa: 25.4 mm × 133.322387415 Pa (NIST SP 811, appendix B.8, from memory).
    /// </summary>
    public const double InchOfMercuryPa = 3386.389;
}
