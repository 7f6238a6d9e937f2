using System.Collections.Immutable;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Io.Winds;

/// <summary>
/// One column of a wind table, as its header names it: quantity, unit, and what a number times the factor is in SI.
/// </summary>
/// <param name="Index">Where it stands, from 0.</param>
/// <param name="Name">Its header.</param>
/// <param name="Factor">Multiplies a number to metres, m/s, degrees or Pa.</param>
/// <param name="Offset">Added after that, for °C.</param>
/// <param name="Geopotential">True for geopotential heights.</param>
internal readonly record struct WindColumnName(int Index, string Name, double Factor, double Offset = 0,
    bool Geopotential = false);

/// <summary>Finds the columns of a wind table by the words in its header: a quantity and a unit.</summary>
internal static class WindColumns
{
    private static readonly char[] Between = [' ', '_', '-', '(', ')', '[', ']', '.', ':'];

    private static readonly ImmutableArray<string> HeightWords = ["height", "alt", "altitude", "gph", "geopotential",
        "z", "hght"];
    private static readonly ImmutableArray<string> DirectionWords = ["dir", "direction", "from", "drct", "wdir"];
    private static readonly ImmutableArray<string> SpeedWords = ["speed", "spd", "wspd", "sped", "windspeed"];
    private static readonly ImmutableArray<string> PressureWords = ["p", "pressure", "pres", "press"];
    private static readonly ImmutableArray<string> TemperatureWords = ["t", "temp", "temperature"];

    private static readonly ImmutableArray<(string Word, double Factor)> Lengths =
        [("m", 1), ("metres", 1), ("meters", 1), ("km", 1000), ("ft", FootM), ("feet", FootM)];

    private static readonly ImmutableArray<(string Word, double Factor)> Speeds =
    [
        ("mps", 1), ("m/s", 1), ("ms", 1), ("kt", KnotMps), ("kts", KnotMps), ("kn", KnotMps),
        ("knots", KnotMps), ("km/h", 1 / 3.6), ("kmh", 1 / 3.6), ("kph", 1 / 3.6), ("mph", MileM / 3600),
    ];

    private static readonly ImmutableArray<(string Word, double Factor)> Pressures =
        [("hpa", 100), ("mb", 100), ("mbar", 100), ("pa", 1), ("kpa", 1000)];

    /// <summary>The words of a header cell.</summary>
    private static string[] Words(string header) =>
        header.Trim().Trim('"').ToLowerInvariant().Replace("°", " deg ", StringComparison.Ordinal)
            .Split(Between, StringSplitOptions.RemoveEmptyEntries);

    /// <summary>True for a line that names a height, a direction and a speed.</summary>
    public static bool AreIn(string[] header) => Find(header, HeightWords).Length > 0
        && Find(header, DirectionWords).Length > 0 && Find(header, SpeedWords).Length > 0;

    /// <summary>The column of heights; geometric ones go before geopotential ones.</summary>
    public static WindColumnName Height(string[] header, Func<string, UserErrorException> wrong)
    {
        int[] all = Find(header, HeightWords);
        int at = all.OrderBy(i => IsGeopotential(header[i]) ? 1 : 0).First();
        if (Words(header[at]) is var words && (words.Contains("agl") || words.Contains("ground")))
            throw wrong($"column {header[at]}: heights must be above mean sea level; add the ground's height");
        return new(at, header[at], Unit(header[at], Lengths, wrong), 0, IsGeopotential(header[at]));
    }

    /// <summary>The column of directions the wind comes from.</summary>
    public static WindColumnName Direction(string[] header, Func<string, UserErrorException> wrong)
    {
        int at = Find(header, DirectionWords)[0];
        string[] words = Words(header[at]);
        if (words.Any(w => w is "mag" or "magnetic" or "to" or "towards" or "rad" or "radians"))
            throw wrong($"column {header[at]}: degrees true from which the wind comes are needed, such as from_deg");
        return new(at, header[at], 1);
    }

    /// <summary>The column of speeds.</summary>
    public static WindColumnName Speed(string[] header, Func<string, UserErrorException> wrong)
    {
        int at = Find(header, SpeedWords)[0];
        return new(at, header[at], Unit(header[at], Speeds, wrong));
    }

    /// <summary>The column of pressures; null when there is none with a unit.</summary>
    public static WindColumnName? Pressure(string[] header)
    {
        foreach (int at in Find(header, PressureWords))
            if (UnitOf(header[at], Pressures) is { } factor) return new(at, header[at], factor);
        return null;
    }

    /// <summary>The column of air temperatures in °C or K; null when there is none.</summary>
    public static WindColumnName? Temperature(string[] header)
    {
        foreach (int at in Find(header, TemperatureWords))
        {
            string[] words = Words(header[at]);
            if (words.Contains("c")) return new(at, header[at], 1);
            if (words.Contains("k")) return new(at, header[at], 1, -273.15);
        }

        return null;
    }

    private static bool IsGeopotential(string header) => Words(header).Any(w => w is "gph" or "geopotential" or "hght");

    private static int[] Find(string[] header, ImmutableArray<string> quantity) =>
        [.. Enumerable.Range(0, header.Length).Where(i => Words(header[i]).Any(w => quantity.Contains(w)))];

    private static double? UnitOf(string header, ImmutableArray<(string Word, double Factor)> units)
    {
        foreach (string word in Words(header))
            foreach ((string name, double factor) in units)
                if (word == name) return factor;
        return null;
    }

    private static double Unit(string header, ImmutableArray<(string Word, double Factor)> units,
        Func<string, UserErrorException> wrong) =>
            UnitOf(header, units) ?? throw wrong($"column {header.Trim()}: its unit is "
            + $"not told; name it such as {header.Trim()}_{units[0].Word} (known: "
            + string.Join(' ', units.Select(u => u.Word)) + ")");
}
