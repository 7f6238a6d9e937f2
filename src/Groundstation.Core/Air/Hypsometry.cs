namespace Groundstation.Core.Air;

/// <summary>Heights from pressures and temperatures: the hydrostatic balance of a layer.</summary>
public static class Hypsometry
{
    /// <summary>Specific gas constant of dry air as meteorology rounds it, J/(kg·K).</summary>
    private const double GasConstantAir = 287.05287;

    /// <summary>
    /// Thickness of a layer, geopotential metres: R·T/g₀·ln(p₁/p₂) with the mean of the two temperatures (the
    /// hypsometric equation; standard in meteorology, R and g₀ of ICAO Doc 7488).
    /// </summary>
    /// <param name="lowerPa">Pressure at its lower edge, Pa.</param>
    /// <param name="lowerK">Temperature there, K: virtual temperature where humidity is known.</param>
    /// <param name="upperPa">Pressure at its upper edge, Pa.</param>
    /// <param name="upperK">Temperature there, K.</param>
    public static double ThicknessM(double lowerPa, double lowerK, double upperPa, double upperK) =>
        GasConstantAir * (lowerK + upperK) / 2 / AtmosphereProfile.StandardGravity * Math.Log(lowerPa / upperPa);

    /// <summary>
    /// Virtual temperature, K: that of dry air as light as the moist air, T/(1 − 0.378·e/p), vapour pressure e after
    /// Magnus with the coefficients of Bolton 1980 (from memory), 611.2·exp(17.67·t/(t + 243.5)) Pa.
    /// </summary>
    /// <param name="temperatureC">Air temperature, °C.</param>
    /// <param name="dewPointC">Dew point, °C.</param>
    /// <param name="pressurePa">Pressure, Pa.</param>
    public static double VirtualK(double temperatureC, double dewPointC, double pressurePa)
    {
        double vapour = 611.2 * Math.Exp(17.67 * dewPointC / (dewPointC + 243.5));
        return (temperatureC + 273.15) / (1 - 0.378 * Math.Min(vapour / pressurePa, 0.1));
    }
}
