using System.Globalization;
using System.Text;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Callouts;

/// <summary>What a search sheet is made from.</summary>
/// <param name="Plan">The plan in force.</param>
/// <param name="Scene">The flight, the estimate, where the chase car is.</param>
/// <param name="TerrainM">Height of the terrain at the best point, metres above mean sea level; null: no
/// terrain.</param>
public sealed record SheetMatter(FlightPlan Plan, CalloutScene Scene, double? TerrainM);

/// <summary>
/// The sheet that a search party takes along: one page of text of at most <see cref="Width"/> columns, the same for the
/// same matter to the byte.
/// </summary>
public static class SearchSheet
{
    /// <summary>Columns of the widest line: it fits a terminal and any printer.</summary>
    public const int Width = 78;

    private static readonly string[] _cautions =
    [
        "The driver drives; a passenger reads this sheet.",
        "Ask before you enter private land. Stay off roads, railways and runways.",
        "Leave power lines, water, trees and cliffs to those equipped for it.",
        "Weather and darkness end a search. Tell somebody where you go.",
        "Do not touch a torn balloon or a gas cylinder near fire: hydrogen burns.",
    ];

    /// <summary>The sheet is due: landed, or silent past the time at which it should have come down.</summary>
    public static bool Due(CalloutScene scene) => scene.Landing.Method == LandingMethod.Landed
        || (scene.Landing.Method is LandingMethod.Silent or LandingMethod.Planned && scene.Utc >= scene.Landing.LandingUtc);

    /// <summary>
    /// True when a sheet for one estimate would mislead now: the place has moved by more than 50 m and a quarter of
    /// what half of the flights come down within, the area has changed by a quarter, or it has been heard to lie.
    /// </summary>
    public static bool Differs(LandingEstimate written, LandingEstimate now) =>
        Geodesic.DistanceM(written.Position, now.Position) > Math.Max(50, written.Area50.MajorM / 4)
        || Math.Abs(Math.Log(Math.Max(now.Area95.MajorM, 1) / Math.Max(written.Area95.MajorM, 1))) > 0.25
        || (written.Method == LandingMethod.Landed) != (now.Method == LandingMethod.Landed);

    /// <summary>The sheet, lines ended by LF.</summary>
    public static string Compose(SheetMatter matter)
    {
        (CalloutScene scene, LandingEstimate l) = (matter.Scene, matter.Scene.Landing);
        SheetFigures figures = new(matter.Plan, scene.Utc);
        StringBuilder text = new();
        void Head(string title) => text.Append('\n').Append(title).Append('\n');
        void Row(string label, string value) => text.Append("  ").Append(label.PadRight(17)).Append(value).Append('\n');

        text.Append("SEARCH SHEET: ").Append(matter.Plan.Name).Append('\n');
        text.Append(SheetFigures.Moment(scene.Utc)).Append(" UTC. ").Append(State(scene)).Append('\n');
        Head("BEST POINT");
        Row("degrees", CoordinateText.Write(l.Position, CoordinateFormat.DecimalDegrees));
        Row("minutes", CoordinateText.Write(l.Position, CoordinateFormat.DegreesMinutes));
        Row("seconds", CoordinateText.Write(l.Position, CoordinateFormat.DegreesMinutesSeconds));
        Row("UTM", CoordinateText.Write(l.Position, CoordinateFormat.Utm));
        Row("MGRS", CoordinateText.Write(l.Position, CoordinateFormat.Mgrs));
        Row("locator", CoordinateText.Write(l.Position, CoordinateFormat.Maidenhead));
        Row("ground", figures.Height(l.Ground.Metres) + (matter.TerrainM is { } terrain
            ? $"; terrain data say {figures.Height(terrain)}" : "; no terrain data here"));
        if (!scene.HasLanded)
        {
            string minutes = Math.Max(1, Math.Ceiling(l.LandingSigmaS / 30)).ToString(CultureInfo.InvariantCulture);
            Row(scene.Utc < l.LandingUtc ? "comes down about" : "came down about",
                $"{SheetFigures.Clock(l.LandingUtc)} UTC, give or take {minutes} min");
        }
        Head("SEARCH AREA, half axes around the best point; walk the 50 % area first");
        Area(Row, figures, l, l.Area50, "50 %");
        Area(Row, figures, l, l.Area95, "95 %");
        if (scene.Flight.Newest is { } fix) LastHeard(Head, Row, figures, scene, fix);
        Head("WAY TO THE BEST POINT");
        if (scene.Chase is { } car)
            Row("from the car", $"{figures.Way(car.Position, l.Position)}; car told {SheetFigures.Clock(car.Utc)}");
        if (scene.Pad is { } pad) Row("from launch", figures.Way(pad, l.Position));
        Head("DAYLIGHT at the best point, UTC");
        Daylight(Row, l.Position, scene.Utc);
        Head("CAUTIONS");
        foreach (string caution in _cautions) text.Append("  ").Append(caution).Append('\n');
        return text.ToString();
    }

    private static string State(CalloutScene scene) => scene.HasLanded ? "Heard on the ground."
        : scene.Planned ? "Never heard: place and area are the planned flight's."
        : scene is { Unheard: true, Contact: Contact.Alive } ? "Heard, but without a fix for "
            + $"{SheetFigures.Span(scene.AgeS)}: place and area are the model's."
        : scene.AgeS is var age && age < 60 ? "Still heard in the air."
        : $"Not heard for {SheetFigures.Span(age)}: place and area are the model's.";

    private static void Area(Action<string, string> row, SheetFigures figures, LandingEstimate l, SearchArea area,
        string name)
    {
        row(name, $"{figures.Axes(area)}; long axis {figures.Bearing(area.AzimuthDeg, l.Position)}");
        for (int turn = 0; turn < 360; turn += 90)
        {
            double azimuth = (area.AzimuthDeg + turn) % 360;
            GeoPoint end = Geodesic.Direct(l.Position, azimuth, turn % 180 == 0 ? area.MajorM : area.MinorM);
            row($"  end {Wording.Towards(azimuth)}", CoordinateText.Write(end, figures.Format));
        }
    }

    private static void LastHeard(Action<string> head, Action<string, string> row, SheetFigures figures,
        CalloutScene scene, Fix fix)
    {
        head("LAST HEARD");
        string height = fix.Height is { } h ? $" at {figures.Height(h.Metres)}" : "";
        string age = SheetFigures.Span(scene.Utc.SecondsSince(fix.Utc));
        row("when", $"{SheetFigures.Clock(fix.Utc)} UTC{height}, {age} before this sheet");
        if (fix.Position is not { } at) return;
        row("where", CoordinateText.Write(at, figures.Format));
        row("to best point", figures.Way(at, scene.Landing.Position));
        GeoPoint? from = Geodesic.DistanceM(at, scene.Landing.Position) > 200 ? at : scene.Flight.Burst?.Position;
        if (from is { } start)
        {
            double towards = Geodesic.Inverse(start, scene.Landing.Position).FinalAzimuthDeg;
            row("it drifted", $"towards {figures.Bearing(towards, scene.Landing.Position)}: if not at the best point,");
            row("", "look along this line first, then beside it");
        }
    }

    private static void Daylight(Action<string, string> row, GeoPoint at, Instant utc)
    {
        SunDay day = Sun.DayOf(at, utc);
        if (day is { Rise: { } rise, Set: { } set })
        {
            row("sunrise, sunset", $"{SheetFigures.Clock(rise)}, {SheetFigures.Clock(set)}");
            if (day is { CivilDawn: { } dawn, CivilDusk: { } dusk })
                row("twilight", $"from {SheetFigures.Clock(dawn)}, to {SheetFigures.Clock(dusk)}");
        }
        bool up = Sun.Position(at, utc).AltitudeDeg > Sun.RiseSetDeg;
        Instant? next = Next(at, utc, up);
        string? span = next is { } then ? SheetFigures.Span(then.SecondsSince(utc)) : null;
        row("daylight left", up ? span ?? "the sun does not set today"
            : span is null ? "none; the sun does not rise today" : $"none; sunrise in {span}");
    }

    /// <summary>The next sunset or sunrise within a day.</summary>
    private static Instant? Next(GeoPoint at, Instant utc, bool set)
    {
        for (int days = -1; days <= 1; days++)
        {
            SunDay day = Sun.DayOf(at, utc + TimeSpan.FromDays(days));
            if ((set ? day.Set : day.Rise) is { } comes && comes > utc) return comes;
        }
        return null;
    }
}
