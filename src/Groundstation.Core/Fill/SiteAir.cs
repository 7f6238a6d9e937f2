using Groundstation.Core.Air;
using Groundstation.Core.Earth;

namespace Groundstation.Core.Fill;

/// <summary>The air at the place where the balloon is filled, dry.</summary>
/// <param name="PressurePa">Pressure there (not reduced to sea level), Pa.</param>
/// <param name="TemperatureK">Temperature, K.</param>
public readonly record struct SiteAir(double PressurePa, double TemperatureK)
{
    /// <summary>Density, kg/m³: p/(R·T).</summary>
    public double DensityKgM3 => PressurePa / (AtmosphereProfile.GasConstantAir * TemperatureK);

    /// <summary>The standard atmosphere's at a height.</summary>
    public static SiteAir Standard(HeightMsl height) =>
        new(StandardAtmosphere.PressurePa(height.Metres), StandardAtmosphere.TemperatureK(height.Metres));

    /// <summary>Amount of gas in a volume at this pressure and temperature, mol.</summary>
    public double AmountMol(double volumeM3) => PressurePa * volumeM3 / (LiftingGas.GasConstant * TemperatureK);

    /// <summary>Volume of an amount of gas at this pressure and temperature, m³.</summary>
    public double VolumeM3(double amountMol) => amountMol * LiftingGas.GasConstant * TemperatureK / PressurePa;
}
