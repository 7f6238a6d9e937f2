using Groundstation.Core.Simulation;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Toml;
using Tomlyn.Syntax;
using static Groundstation.Io.Toml.TomlFile;

namespace Groundstation.Io.Scenarios;

/// <summary>
/// Reads a scenario file (TOML), from which a flight is simulated. The first thing wrong ends it with exactly one line:
/// <c>FILE:LINE: KEY …: what is allowed</c>. What is not given keeps its default.
/// </summary>
public sealed class ScenarioFile
{
    private const int MaxBytes = 1 << 20, MaxRows = 1000;

    private static readonly string[] _needed =
        ["flight.launch_utc", "launch.latitude_deg", "launch.longitude_deg", "launch.height_m"];

    private readonly string _file;
    private readonly TomlFile _toml;
    private readonly Dictionary<string, int> _lines = [];
    private readonly Dictionary<string, int> _rows = [];
    private Scenario _scenario = new() { LaunchUtc = default, LaunchSite = default };

    private ScenarioFile(string file) => (_file, _toml) = (file, new TomlFile(file, "scenario"));

    /// <summary>Reads a file.</summary>
    /// <exception cref="UserErrorException">It is missing, no TOML, or has a wrong key or value.</exception>
    public static Scenario Read(string path) => Parse(Text(path, "scenario", MaxBytes), path);

    /// <summary>Reads text; <paramref name="file"/> is only for the error line.</summary>
    /// <exception cref="UserErrorException">It is no TOML, or has a wrong key or value.</exception>
    public static Scenario Parse(string text, string file)
    {
        ScenarioFile reader = new(file);
        DocumentSyntax document = reader._toml.Parse(text);
        reader.Take("", document.KeyValues);
        foreach (TableSyntaxBase table in document.Tables)
            reader.Take(table);
        return reader.Finish();
    }

    private void Take(TableSyntaxBase table)
    {
        string section = NameOf(table.Name!);
        int line = table.Span.Start.Line + 1;
        if (EquipmentKeys.Rows.FirstOrDefault(row => row.Name == section) is { } row)
        {
            if (table is not TableArraySyntax)
                throw _toml.Wrong(line, $"[{section}]", $"written [[{section}]], as often as needed");
            Take(row, line, table.Items);
            return;
        }

        if (!ScenarioKeys.All.Any(key => key.Name.StartsWith(section + ".", StringComparison.Ordinal)))
        {
            throw _toml.Unknown(line, $"[{section}]", section, ScenarioKeys.All.Select(k => k.Name.Split('.')[0])
                .Concat(EquipmentKeys.Rows.Select(r => r.Name)));
        }

        if (table is TableArraySyntax)
            throw _toml.Wrong(line, $"[[{section}]]", $"it may stand once, as [{section}]");
        Take(section + ".", table.Items);
    }

    // The mass first: a descent rate turns into a drag area by it, wherever it stands.
    private void Take(string prefix, IEnumerable<KeyValueSyntax> entries)
    {
        foreach (KeyValueSyntax entry in entries.OrderBy(e => NameOf(e.Key!).EndsWith("mass_kg") ? 0 : 1))
            Take(prefix, entry);
    }

    private void Take(string prefix, KeyValueSyntax entry)
    {
        string name = prefix + NameOf(entry.Key!);
        int line = entry.Span.Start.Line + 1;
        if (entry.Value is InlineTableSyntax inline)
        {
            Take(name + ".", inline.Items.Select(item => item.KeyValue!));
            return;
        }

        ScenarioKey key = ScenarioKeys.All.FirstOrDefault(k => k.Name == name)
            ?? throw _toml.Unknown(line, name, name, ScenarioKeys.All.Select(k => k.Name));
        _scenario = key.Set(_scenario, entry.Value!)
            ?? throw _toml.Wrong(line, $"{name} = {Shown(entry.Value!)}", key.Allowed);
        _lines.Add(name, line);
    }

    private void Take(ScenarioRow row, int line, IEnumerable<KeyValueSyntax> entries)
    {
        double?[] values = new double?[row.Keys.Length];
        foreach (KeyValueSyntax entry in entries)
        {
            string key = NameOf(entry.Key!);
            int at = entry.Span.Start.Line + 1;
            int i = Array.FindIndex(row.Keys, known => known.Key == key);
            if (i < 0)
                throw _toml.Unknown(at, $"{row.Name}.{key}", key, row.Keys.Select(known => known.Key));
            (_, double min, double max, string unit) = row.Keys[i];
            values[i] = PlanKey.Real(entry.Value!) is { } v && v >= min && v <= max ? v
                : throw _toml.Wrong(at, $"{row.Name}.{key} = {Shown(entry.Value!)}", PlanKey.Range(min, max, unit, ""));
        }

        int missing = row.Required ? Array.IndexOf(values, null) : -1;
        if (missing >= 0)
        {
            (string key, double min, double max, string unit) = row.Keys[missing];
            throw _toml.Wrong(line, $"{row.Name}.{key} missing", PlanKey.Range(min, max, unit, ""));
        }

        int count = _rows[row.Name] = _rows.GetValueOrDefault(row.Name) + 1;
        if (count > MaxRows)
            throw _toml.Wrong(line, $"[[{row.Name}]]", $"at most {MaxRows} of them");
        (_scenario, string? wrong) = row.Add(_scenario, values);
        if (wrong is not null)
            throw _toml.Wrong(line, $"[[{row.Name}]]", wrong);
    }

    /// <summary>What only the whole file shows.</summary>
    private Scenario Finish()
    {
        foreach (string name in _needed)
        {
            if (_lines.ContainsKey(name))
                continue;
            string allowed = ScenarioKeys.All.First(k => k.Name == name).Allowed;
            throw new UserErrorException($"{_file}: {name} missing: {allowed}");
        }

        if (_lines.TryGetValue("parachute.drag_area_m2", out int area)
            && _lines.TryGetValue("parachute.descent_rate_mps", out int rate))
        {
            throw _toml.Wrong(Math.Max(area, rate), "parachute.drag_area_m2 and descent_rate_mps",
                "one of the two, not both");
        }

        if (_scenario.Balloon.BurstHeight.Metres <= _scenario.LaunchHeight.Metres)
        {
            throw _toml.Wrong(_lines.GetValueOrDefault("balloon.burst_height_m", _lines["launch.height_m"]),
                "balloon.burst_height_m", "a height above launch.height_m");
        }

        return _lines.ContainsKey("landing.ground_m")
            ? _scenario
            : _scenario with { LandingGround = _scenario.LaunchHeight };
    }
}
