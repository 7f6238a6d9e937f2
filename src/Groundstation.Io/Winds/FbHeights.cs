using System.Collections.Immutable;
using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Io.Winds;

/// <summary>
/// Makes a forecast of a bulletin's rows. Up to 12 000 ft their heights are above mean sea level, from 18 000 ft on
/// pressure altitudes: the same pressure lies higher in warm air, by 700 m at 39 000 ft where it is 15 K too warm.
/// </summary>
internal static class FbHeights
{
    private const int HighestTrueFt = 12_000;

    /// <summary>The forecast of one station and time, from one row or from those of low and high levels.</summary>
    public static WindForecast Forecast(IReadOnlyList<FbRow> rows, string file)
    {
        (int Ft, FbGroup Group)[] levels = [.. rows.SelectMany(r => r.Levels).DistinctBy(l => l.AltitudeFt)
            .OrderBy(l => l.AltitudeFt)];
        if (levels.Length == 0)
            throw new UserErrorException($"{file}:{rows[0].Line}: {rows[0].Station}: no group; choose another station");
        List<string> notes = [];
        if (levels.Any(l => l.Group.DirectionDeg is null))
            notes.Add("light and variable winds are taken as none: under 5 kt either way");
        if (levels.Any(l => l.Group.OrMore))
            notes.Add("a wind of 199 kt or more is taken as 199 kt");
        return new WindForecast
        {
            Source = $"{Path.GetFileName(file)}: winds aloft bulletin, station {rows[0].Station}",
            Origin = WindOrigin.Forecast,
            Valid = rows[0].Valid,
            BasedOn = rows[0].BasedOn,
            Levels = [.. Heights(levels).Zip(levels, (z, l) =>
                new ForecastLevel(new HeightMsl(z), l.Group.Wind, l.Group.TemperatureC))],
            Notes = [.. notes],
        };
    }

    /// <summary>
    /// Heights above mean sea level, m. Pressure altitudes follow from the bulletin's own temperatures, layer by layer,
    /// above the highest true height, with 1013.25 hPa at sea level, since the bulletin tells no pressure.
    /// </summary>
    internal static double[] Heights((int Ft, FbGroup Group)[] levels)
    {
        double[] heights = [.. levels.Select(l => l.Ft * FootM)];
        double[] offsets = [.. levels.Where(l => l is { Ft: <= HighestTrueFt, Group.TemperatureC: not null })
            .Select(l => l.Group.TemperatureC!.Value + 273.15 - StandardAtmosphere.TemperatureK(l.Ft * FootM))];
        int last = Array.FindLastIndex(levels, l => l is { Ft: <= HighestTrueFt, Group.TemperatureC: not null });
        if (last < 0) return heights;
        double z = AtmosphereProfile.GeopotentialFromGeometric(heights[last]);
        double t = levels[last].Group.TemperatureC!.Value + 273.15;
        double p = new AtmosphereProfile(Math.Clamp(offsets.Average(), -60, 60)).PressurePa(heights[last]);
        for (int i = last + 1; i < levels.Length; i++)
        {
            // A pressure altitude counts geopotential metres of the standard.
            double standard = AtmosphereProfile.GeometricFromGeopotential(heights[i]);
            double pressure = StandardAtmosphere.PressurePa(standard);
            double above = levels[i].Group.TemperatureC + 273.15
                ?? StandardAtmosphere.TemperatureK(standard) + t - StandardAtmosphere.TemperatureK(heights[i - 1]);
            z += Hypsometry.ThicknessM(p, t, pressure, above);
            heights[i] = AtmosphereProfile.GeometricFromGeopotential(z);
            (p, t) = (pressure, above);
        }

        return heights;
    }
}
