using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;

namespace Groundstation.Io.Winds;

/// <summary>
/// Upper-air reports of land stations as groups of five figures: WMO FM 35 TEMP, parts A to D (TTAA TTBB TTCC TTDD),
/// and the winds by height of FM 32 PILOT (PPBB PPDD). Parts of one station and hour make one sounding.
/// </summary>
internal static partial class TempReport
{
    /// <summary>True for a line in which a part begins.</summary>
    public static bool Begins(string line) => Part().IsMatch(line);

    /// <summary>The soundings of one station.</summary>
    /// <exception cref="UserErrorException">A group is wrong, which station is not clear, or no part has a
    /// wind.</exception>
    public static ImmutableArray<WindForecast> Read(IReadOnlyList<string> lines, string file, string? station)
    {
        List<TempPart> parts = [];
        TempPart? open = null;
        for (int i = 0; i < lines.Count; i++)
        {
            foreach (Match word in Words().Matches(lines[i]))
            {
                string text = word.Value.TrimEnd('=');
                if (Part().IsMatch(text)) parts.Add(open = new TempPart(text, i + 1));
                else if (text.Length > 0) open?.Groups.Add((text, i + 1));
                if (word.Value.EndsWith('=')) open = null;
            }
        }

        TempPart[] told = [.. parts.Where(p => p.Groups.All(g => g.Text != "NIL") && p.Begin(file))];
        if (told.Length == 0)
            throw new UserErrorException($"{file}: all parts are NIL, nothing was observed; get another");
        return [.. WindFiles.Of(file, station, told, p => p.Station).GroupBy(p => (p.Day, p.Hour))
            .Select(same => Sounding([.. same], file))];
    }

    private static WindForecast Sounding(TempPart[] parts, string file)
    {
        List<string> notes = [];
        List<RawLevel> raw = [];
        foreach (TempPart part in parts.OrderBy(p => p.Name, StringComparer.Ordinal))
            new TempLevels(part, file, raw, notes).Read();
        ImmutableArray<ForecastLevel> levels = RawLevels.Build(raw, notes);
        string names = string.Join(' ', parts.Select(p => p.Name).Distinct());
        if (levels.IsEmpty)
        {
            throw new UserErrorException($"{file}:{parts[0].Line}: station {parts[0].Station}: no wind with a "
                + $"height in {names}; add the parts TTAA and TTCC or choose another report");
        }

        if (!parts.Any(p => p.Name is "TTCC"))
            notes.Add("part TTCC is missing: nothing is told above 100 hPa, about 16 km");
        return new WindForecast
        {
            Source = $"{Path.GetFileName(file)}: upper-air report {names}, station {parts[0].Station}",
            Origin = WindOrigin.Measured,
            Valid = new ReportTime(null, parts[0].Day, parts[0].Hour * 60),
            Levels = levels,
            Notes = [.. notes.Distinct()],
        };
    }

    [GeneratedRegex(@"\b(TTAA|TTBB|TTCC|TTDD|PPBB|PPDD)\b")]
    private static partial Regex Part();

    [GeneratedRegex(@"[^\s\u0001\u0003]+")]
    private static partial Regex Words();
}

/// <summary>One part of a report: its groups, and what its first two say.</summary>
/// <param name="name">TTAA and the like.</param>
/// <param name="line">Where it begins.</param>
internal sealed class TempPart(string name, int line)
{
    public string Name => name;

    public int Line => line;

    public List<(string Text, int Line)> Groups { get; } = [];

    public string Station { get; private set; } = "";

    public int Day { get; private set; }

    public int Hour { get; private set; }

    /// <summary>True when speeds are in knots.</summary>
    public bool Knots { get; private set; }

    /// <summary>
    /// The figure for the highest standard level with a wind: hundreds of hPa in TTAA, tens in TTCC; / for none.
    /// </summary>
    public char WindsUpTo { get; private set; }

    /// <summary>
    /// Takes day, hour and station: <c>YYGGI IIiii</c>, 50 added to the day where speeds are in knots. False for a part
    /// that ends before that.
    /// </summary>
    public bool Begin(string file)
    {
        if (Groups.Count < 2) return false;
        string time = Groups[0].Text, station = Groups[1].Text;
        int? day = time.Length == 5 ? TempGroups.Number(time[..2]) : null, hour = day is null
            ? null : TempGroups.Number(time[2..4]);
        if (day is not (>= 1 and <= 31 or >= 51 and <= 81) || hour is not <= 23 || station.Length != 5
            || TempGroups.Number(station) is null)
        {
            throw new UserErrorException($"{file}:{Groups[0].Line}: {name} {time} {station}: day, hour and station "
                + "YYGGI IIiii expected; get the report again");
        }

        (Knots, Day, Hour, WindsUpTo, Station) = (day > 50, day.Value % 50, hour!.Value, time[4], station);
        if (Day == 0) Day = 50;
        Groups.RemoveRange(0, 2);
        return true;
    }
}
