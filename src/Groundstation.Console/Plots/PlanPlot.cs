using Groundstation.Console.Cells;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;

namespace Groundstation.Console.Plots;

/// <summary>
/// The view from above, north at the top: track, path expected, both search areas, launch, chase car, range rings. The
/// scale is a round number of metres a dot and the origin sticks to whole cells, so that old dots stay where they are.
/// </summary>
internal static class PlanPlot
{
    /// <summary>Paints it; <paramref name="view"/> says where to look.</summary>
    public static void Draw(Pane pane, Snapshot s, View view, Figures fig, bool labels)
    {
        if (pane.Width < 4 || pane.Height < 3) return;
        if (Shown.Anchor(s) is not { } anchor)
        {
            pane.Text(1, pane.Height / 2, "no place heard yet", Ink.Quiet);
            return;
        }

        Frame frame = Frame.Fit(s, view, pane, anchor);
        Dots dots = new(pane.Width, pane.Height);
        List<(double Radius, double X, double Y)> rings = PlanFurniture.Rings(dots, frame, fig);
        MapLines.Draw(dots, frame, s.Plan.Overlays);
        if (view.Earlier) DrawEarlier(dots, frame, s);
        DrawAreas(dots, frame, s.Landing);
        DrawPath(dots, frame, s);
        DrawTrack(dots, frame, s);
        dots.Paint(pane);
        List<Markers.Span> taken = Markers.Draw(pane, frame, s, labels);
        PlanFurniture.Labels(pane, frame, fig, rings, taken);
        if (labels) MapLines.Names(pane, frame, s.Plan.Overlays, taken);
    }

    private static void DrawTrack(Dots dots, in Frame frame, Snapshot s)
    {
        (double X, double Y)? last = null;
        foreach (Waypoint w in s.Track)
        {
            (double x, double y) = frame.Dot(w.Position);
            if (last is { } l) dots.Line(l.X, l.Y, x, y, Ink.Track);
            else dots.Set((int)Math.Floor(x), (int)Math.Floor(y), Ink.Track);
            last = (x, y);
        }
    }

    private static void DrawEarlier(Dots dots, in Frame frame, Snapshot s)
    {
        foreach (PastEstimate earlier in s.LandingHistory)
        {
            (double x, double y) = frame.Dot(earlier.Position);
            dots.Set((int)Math.Floor(x), (int)Math.Floor(y), Ink.Path);
        }
    }

    private static void DrawPath(Dots dots, in Frame frame, Snapshot s)
    {
        if (s.Landing is not { } landing) return;
        // In silence the path begins where it should be now: from the place last heard to there it is only expected,
        // too.
        (double X, double Y)? last =
            Shown.Silent(s) && s.Flight.Newest?.Position is { } heard ? frame.Dot(heard) : null;
        int phase = 0;
        foreach (Waypoint w in landing.Path)
        {
            (double x, double y) = frame.Dot(w.Position);
            if (last is { } l) dots.Line(l.X, l.Y, x, y, Ink.Path, 2, 2, ref phase);
            last = (x, y);
        }
    }

    private static void DrawAreas(Dots dots, in Frame frame, LandingEstimate? landing)
    {
        if (landing is null) return;
        Ellipse(dots, frame, landing.Position, landing.Area95, Ink.Area95, 1, 2);
        Ellipse(dots, frame, landing.Position, landing.Area50, Ink.Area50, 1, 0);
    }

    private static void Ellipse(Dots dots, in Frame frame, GeoPoint centre, SearchArea area, Ink ink, int on, int off)
    {
        if (!(area.MajorM > 0)) return;
        (double east, double north) = frame.Map.Of(centre);
        (double sin, double cos) = Math.SinCos(area.AzimuthDeg * Math.PI / 180);
        (double X, double Y)? last = null;
        int phase = 0;
        const int Pieces = 72;
        for (int i = 0; i <= Pieces; i++)
        {
            (double b, double a) = Math.SinCos(2 * Math.PI * i / Pieces);
            (a, b) = (a * area.MajorM, b * area.MinorM);
            (double x, double y) = frame.Dot(east + a * sin + b * cos, north + a * cos - b * sin);
            if (last is { } l) dots.Line(l.X, l.Y, x, y, ink, on, off, ref phase);
            last = (x, y);
        }
    }
}
