namespace Groundstation.Core.Air;

/// <summary>
/// US Standard Atmosphere 1976 (NOAA-S/T 76-1562) by geometric height above mean sea level, metres. Holds from −5 km to
/// 86 km; beyond, see <see cref="AtmosphereProfile"/>. Pure.
/// </summary>
public static class StandardAtmosphere
{
    /// <summary>The standard as a column of layers.</summary>
    public static readonly AtmosphereProfile Profile = new();

    /// <summary>Density at mean sea level, kg/m³: 1.225.</summary>
    public static readonly double SeaLevelDensityKgM3 = Profile.DensityKgM3(0);

    /// <summary>Density every 20 m, for inner loops: see <see cref="DensityTable"/>.</summary>
    public static readonly DensityTable Table = new(Profile);

    /// <summary>Temperature, K.</summary>
    public static double TemperatureK(double geometricHeightM) => Profile.TemperatureK(geometricHeightM);

    /// <summary>Pressure, Pa.</summary>
    public static double PressurePa(double geometricHeightM) => Profile.PressurePa(geometricHeightM);

    /// <summary>Density, kg/m³.</summary>
    public static double DensityKgM3(double geometricHeightM) => Profile.DensityKgM3(geometricHeightM);

    /// <summary>Speed of sound, m/s: √(1.4·R·T).</summary>
    public static double SpeedOfSound(double geometricHeightM) =>
        Math.Sqrt(1.4 * AtmosphereProfile.GasConstantAir * TemperatureK(geometricHeightM));

    /// <summary>Dynamic viscosity, Pa·s, after Sutherland: 1.458·10⁻⁶·T^1.5/(T + 110.4).</summary>
    public static double DynamicViscosity(double geometricHeightM) => ViscosityAt(TemperatureK(geometricHeightM));

    /// <summary>Dynamic viscosity, Pa·s, of air at a temperature, K: the standard's formula (its equation 51).</summary>
    public static double ViscosityAt(double temperatureK) =>
        1.458e-6 * temperatureK * Math.Sqrt(temperatureK) / (temperatureK + 110.4);

    /// <summary>Acceleration of gravity, m/s².</summary>
    public static double Gravity(double geometricHeightM) => AtmosphereProfile.Gravity(geometricHeightM);

    /// <summary>Geopotential height, m, of a geometric one.</summary>
    public static double GeopotentialFromGeometric(double geometricHeightM) =>
        AtmosphereProfile.GeopotentialFromGeometric(geometricHeightM);

    /// <summary>Geometric height, m, of a geopotential one.</summary>
    public static double GeometricFromGeopotential(double geopotentialHeightM) =>
        AtmosphereProfile.GeometricFromGeopotential(geopotentialHeightM);

    /// <summary>The geometric height, m, at which the standard has this pressure (pressure altitude).</summary>
    /// <param name="pressurePa">Pressure, Pa; above 0.</param>
    public static double HeightFromPressure(double pressurePa) => Profile.HeightFromPressure(pressurePa);
}
