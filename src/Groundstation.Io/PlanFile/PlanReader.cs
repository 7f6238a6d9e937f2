using System.Collections.Immutable;
using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Io.Toml;
using Tomlyn.Syntax;
using static Groundstation.Io.Toml.TomlFile;

namespace Groundstation.Io.PlanFile;

/// <summary>
/// Reads a plan file (TOML). The first thing wrong ends it with exactly one line: <c>FILE:LINE: KEY …: what is
/// allowed</c>. A key may stand once; what is not given keeps its default.
/// </summary>
public sealed class PlanReader
{
    /// <summary>Largest plan file read, bytes: a plan with a wind forecast of a hundred levels has 6 kB.</summary>
    public const int MaxBytes = 1 << 20;

    private const int MaxLevels = 500;

    private readonly TomlFile _toml;
    private readonly Dictionary<string, int> _lines = [];
    private readonly List<(int Line, ForecastLevel Level)> _wind = [];
    private FlightPlan _plan = FlightPlan.Default;

    private PlanReader(string file) => _toml = new TomlFile(file, "plan");

    /// <summary>Reads a file.</summary>
    /// <exception cref="UserErrorException">It is missing, no TOML, or has a wrong key or value.</exception>
    public static FlightPlan Read(string path)
    {
        FlightPlan plan = Parse(Text(path, "plan", MaxBytes), path);
        // From here on the plan may be kept elsewhere: a folder named relative to it would no longer be found.
        return plan.TerrainFolder is not { } folder ? plan : plan with
        {
            TerrainFolder = Path.GetFullPath(folder, Path.GetDirectoryName(Path.GetFullPath(path))!),
        };
    }

    /// <summary>Reads text; <paramref name="file"/> is only for the error line.</summary>
    /// <exception cref="UserErrorException">It is no TOML, or has a wrong key or value.</exception>
    public static FlightPlan Parse(string text, string file)
    {
        PlanReader reader = new(file);
        DocumentSyntax document = reader._toml.Parse(text);
        foreach (KeyValueSyntax entry in document.KeyValues)
            reader.Take("", entry);
        foreach (TableSyntaxBase table in document.Tables)
            reader.Take(table);
        return reader.Finish();
    }

    private void Take(TableSyntaxBase table)
    {
        string section = NameOf(table.Name!);
        int line = table.Span.Start.Line + 1;
        if (section == "wind")
        {
            if (table is not TableArraySyntax)
                throw _toml.Wrong(line, "[wind]", "levels are written [[wind]], one block a level");
            Level(line, table.Items);
            return;
        }

        if (!PlanKeys.All.Any(key => key.Name.StartsWith(section + ".", StringComparison.Ordinal)))
            throw _toml.Unknown(line, $"[{section}]", section, PlanKeys.All.Select(k => k.Name.Split('.')[0]).Append("wind"));
        if (table is TableArraySyntax)
            throw _toml.Wrong(line, $"[[{section}]]", $"it may stand once, as [{section}]");
        foreach (KeyValueSyntax entry in table.Items)
            Take(section + ".", entry);
    }

    private void Take(string prefix, KeyValueSyntax entry)
    {
        string name = prefix + NameOf(entry.Key!);
        int line = entry.Span.Start.Line + 1;
        if (entry.Value is InlineTableSyntax inline && name != "wind")
        {
            foreach (InlineTableItemSyntax item in inline.Items)
                Take(name + ".", item.KeyValue!);
            return;
        }

        if (entry.Value is ArraySyntax levels && name == "wind")
        {
            foreach (ArrayItemSyntax item in levels.Items)
            {
                int at = item.Span.Start.Line + 1;
                if (item.Value is not InlineTableSyntax level)
                    throw _toml.Wrong(at, "wind", "each level is { height_m = …, from_deg = …, speed_mps = … }");
                Level(at, level.Items.Select(part => part.KeyValue!));
            }

            return;
        }

        PlanKey key = PlanKeys.All.FirstOrDefault(k => k.Name == name)
            ?? throw _toml.Unknown(line, name, name, PlanKeys.All.Select(k => k.Name));
        _plan = key.Set(_plan, entry.Value!) ?? throw _toml.Wrong(line, $"{name} = {Shown(entry.Value!)}", key.Allowed);
        _lines.Add(name, line);
    }

    private void Level(int line, IEnumerable<KeyValueSyntax> entries)
    {
        double?[] values = new double?[PlanKeys.Wind.Length];
        foreach (KeyValueSyntax entry in entries)
        {
            string key = NameOf(entry.Key!);
            int at = entry.Span.Start.Line + 1;
            int i = Array.FindIndex(PlanKeys.Wind, known => known.Key == key);
            if (i < 0)
                throw _toml.Unknown(at, "wind." + key, key, PlanKeys.Wind.Select(known => known.Key));
            (_, double min, double max, string allowed) = PlanKeys.Wind[i];
            values[i] = PlanKey.Real(entry.Value!) is { } v && v >= min && v <= max
                ? v : throw _toml.Wrong(at, $"wind.{key} = {Shown(entry.Value!)}", allowed);
        }

        int missing = Array.IndexOf(values, null);
        if (missing >= 0)
            throw _toml.Wrong(line, $"wind.{PlanKeys.Wind[missing].Key} missing", PlanKeys.Wind[missing].Allowed);
        if (_wind.Count == MaxLevels)
            throw _toml.Wrong(line, "wind", $"at most {MaxLevels} levels");
        HeightMsl height = new(values[0]!.Value);
        if (_wind.FirstOrDefault(w => w.Level.Height == height) is { Line: > 0 } twice)
            throw _toml.Wrong(line, $"wind.height_m = {values[0]}", $"another height than in line {twice.Line}");
        _wind.Add((line, new ForecastLevel(height, WindVector.FromDirection(values[1]!.Value, values[2]!.Value))));
    }

    /// <summary>What only the whole file shows: keys that go together, and defaults that follow from others.</summary>
    private FlightPlan Finish()
    {
        Pair("launch.latitude_deg", "launch.longitude_deg");
        Pair("launch.longitude_deg", "launch.latitude_deg");
        if (_lines.TryGetValue("parachute.drag_area_m2", out int area)
            && _lines.TryGetValue("parachute.descent_rate_mps", out int rate))
            throw _toml.Wrong(Math.Max(area, rate), "parachute.drag_area_m2 and descent_rate_mps",
                "one of the two, not both");
        Below("alarms.ascent_slow_mps", _plan.Alarms.AscentSlowMps, "alarms.ascent_fast_mps",
            _plan.Alarms.AscentFastMps);
        Below("alarms.descent_slow_mps", _plan.Alarms.DescentSlowMps, "alarms.descent_fast_mps",
            _plan.Alarms.DescentFastMps);
        Below("launch.height_m", _plan.LaunchHeight?.Metres ?? double.MinValue, "balloon.burst_height_m",
            _plan.BurstHeight.Metres);

        FlightPlan plan = _plan with
        {
            Forecast = [.. _wind.Select(w => w.Level).OrderBy(level => level.Height.Metres)],
            Stated = [.. PlanKeys.All.Select(k => k.Name).Where(_lines.ContainsKey), .. Wind()],
        };
        if (plan.CanopyDragAreaM2 is { } dragArea)
            plan = plan with { DescentRateSeaLevelMps = PlanDefaults.DescentRate(plan.DescentMassKg, dragArea) };
        bool rateKnown = plan.CanopyDragAreaM2 is not null || _lines.ContainsKey("parachute.descent_rate_mps");
        if (rateKnown && !_lines.ContainsKey("parachute.descent_rate_ln_sigma"))
            plan = plan with { DescentRateLnSigma = PlanDefaults.PlannedRateLnSigma };
        if (_lines.ContainsKey("balloon.burst_height_m") && !_lines.ContainsKey("balloon.burst_sigma_m"))
            plan = plan with { BurstSigmaM = PlanDefaults.PlannedBurstSigmaM };
        return plan;

        ImmutableArray<string> Wind() => _wind.Count > 0 ? ["wind"] : [];
    }

    private void Pair(string given, string needed)
    {
        if (_lines.TryGetValue(given, out int line) && !_lines.ContainsKey(needed))
            throw _toml.Wrong(line, given, $"only together with {needed}");
    }

    private void Below(string low, double lowValue, string high, double highValue)
    {
        int line = Math.Max(_lines.GetValueOrDefault(low), _lines.GetValueOrDefault(high));
        if (line > 0 && lowValue >= highValue)
        {
            throw _toml.Wrong(line, _lines.GetValueOrDefault(low) == line ? low : high, string.Create(
                System.Globalization.CultureInfo.InvariantCulture, $"{low} ({lowValue}) below {high} ({highValue})"));
        }
    }
}
