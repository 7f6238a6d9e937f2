using System.Collections.Immutable;
using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Io.Overlays;
using Groundstation.Io.Toml;
using Tomlyn.Syntax;
using static Groundstation.Io.Toml.TomlFile;

namespace Groundstation.Io.PlanFile;

/// <summary>
/// Reads a plan file (TOML). The first thing wrong ends it with exactly one line: <c>FILE:LINE: KEY …: what is
/// allowed</c>. A key may stand once; what is not given keeps its default.
/// </summary>
public sealed partial class PlanReader
{
    /// <summary>Largest plan file read, bytes: a plan with a wind forecast of a hundred levels has 6 kB.</summary>
    public const int MaxBytes = 1 << 20;

    private const int MaxLevels = 500, MaxWindFiles = 100;

    private readonly TomlFile _toml;
    private readonly Dictionary<string, int> _lines = [];
    private readonly List<(int Line, ForecastLevel Level)> _wind = [];
    private ImmutableArray<string> _windFiles = [];
    private FlightPlan _plan = FlightPlan.Default;

    private PlanReader(string file) => _toml = new TomlFile(file, "plan");

    /// <summary>Reads a file, and the map files that it names.</summary>
    /// <exception cref="UserErrorException">One is missing or wrong.</exception>
    public static FlightPlan Read(string path)
    {
        FlightPlan plan = Parse(Text(path, "plan", MaxBytes), path);
        // From here on the plan may be kept elsewhere: what is named relative to it would no longer be found.
        string here = Path.GetDirectoryName(Path.GetFullPath(path))!;
        ImmutableArray<string> maps = [.. plan.KeepOutFiles.Select(file => Path.GetFullPath(file, here))];
        ImmutableArray<string> winds = [.. plan.WindFiles.Select(file => Path.GetFullPath(file, here))];
        return plan with
        {
            TerrainFolder = plan.TerrainFolder is { } folder ? Path.GetFullPath(folder, here) : null,
            WindFiles = winds,
            Winds = winds.IsEmpty ? plan.Winds : [.. winds.SelectMany(file => Winds.WindFiles.Read(file))],
            KeepOutFiles = maps,
            Overlays = OverlayFiles.Read(maps),
        };
    }

    /// <summary>
    /// Reads text; <paramref name="file"/> is only for the error line. Wind files are named, not read.
    /// </summary>
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
            throw _toml.Unknown(line, $"[{section}]", section,
                PlanKeys.All.Select(k => k.Name.Split('.')[0]).Append("wind"));
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

        if (NameOf(entry.Key!) == "winds")
        {
            if (prefix.Length > 0)
                throw _toml.Wrong(line, name, "it stands at the top of the file, before the first [section]");
            WindFilesOf(entry.Value!, line);
            _lines.Add(name, line);
            return;
        }

        PlanKey key = PlanKeys.All.Select(k => k.As(name)).FirstOrDefault(k => k is not null)
            ?? throw _toml.Unknown(line, name, name, PlanKeys.All.Select(k => k.Name));
        _plan = key.Set(_plan, entry.Value!) ?? throw _toml.Wrong(line, $"{name} = {Shown(entry.Value!)}", key.Allowed);
        if (!_lines.TryAdd(key.Name, line))
            throw _toml.Wrong(line, name, $"stated already in line {_lines[key.Name]}");
    }

    private void WindFilesOf(ValueSyntax value, int line)
    {
        string[] names = value is ArraySyntax array
            ? [.. array.Items.Select(item => (item.Value as StringValueSyntax)?.Value ?? "")] : [""];
        if (names.Length is 0 or > MaxWindFiles
            || names.Any(name => name.Length == 0 || name.Any(UserErrorException.IsUnseen)))
        {
            throw _toml.Wrong(line, $"winds = {Shown(value)}", $"a list of 1 to {MaxWindFiles} files, such as "
                + "[\"winds.csv\", \"bulletin.txt#STATION\"]");
        }

        _windFiles = [.. names];
    }

    private void Level(int line, IEnumerable<KeyValueSyntax> entries)
    {
        double?[] values = new double?[PlanKeys.Wind.Length];
        foreach (KeyValueSyntax entry in entries)
        {
            string key = NameOf(entry.Key!);
            int at = entry.Span.Start.Line + 1;
            int i = Array.FindIndex(PlanKeys.Wind, known => known.Key == key || Unit.Match(key, known.Key) is not null);
            if (i < 0)
                throw _toml.Unknown(at, "wind." + key, key, PlanKeys.Wind.Select(known => known.Key));
            (string own, double min, double max, string allowed) = PlanKeys.Wind[i];
            double? number = PlanKey.Real(entry.Value!) is { } given && Unit.Match(key, own) is var (unit, ownUnit)
                ? unit.In(ownUnit, given) : PlanKey.Real(entry.Value!);
            values[i] = number is { } v && v >= min && v <= max
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
}
