using System.Collections.Immutable;
using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Console.Commands;
using Groundstation.Console.Plots;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Console.Sheets;

/// <summary>
/// The path before launch as text: what the winds rest on, a row for each launch time, one launch in full, a map.
/// </summary>
/// <param name="plan">The plan.</param>
/// <param name="fig">Units.</param>
/// <param name="terrain">Height of the terrain at a place, metres above mean sea level; null: there are no tiles.</param>
internal sealed class PathSheet(FlightPlan plan, Figures fig, Func<GeoPoint, double?>? terrain = null)
{
    private const int MapColumns = 80, MapRows = 22;

    // Winds older than this, or this far ahead, say little more than the season does.
    private const double OldS = 48 * 3600;

    // Levels further apart than this leave a layer to guess at.
    private const double GapM = 2500;

    /// <summary>The sheet.</summary>
    /// <param name="flights">One for each launch time, at least one.</param>
    public IEnumerable<string> Lines(IReadOnlyList<PlannedFlight> flights)
    {
        yield return "Path before launch";
        foreach (string line in Winds(flights).SelectMany(line => Fitting(line, 12))) yield return line;
        yield return "";
        yield return "  launch (UTC)       landing              from launch     at    95 of 100 within";
        foreach (PlannedFlight flight in flights)
        {
            yield return Row(flight);
            if (flight.Winds is { OutsideS: > 1800 and var s })
                yield return $"    ! {Figures.Span(s)} outside the times told";
            foreach (string line in KeepOuts(flight).SelectMany(line => Fitting(line, 6))) yield return line;
        }
        yield return "";
        foreach (string line in InFull(flights[0]).SelectMany(line => Fitting(line, 14))) yield return line;
        yield return "";
        foreach (string line in Map(flights[0])) yield return line;
    }

    /// <summary>The landing area in words, for a notice.</summary>
    public static string LandingArea(PlannedFlight flight, FlightPlan plan)
    {
        Figures fig = new(plan.Units, false);
        SearchArea area = flight.Landing.Area95;
        return $"near {Figures.Place(flight.Landing.Position)} about {Clock(flight.Landing.LandingUtc)} UTC, 95 of 100 "
            + $"within {fig.Axes(area.MajorM, area.MinorM)} of it, long axis along {fig.Bearing(area.AzimuthDeg)}, "
            + $"for a launch at {Minute(flight.Launch.Utc)}";
    }

    /// <summary>A line as lines of a sheet's width; those behind the first begin at a column.</summary>
    private static IEnumerable<string> Fitting(string line, int hang)
    {
        while (line.Length > SheetSection.Width
            && line.LastIndexOf(' ', SheetSection.Width) is var blank && blank > hang)
        {
            yield return line[..blank].TrimEnd();
            line = new string(' ', hang) + line[blank..].TrimStart();
        }

        yield return line;
    }

    private IEnumerable<string> Winds(IReadOnlyList<PlannedFlight> flights)
    {
        Instant launch = flights[0].Launch.Utc;
        foreach (WindForecast winds in plan.Winds)
        {
            yield return "  winds   " + winds.Source;
            yield return "          " + Times(winds, launch);
            yield return $"          told from {fig.Height(winds.Bottom.Metres)} to {fig.Height(winds.Top.Metres)} in "
                + $"{winds.Levels.Length} levels";
            foreach (string warning in Doubts(winds, launch)) yield return "          ! " + warning;
            foreach (string note in winds.Notes) yield return "          " + note;
        }
    }

    private static string Times(WindForecast winds, Instant launch)
    {
        if (winds.Valid is not { } valid) return "its time is not told: taken as a forecast a day ahead";
        Instant at = valid.Near(launch);
        string told = winds.BasedOn is { } based ? $"computed from {Minute(based.Near(at))}, " : "";
        string kind = winds.Origin == WindOrigin.Measured ? "measured" : "for";
        double before = launch.SecondsSince(at);
        return $"{kind} {Minute(at)}, {told}" + (Math.Abs(before) < 60 ? "at the first launch"
            : Figures.Span(before) + (before > 0 ? " before" : " after") + " the first launch");
    }

    private IEnumerable<string> Doubts(WindForecast winds, Instant launch)
    {
        if (winds.Top.Metres < plan.BurstHeight.Metres)
        {
            yield return $"above {fig.Height(winds.Top.Metres)} the wind is unknown up to the burst at "
                + $"{fig.Height(plan.BurstHeight.Metres)}: the area allows for it";
        }

        for (int i = 1; i < winds.Levels.Length; i++)
        {
            (double low, double high) = (winds.Levels[i - 1].Height.Metres, winds.Levels[i].Height.Metres);
            if (high - low > GapM) yield return $"nothing told between {fig.Height(low)} and {fig.Height(high)}";
        }

        if (winds.Valid is { } valid && Math.Abs(valid.Near(launch).SecondsSince(launch)) > OldS)
            yield return "more than two days from the first launch: get newer winds";
        if (plan.LaunchSite is { } site && winds.Place is { } place
            && Geodesic.DistanceM(site, place) is > 200_000 and var far)
            yield return $"its place is {fig.Distance(far)} from the launch site";
    }

    private string Row(PlannedFlight flight)
    {
        LandingEstimate landing = flight.Landing;
        GeodesicLine line = Geodesic.Inverse(flight.Launch.Position, landing.Position);
        string away = $"{fig.Distance(line.DistanceM)} at {fig.Bearing(line.AzimuthDeg)}";
        return $"  {Minute(flight.Launch.Utc)}  {Figures.Place(landing.Position),-20} {away,-15} "
            + $"{Clock(landing.LandingUtc)} ±{fig.Axes(landing.Area95.MajorM, landing.Area95.MinorM)}";
    }

    /// <summary>The areas to keep out of that it may come down in, likeliest first.</summary>
    private IEnumerable<string> KeepOuts(PlannedFlight flight) =>
        new KeepOutWatch(plan.Overlays).Of(flight.Landing).Select(met => string.Create(CultureInfo.InvariantCulture,
            $"    ! {Math.Max(1, met.Share * 100):F0} of 100 landings in {met.Area.Name} ({met.Area.Kind})"));

    private IEnumerable<string> InFull(PlannedFlight flight)
    {
        LandingEstimate landing = flight.Landing;
        yield return $"Launch {Minute(flight.Launch.Utc)} at {Figures.Place(flight.Launch.Position)}, "
            + fig.Height(flight.Launch.Height.Metres);
        yield return $"  burst       {Clock(flight.Burst.Utc)} at {fig.Height(flight.Burst.Height.Metres)}, "
            + Away(flight, flight.Burst.Position);
        foreach (string line in Areas(flight.BurstArea50, flight.BurstArea95)) yield return line;
        yield return $"  landing     {Clock(landing.LandingUtc)} ±{Figures.Span(2 * landing.LandingSigmaS)}, "
            + $"ground at {fig.Height(landing.Ground.Metres)} {GroundFrom(landing)}, {Away(flight, landing.Position)}";
        foreach (string line in Areas(landing.Area50, landing.Area95)) yield return line;
        yield return "  because of  " + landing.Causes.In(plan.Units);
    }

    private string GroundFrom(LandingEstimate landing) => terrain?.Invoke(landing.Position) is not null
        ? "(terrain tiles)" : (terrain is null ? "(" : "(no tile there, ")
            + (plan.LandingGround is not null ? "as planned)" : "as at the launch)");

    private string Away(PlannedFlight flight, GeoPoint at)
    {
        GeodesicLine line = Geodesic.Inverse(flight.Launch.Position, at);
        return $"{Figures.Place(at)}, {fig.Distance(line.DistanceM)} at {fig.Bearing(line.AzimuthDeg)}";
    }

    private IEnumerable<string> Areas(SearchArea half, SearchArea most)
    {
        yield return $"              half within ±{fig.Axes(half.MajorM, half.MinorM)}, 95 of 100 within "
            + $"±{fig.Axes(most.MajorM, most.MinorM)}, long axis along {fig.Bearing(most.AzimuthDeg)}";
    }

    private string[] Map(PlannedFlight flight)
    {
        Snapshot s = new Station(plan, new NoLog()).Snapshot() with
        {
            Utc = flight.Launch.Utc,
            Landing = flight.Landing,
            Flight = new FlightState { Pad = flight.Launch },
        };
        Canvas canvas = new(fig.Ascii);
        canvas.Reset(MapColumns, MapRows);
        PlanPlot.Draw(canvas.All, s, new View(), fig, labels: true);
        return canvas.ToString().Split('\n');
    }

    private static string Clock(Instant at) => Figures.Clock(at)[..5];

    private static string Minute(Instant at) =>
        at.ToDateTime().ToString("yyyy-MM-dd HH:mm'Z'", CultureInfo.InvariantCulture);
}
