using System.Collections.Immutable;
using System.Globalization;
using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;

namespace Groundstation.Io.Winds;

/// <summary>What a sounding tells of one level; what it does not tell is null.</summary>
/// <param name="PressurePa">Pressure, Pa.</param>
/// <param name="GeopotentialM">Height above mean sea level, geopotential metres.</param>
/// <param name="TemperatureC">°C.</param>
/// <param name="DepressionK">Temperature less dew point, K.</param>
/// <param name="Wind">Wind.</param>
internal readonly record struct RawLevel(double? PressurePa, double? GeopotentialM, double? TemperatureC = null,
    double? DepressionK = null, WindVector? Wind = null);

/// <summary>
/// Turns the levels of a sounding into those of a forecast: heights of levels that are told by pressure alone follow
/// from the temperatures, layer by layer between the levels that have both.
/// </summary>
internal static class RawLevels
{
    /// <summary>The levels with a wind and a height, lowest first; what had to be left out goes to the notes.</summary>
    public static ImmutableArray<ForecastLevel> Build(IEnumerable<RawLevel> raw, List<string> notes)
    {
        RawLevel[] all = Merged(raw);
        var air = all.Where(l => l is { PressurePa: not null, TemperatureC: not null })
            .Select(l => (P: l.PressurePa!.Value, VirtualK: Virtual(l))).ToArray();
        var known = all.Where(l => l is { PressurePa: not null, GeopotentialM: not null })
            .Select(l => (P: l.PressurePa!.Value, Z: l.GeopotentialM!.Value)).ToArray();
        List<ForecastLevel> levels = [];
        int lost = 0;
        foreach (RawLevel l in all)
        {
            if (l.Wind is not { } wind) continue;
            if ((l.GeopotentialM ?? Height(l.PressurePa!.Value, known, air)) is not { } z) lost++;
            else levels.Add(new(new(AtmosphereProfile.GeometricFromGeopotential(z)), wind, l.TemperatureC,
                l.PressurePa));
        }

        if (lost > 0)
            notes.Add(string.Create(CultureInfo.InvariantCulture,
                $"{lost} winds left out: no height near their pressure"));
        return [.. levels.OrderBy(l => l.Height.Metres).DistinctBy(l => Math.Round(l.Height.Metres))];
    }

    /// <summary>Levels in the order of height or falling pressure; one pressure told twice is one level.</summary>
    private static RawLevel[] Merged(IEnumerable<RawLevel> raw)
    {
        List<RawLevel> merged = [];
        foreach (RawLevel l in raw)
        {
            if (l.PressurePa is null && l.GeopotentialM is null) continue;
            int same = l.PressurePa is { } p ? merged.FindIndex(m => m.PressurePa is { } q && Math.Abs(p - q) < 1) : -1;
            if (same < 0) merged.Add(l);
            else
            {
                RawLevel m = merged[same];
                merged[same] = new(m.PressurePa, m.GeopotentialM ?? l.GeopotentialM, m.TemperatureC ?? l.TemperatureC,
                    m.DepressionK ?? l.DepressionK, m.Wind ?? l.Wind);
            }
        }

        return [.. merged.OrderByDescending(m =>
            m.PressurePa ?? StandardAtmosphere.PressurePa(m.GeopotentialM!.Value))];
    }

    private static double Virtual(RawLevel l) => l.DepressionK is { } depression
        ? Hypsometry.VirtualK(l.TemperatureC!.Value, l.TemperatureC.Value - depression, l.PressurePa!.Value)
        : l.TemperatureC!.Value + 273.15;

    /// <summary>
    /// Geopotential height of a pressure: from the known level below, its layers stretched so that they meet the known
    /// level above; beyond the known ones from the nearest. Null with no known level, or no temperature to go beyond
    /// by.
    /// </summary>
    internal static double? Height(double pressurePa, (double P, double Z)[] known, (double P, double VirtualK)[] air)
    {
        int above = Array.FindIndex(known, k => k.P <= pressurePa);
        int below = above < 0 ? known.Length - 1 : above - 1;
        if (known.Length == 0) return null;
        if (above >= 0 && below >= 0)
        {
            (double p0, double z0) = known[below];
            (double p1, double z1) = known[above];
            double share = air.Length == 0 ? Math.Log(p0 / pressurePa) / Math.Log(p0 / p1)
                : Thickness(p0, pressurePa, air) / Thickness(p0, p1, air);
            return z0 + share * (z1 - z0);
        }

        if (air.Length == 0) return null;
        (double p, double z) = known[below >= 0 ? below : above];
        // Temperatures end somewhere: more than a scale height beyond them a height would be a guess.
        if (pressurePa < air[^1].P / 2) return null;
        return z + Thickness(p, pressurePa, air);
    }

    /// <summary>
    /// Thickness between two pressures, the temperature linear in the logarithm of pressure; negative downwards.
    /// </summary>
    private static double Thickness(double fromPa, double toPa, (double P, double VirtualK)[] air)
    {
        if (toPa > fromPa) return -Thickness(toPa, fromPa, air);
        double sum = 0, p = fromPa, t = At(fromPa, air);
        foreach ((double next, double virtualK) in air)
        {
            if (next >= fromPa) continue;
            if (next <= toPa) break;
            sum += Hypsometry.ThicknessM(p, t, next, virtualK);
            (p, t) = (next, virtualK);
        }

        return sum + Hypsometry.ThicknessM(p, t, toPa, At(toPa, air));
    }

    private static double At(double pressurePa, (double P, double VirtualK)[] air)
    {
        int above = Array.FindIndex(air, a => a.P <= pressurePa);
        if (above < 0) return air[^1].VirtualK;
        if (above == 0) return air[0].VirtualK;
        (double p0, double t0) = air[above - 1];
        (double p1, double t1) = air[above];
        return t0 + (t1 - t0) * Math.Log(p0 / pressurePa) / Math.Log(p0 / p1);
    }
}
