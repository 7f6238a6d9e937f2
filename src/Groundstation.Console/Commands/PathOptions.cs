using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Console.Sheets;
using Groundstation.Console.Window;
using Groundstation.Core.Earth;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io;
using Groundstation.Io.Exports;
using Groundstation.Io.Terrain;

namespace Groundstation.Console.Commands;

/// <summary>The part of <c>plan</c> that works out the path before launch: its options and its text.</summary>
internal sealed class PathOptions
{
    // Rows that fit beside each other on a page; more launch times are asked for with --launch.
    private const int MostLaunches = 13;

    private static readonly string[] Forms = ["yyyy-MM-dd'T'HH:mm'Z'", "yyyy-MM-dd'T'HH:mm:ss'Z'",
        "yyyy-MM-dd'T'HH'Z'"];

    /// <summary>Says which moments <c>--launch</c> stands for.</summary>
    public PathOptions() => Launch.Validators.Add(result =>
    {
        foreach (System.CommandLine.Parsing.Token token in result.Tokens)
            if (!TryUtc(token.Value, out _)) result.AddError("--launch takes a time in UTC such as 2026-06-21T09:00Z");
    });

    /// <summary><c>--launch UTC</c>.</summary>
    public Option<string[]> Launch { get; } = new("--launch")
    {
        Description = "Launch time, UTC, such as 2026-06-21T09:00Z; may be given more than once; default: the "
            + "times that the wind files tell, and the hours between",
        HelpName = "UTC",
    };

    /// <summary><c>--out DIR</c>.</summary>
    public Option<string?> Out { get; } = new("--out")
    { Description = "Folder for path.geojson, path.gpx and path.kml", HelpName = "DIR" };

    /// <summary><c>--ascii</c>.</summary>
    public Option<bool> Ascii { get; } = new("--ascii")
    {
        Description = "The map in ASCII instead of braille",
        DefaultValueFactory = _ => ConsoleRunner.WantsAscii(Environment.GetEnvironmentVariable),
    };

    /// <summary>
    /// The plan with the first launch time wanted in the place of its own: sheet and notice go by it.
    /// </summary>
    public FlightPlan AtLaunch(ParseResult parsed, FlightPlan plan) =>
        parsed.GetValue(Launch) is [var first, ..] && TryUtc(first, out Instant at)
            ? plan with { LaunchUtc = at } : plan;

    /// <summary>The flights for the launch times wanted; none when the plan lacks what they need.</summary>
    public PlannedFlight[] Flights(ParseResult parsed, FlightPlan plan)
    {
        if (Missing(plan) is { } missing)
        {
            return parsed.GetValue(Out) is null && parsed.GetValue(Launch) is null or [] ? []
                : throw new UserErrorException($"the path before launch needs {missing} in the plan");
        }

        Func<GeoPoint, double?>? terrain = Terrain(plan);
        return [.. Moments(parsed, plan).Select(at => PlannedFlight.Of(plan, at, terrain))];
    }

    /// <summary>The sheet of the path, or why there is none; files are written where wanted.</summary>
    public string Text(ParseResult parsed, FlightPlan plan, PlannedFlight[] flights)
    {
        if (flights.Length == 0)
        {
            string why = $"not worked out, the plan has no {Missing(plan)}";
            return "\n" + SheetSection.Join([new SheetSection("Path before launch").Line(why)]);
        }

        bool ascii = parsed.GetValue(Ascii);
        List<string> lines = ["", .. new PathSheet(plan, new Figures(plan.Units, ascii), Terrain(plan)).Lines(flights)];
        if (parsed.GetValue(Out) is { } folder)
            lines.Add("written: " + string.Join(", ", PlannedMap.Write(PlannedMap.Of(plan.Name, flights), folder)));
        return string.Join('\n', lines.Select(line =>
            string.Concat(Glyphs.Spelt(line, ascii).Select(c => Glyphs.Safe(c, ascii))))) + "\n";
    }

    private static Func<GeoPoint, double?>? Terrain(FlightPlan plan)
    {
        if (plan.TerrainFolder is not { } tiles) return null;
        HgtTerrain terrain = HgtTerrain.Open(tiles);
        return place => terrain.HeightAt(place)?.Metres;
    }

    private static string? Missing(FlightPlan plan) =>
        plan.LaunchSite is null ? "launch.latitude_deg and longitude_deg"
        : plan.Winds.IsEmpty
            ? "winds = [\"FILE\", …] at the top (a bulletin, an upper-air report, a sounding or a table)" : null;

    private ImmutableArray<Instant> Moments(ParseResult parsed, FlightPlan plan)
    {
        if (parsed.GetValue(Launch) is { Length: > 0 } given)
            return [.. given.Select(text => TryUtc(text, out Instant at) ? at : default)];
        if (plan.LaunchUtc is { } planned) return [planned];
        Instant now = Instant.FromUnixMilliseconds(TimeProvider.System.GetUtcNow().ToUnixTimeMilliseconds());
        ImmutableArray<Instant> told = PlannedFlight.Moments(plan, now, MostLaunches);
        return told.IsEmpty ? [now] : told;
    }

    private static bool TryUtc(string text, out Instant utc)
    {
        bool good = DateTime.TryParseExact(text, Forms, CultureInfo.InvariantCulture,
            DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out DateTime at);
        utc = good ? new Instant(at.Ticks - DateTime.UnixEpoch.Ticks) : default;
        return good && at.Year is >= 1950 and < 2200;
    }
}
