using Groundstation.Console.Cells;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;

namespace Groundstation.Console.Plots;

/// <summary>Vertical rate against time, from the track's own heights: up above the line, down below it.</summary>
internal static class RatePlot
{
    /// <summary>Shorter steps than this give more noise than rate.</summary>
    private const double StepS = 8;

    /// <summary>Paints the plot with the time axis on the last row.</summary>
    public static void Draw(Pane pane, Snapshot s, Figures fig)
    {
        Pane plot = pane.Part(HeightPlot.Gutter, 0, pane.Width - HeightPlot.Gutter, pane.Height - 1);
        if (plot.Width < 4 || plot.Height < 2 || TimeAxis.Fit(s, plot.Width) is not { } axis) return;
        List<(double X, double Rate, Ink Ink)> points = [.. Rates(s, axis)];
        double up = 0, down = 0;
        foreach ((_, double rate, _) in points) (up, down) = (Math.Max(up, rate), Math.Min(down, rate));
        // Round in the unit shown.
        double unit = fig.Units == DisplayUnits.Customary ? CustomaryUnits.FootM / 60 : 1;
        (up, down) = (Snap(up / unit) * unit, -Snap(-down / unit) * unit);
        Dots dots = new(plot.Width, plot.Height);
        double Y(double rate) => (dots.Height - 1) * (1 - (rate - down) / (up - down));
        for (int x = 0; x < dots.Width; x += 4) dots.Set(x, (int)Y(0), Ink.Ring);
        (double X, double Y, Ink Ink)? last = null;
        int phase = 0;
        foreach ((double x, double rate, Ink ink) in points)
        {
            double y = Y(rate);
            if (last is { } l && l.Ink == ink)
                dots.Line(l.X, l.Y, x, y, ink, ink == Ink.Path ? 2 : 1, ink == Ink.Path ? 2 : 0, ref phase);
            last = (x, y, ink);
        }

        dots.Paint(plot);
        Pane gutter = pane.Part(0, 0, HeightPlot.Gutter - 1, plot.Height);
        gutter.Right(0, Axis(up, fig), Ink.Quiet);
        if ((int)(Y(0) / 4) is var zero && zero > 0 && zero < plot.Height - 1) gutter.Right(zero, "0", Ink.Quiet);
        gutter.Right(plot.Height - 1, Axis(down, fig), Ink.Quiet);
        axis.Label(pane.Part(HeightPlot.Gutter, plot.Height, plot.Width, 1));
    }

    private static string Axis(double mps, Figures fig) =>
        fig.Climb(mps).Split(' ') is var parts && fig.Units == DisplayUnits.Metric
            ? parts[0].Replace(".0", "", StringComparison.Ordinal)
            : fig.Climb(mps).Replace(" ft/min", "", StringComparison.Ordinal);

    private static double Snap(double rate) => rate <= 0.01 ? 5 : Ticks.FineNotBelow(rate);

    private static IEnumerable<(double, double, Ink)> Rates(Snapshot s, TimeAxis axis)
    {
        Waypoint? last = null;
        foreach (Waypoint w in s.Track)
        {
            if (last is { } l && w.Utc.SecondsSince(l.Utc) < StepS) continue;
            if (last is { } from) yield return (Between(from, w, axis), Rate(from, w), Ink.Track);
            last = w;
        }

        if (s.Landing is null || Shown.OnGround(s)) yield break;
        Waypoint? before = null;
        // In silence from the place last heard on, as in the altitude plot above it.
        if (Shown.Silent(s)) before = last;
        foreach (Waypoint w in s.Landing.Path.OrderBy(p => p.Utc))
        {
            if (before is { } l && w.Utc.SecondsSince(l.Utc) < StepS) continue;
            if (before is { } from) yield return (Between(from, w, axis), Rate(from, w), Ink.Path);
            before = w;
        }
    }

    private static double Between(Waypoint a, Waypoint b, TimeAxis axis) => (axis.Dot(a.Utc) + axis.Dot(b.Utc)) / 2;

    private static double Rate(Waypoint a, Waypoint b) =>
        (b.Height.Metres - a.Height.Metres) / b.Utc.SecondsSince(a.Utc);
}
