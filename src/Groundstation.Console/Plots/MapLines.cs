using System.Collections.Immutable;
using Groundstation.Console.Cells;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;

namespace Groundstation.Console.Plots;

/// <summary>The user's own map in the plan view: lines, outlines of keep-outs, points, and names where there is room.</summary>
internal static class MapLines
{
    /// <summary>Draws lines and outlines; those of keep-outs are dashed.</summary>
    public static void Draw(Dots dots, in Frame frame, Overlays overlays)
    {
        foreach (OverlayLine line in overlays.Lines) Follow(dots, frame, line.Points, false, 1, 0);
        foreach (KeepOut area in overlays.KeepOuts)
        {
            foreach (AreaPart part in area.Parts)
            {
                Follow(dots, frame, part.Outer.Points, true, 3, 2);
                foreach (GeoRing hole in part.Holes) Follow(dots, frame, hole.Points, true, 3, 2);
            }
        }

        foreach (OverlayPoint point in overlays.Points)
        {
            (double x, double y) = frame.Dot(point.Position);
            dots.Set((int)Math.Floor(x), (int)Math.Floor(y), Ink.Map);
        }
    }

    /// <summary>Writes names where nothing stands yet: of points beside them, of keep-outs in their middle.</summary>
    public static void Names(Pane pane, in Frame frame, Overlays overlays, List<Markers.Span> taken)
    {
        foreach (OverlayPoint point in overlays.Points)
        {
            (double x, double y) = frame.Dot(point.Position);
            Write(pane, (int)Math.Floor(x / 2) + 2, (int)Math.Floor(y / 4), point.Name, taken);
        }

        foreach (KeepOut area in overlays.KeepOuts)
        {
            if (area.Parts.IsEmpty) continue;
            (double X, double Y)[] ring = [.. Dotted(frame, area.Parts[0].Outer.Points)];
            double west = ring.Min(p => p.X), east = ring.Max(p => p.X);
            // A name wider than its area would be taken for the next one's.
            if ((east - west) / 2 < area.Name.Length + 2) continue;
            Write(pane, (int)((west + east) / 4) - area.Name.Length / 2,
                (int)((ring.Min(p => p.Y) + ring.Max(p => p.Y)) / 8), area.Name, taken);
        }
    }

    private static void Write(Pane pane, int x, int y, string name, List<Markers.Span> taken)
    {
        if (name.Length == 0 || x < 0 || y < 0 || x + name.Length > pane.Width || y >= pane.Height - 1
            || !Markers.Free(taken, x, x + name.Length - 1, y)) return;
        pane.Text(x, y, name, Ink.Map);
        taken.Add(new(x, x + name.Length - 1, y));
    }

    private static void Follow(Dots dots, in Frame frame, ImmutableArray<GeoPoint> points, bool closed, int on, int off)
    {
        (double X, double Y)? last = null;
        int phase = 0;
        foreach ((double X, double Y) next in Dotted(frame, closed ? points.Add(points[0]) : points))
        {
            if (last is { } l) dots.Line(l.X, l.Y, next.X, next.Y, Ink.Map, on, off, ref phase);
            last = next;
        }
    }

    private static List<(double X, double Y)> Dotted(Frame frame, ImmutableArray<GeoPoint> points) =>
        [.. points.Select(p => frame.Dot(p))];
}
