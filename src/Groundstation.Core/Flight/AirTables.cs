using System.Collections.Immutable;
using Groundstation.Core.Air;

namespace Groundstation.Core.Flight;

/// <summary>
/// The 1976 atmosphere over <see cref="Levels"/>, and how its density changes when the day's temperature or sea-level
/// pressure is off standard (hydrostatic: a warm column holds more air above).
/// </summary>
public static class AirTables
{
    /// <summary>
    /// Heights between which the day's departure of temperature runs linearly, m: as coarse as the layers in which the
    /// real atmosphere departs together (lower and upper troposphere, tropopause, stratosphere).
    /// </summary>
    public static readonly ImmutableArray<double> KnotsM =
        [0, 4000, 8000, 12_000, 16_000, 20_000, 25_000, 30_000, 40_000];

    /// <summary>ln(ρ/ρ₀) at each level.</summary>
    public static readonly ImmutableArray<double> LnDensity = PerLevel(static z =>
        Math.Log(StandardAtmosphere.DensityKgM3(z) / StandardAtmosphere.SeaLevelDensityKgM3));

    /// <summary>Pressure at each level, ln Pa.</summary>
    public static readonly ImmutableArray<double> LnPressure = PerLevel(static z => Math.Log(StandardAtmosphere.PressurePa(z)));

    /// <summary>Temperature at each level, K.</summary>
    public static readonly ImmutableArray<double> TemperatureK = PerLevel(static z => StandardAtmosphere.TemperatureK(z));

    /// <summary>ln(g/g₀) at each level (inverse square, as in the 1976 atmosphere).</summary>
    public static readonly ImmutableArray<double> LnGravity = PerLevel(static z =>
        Math.Log(StandardAtmosphere.Gravity(z) / AtmosphereProfile.StandardGravity));

    /// <summary>Change of ln p at each level for one kelvin at each knot: level by level, knots within.</summary>
    public static readonly ImmutableArray<double> LnPressurePerKelvin = MakeSensitivity();

    /// <summary>Share of a knot's temperature departure that a height has, 0–1.</summary>
    public static double Share(int knot, double heightM)
    {
        double at = KnotsM[knot];
        if (heightM < at)
        {
            if (knot == 0) return 1;
            return Math.Max(0, 1 - (at - heightM) / (at - KnotsM[knot - 1]));
        }
        return knot == KnotsM.Length - 1 ? 1 : Math.Max(0, 1 - (heightM - at) / (KnotsM[knot + 1] - at));
    }

    /// <summary>Change of ln ρ at a level for one kelvin at a knot: that of ln p less that of ln T.</summary>
    public static double LnDensityPerKelvin(int level, int knot) =>
        LnPressurePerKelvin[level * KnotsM.Length + knot] -
        Share(knot, Levels.HeightM(level)) / TemperatureK[level];

    private static ImmutableArray<double> PerLevel(Func<double, double> at) =>
        [.. Enumerable.Range(0, Levels.Count).Select(i => at(Levels.HeightM(i)))];

    private static ImmutableArray<double> MakeSensitivity()
    {
        var table = new double[Levels.Count * KnotsM.Length];
        int sea = Levels.Below(0);
        for (int knot = 0; knot < KnotsM.Length; knot++)
        {
            double sum = 0;
            for (int level = sea + 1; level < Levels.Count; level++)
            {
                double z = Levels.HeightM(level) - Levels.StepM / 2;
                double t = (TemperatureK[level - 1] + TemperatureK[level]) / 2;
                sum += StandardAtmosphere.Gravity(z) / (AtmosphereProfile.GasConstantAir * t * t) * Share(knot, z) * Levels.StepM;
                table[level * KnotsM.Length + knot] = sum;
            }
        }
        return [.. table];
    }
}
