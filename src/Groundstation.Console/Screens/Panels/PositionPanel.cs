using Groundstation.Console.Cells;
using Groundstation.Core;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;

namespace Groundstation.Console.Screens.Panels;

/// <summary>Where it is, from whom we know it, and the burst.</summary>
internal static class PositionPanel
{
    /// <summary>Paints it; returns the rows it took.</summary>
    public static int Draw(Pane pane, Snapshot s, Figures fig, bool roomy)
    {
        Rows rows = new(pane, 13);
        bool silent = Shown.Silent(s);
        rows.Title(silent ? "Position, expected" : "Position", silent ? Shown.Hears(s) : "", Ink.Warning);
        if (Shown.Place(s) is not { } place)
        {
            rows.Text("none believed yet");
            return rows.Y;
        }

        rows.Line("place", (silent ? "~" : "") + Figures.Place(place), Ink.Strong);
        if (Shown.Home(s) is { } home) rows.Line("from launch", fig.Way(home, place));
        if (silent && s.Flight.Newest is { } last)
            rows.Line("last heard", $"{Figures.Clock(last.Utc)} at {fig.Height(last.Height?.Metres)}");
        else if (!Shown.OnGround(s) && Drift(s.Flight.Newest, fig) is { } drift)
            rows.Line("drifts", drift);
        if (silent && roomy && s.Flight.Newest?.Position is { } heard) rows.Line("", Figures.Place(heard));
        if (s.Flight.Burst is { } burst)
            rows.Line(Shown.Turn(s), $"{fig.Height(burst.Height.Metres)} at {Figures.Clock(burst.Utc)}");
        else rows.Line("highest", fig.Height(s.Flight.Highest?.Height.Metres) + ", no burst yet");
        if (roomy) Roomy(ref rows, s, fig);
        return rows.Y;
    }

    private static void Roomy(ref Rows rows, Snapshot s, Figures fig)
    {
        if (s.Chase is { } chase && Shown.Place(s) is { } place)
            rows.Line("from chase", fig.Way(chase.Position, place));
        Telemetry t = s.Telemetry;
        if (t.Heard is not { } heard) return;
        double age = s.Arrival.SecondsSince(heard);
        bool old = age > s.Plan.Alarms.NoFixS;
        rows.Title("Payload", old ? "told " + Figures.Span(age) + " ago" : "", Ink.Caution);
        if (t.PressurePa is { } pa) rows.Line("pressure", fig.AirPressure(pa));
        if (t.OutsideC is { } outside) rows.Line("air", fig.Temperature(outside));
        if (t.InsideC is { } inside) rows.Line("inside", fig.Temperature(inside));
        if (t.BatteryV is { } volts) rows.Line("battery", Figures.Number(volts, 2) + " V");
    }

    private static string? Drift(Fix? fix, Figures fig) => fix?.SpeedMps is { } speed
        ? fig.Speed(speed) + (fix.CourseDeg is { } course ? " to " + fig.BearingWithPoint(course) : "") : null;
}
