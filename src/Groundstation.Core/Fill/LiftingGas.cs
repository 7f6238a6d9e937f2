namespace Groundstation.Core.Fill;

/// <summary>What a balloon is filled with.</summary>
public enum GasKind
{
    /// <summary>Helium.</summary>
    Helium,

    /// <summary>Hydrogen. It burns.</summary>
    Hydrogen,
}

/// <summary>
/// A lifting gas as it comes from the cylinder: the gas itself, and air for the rest. Taken as ideal at the pressures
/// of the atmosphere (helium's Z at 1 bar is 1.0005).
/// </summary>
/// <param name="Kind">Which gas.</param>
/// <param name="Purity">Share of it by volume, above 0 to 1. Balloon-grade helium is often sold with 0.97 to
/// 0.99.</param>
public readonly record struct LiftingGas(GasKind Kind, double Purity = 1)
{
    /// <summary>Molar gas constant, J/(mol·K), exact (SI 2019).</summary>
    public const double GasConstant = 8.31446261815324;

    /// <summary>Molar mass of dry air, kg/mol (US Standard Atmosphere 1976).</summary>
    public const double AirKgPerMol = 28.9644e-3;

    /// <summary>
    /// Molar mass, kg/mol: helium 4.002602 (CIAAW, from memory), hydrogen 2.01588 (Lemmon, Huber and Leachman 2008).
    /// </summary>
    public double KgPerMol => (1 - Purity) * AirKgPerMol + Purity * (Kind == GasKind.Helium ? 4.002602e-3 : 2.01588e-3);

    /// <summary>Mass lifted by a volume of the gas over the mass of air in the same volume: 1 − M/M(air).</summary>
    public double LiftShare => 1 - KgPerMol / AirKgPerMol;

    /// <summary>Density, kg/m³, at the air's pressure and temperature.</summary>
    public double DensityKgM3(SiteAir air) => (1 - LiftShare) * air.DensityKgM3;
}
