using System.Globalization;
using Groundstation.Core.Air;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Io.Winds;

/// <summary>
/// The groups of five figures that upper-air reports are made of (WMO No. 306, FM 35 TEMP and FM 32 PILOT; the rules
/// stated here are from memory unless a source is named). A figure that is / is missing.
/// </summary>
public static class TempGroups
{
    // Usual heights of the standard levels, geopotential metres: the 1976 standard atmosphere.
    private static double UsualM(int hectopascals) => AtmosphereProfile.GeopotentialFromGeometric(
        StandardAtmosphere.HeightFromPressure(100 * hectopascals));

    /// <summary>
    /// Wind, <c>dddff</c>: direction to 5°, true, whose last figure has the hundreds of the speed added to it (11612 is
    /// 115° and 112). Null when missing or no such group.
    /// </summary>
    /// <param name="group">Five figures.</param>
    /// <param name="knots">True when speeds are in knots, false for m/s.</param>
    public static (int FromDeg, int Speed, WindVector Wind)? Wind(string group, bool knots)
    {
        if (group.Length != 5 || Number(group) is not { } figures) return null;
        int direction = figures / 100, hundreds = direction % 5, speed = 100 * hundreds + figures % 100;
        direction -= hundreds;
        if (direction > 360) return null;
        return (direction, speed, WindVector.FromDirection(direction, knots ? speed * KnotMps : speed));
    }

    /// <summary>
    /// Temperature and dew-point depression, <c>TTTDD</c>: tenths of a degree, negative when the last figure of TTT is
    /// odd (code table 3931); DD tenths up to 50, from 56 on whole degrees and 50 (code table 0777).
    /// </summary>
    public static (double? TemperatureC, double? DepressionK) Air(string group)
    {
        if (group.Length != 5) return (null, null);
        double? celsius = Number(group[..3]) is { } t ? (t % 2 == 0 ? t : -t) / 10.0 : null;
        double? depression = Number(group[3..]) switch
        {
            null or (> 50 and < 56) => null,
            <= 50 and var tenths => tenths / 10.0,
            var whole => whole - 50,
        };
        return (celsius, celsius is null ? null : depression);
    }

    /// <summary>
    /// Height of a standard level, geopotential metres, from its three figures: metres up to 700 hPa, above it tens of
    /// metres, in both cases without the leading figures, which are those that come nearest to the usual height; at
    /// 1000 hPa 500 is added where it lies below the sea (NAVEDTRA 14270 p. 1-25). Null when missing.
    /// </summary>
    /// <param name="hectopascals">The level.</param>
    /// <param name="hhh">Its figures.</param>
    public static int? HeightM(int hectopascals, string hhh)
    {
        if (hhh.Length != 3 || Number(hhh) is not { } figures) return null;
        if (hectopascals == 1000) return figures > 500 ? 500 - figures : figures;
        int unit = hectopascals >= 700 ? 1 : 10, cycle = 1000 * unit;
        return figures * unit + cycle * (int)Math.Round((UsualM(hectopascals) - figures * unit) / cycle);
    }

    /// <summary>
    /// Pressure at the ground, hPa, from <c>PPP</c>, which leaves out the thousands; null when missing.
    /// </summary>
    public static int? SurfaceHpa(string ppp) => Number(ppp) is { } p ? p < 200 ? 1000 + p : p : null;

    /// <summary>A whole number of figures only; null otherwise.</summary>
    internal static int? Number(string figures) =>
        int.TryParse(figures, NumberStyles.None, CultureInfo.InvariantCulture, out int value) ? value : null;
}
