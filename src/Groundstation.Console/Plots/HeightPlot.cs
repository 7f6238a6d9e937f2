using Groundstation.Console.Cells;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Console.Plots;

/// <summary>Altitude against time: flown, expected, burst, and where it is now.</summary>
internal static class HeightPlot
{
    /// <summary>Columns left of the plot for the height labels.</summary>
    public const int Gutter = 8;

    /// <summary>Paints the plot, with a time axis on the last row when asked for.</summary>
    public static void Draw(Pane pane, Snapshot s, Figures fig, bool times)
    {
        Pane plot = pane.Part(Gutter, 0, pane.Width - Gutter, pane.Height - (times ? 1 : 0));
        if (plot.Width < 4 || plot.Height < 2) return;
        if (TimeAxis.Fit(s, plot.Width) is not { } axis)
        {
            pane.Text(1, pane.Height / 2, "no height heard yet", Ink.Quiet);
            return;
        }

        double top = Top(s, fig.Units);
        Dots dots = new(plot.Width, plot.Height);
        double Y(double metres) => (dots.Height - 1) * (1 - metres / top);
        Scale(pane, plot, dots, top, fig);
        if (s.Flight.Phase is Phase.Pad or Phase.Ascent && s.Flight.Burst is null)
        {
            int phase = 0;
            double y = Y(s.Plan.BurstHeight.Metres);
            dots.Line(0, y, dots.Width - 1, y, Ink.Path, 1, 5, ref phase);
        }

        Follow(dots, axis, Y, s.Track, Ink.Track, 1, 0);
        if (s.Landing is { } landing && !Shown.OnGround(s)) Follow(dots, axis, Y, Ahead(s, landing), Ink.Path, 2, 2);
        foreach (Instant mark in Marks(s)) Upright(dots, axis, mark);
        dots.Paint(plot);
        Named(plot, axis, s);
        Mark(plot, axis, Y, s.Flight.Burst, '×', Shown.Turn(s) + " " + fig.Height(s.Flight.Burst?.Height.Metres));
        if (Shown.Height(s) is { } h)
        {
            Instant at = Shown.Silent(s) ? s.Utc : s.Flight.Newest?.Utc ?? s.Utc;
            plot.Put((int)(axis.Dot(at) / 2), (int)(Y(h) / 4), '●', Ink.Strong);
        }

        if (times) axis.Label(pane.Part(Gutter, plot.Height, plot.Width, 1));
    }

    /// <summary>
    /// The path expected; in silence from the height last heard on, since the path itself begins where it should be now.
    /// </summary>
    private static IEnumerable<Waypoint> Ahead(Snapshot s, LandingEstimate landing) =>
        Shown.Silent(s) && s.Track.Length > 0 ? landing.Path.Prepend(s.Track[^1]) : landing.Path;

    private static IEnumerable<Instant> Marks(Snapshot s) =>
        ((Instant?[])[s.Marks.Launch, s.Marks.Burst]).OfType<Instant>();

    /// <summary>An upright dashed line where the operator marked something.</summary>
    private static void Upright(Dots dots, TimeAxis axis, Instant at)
    {
        int phase = 0;
        double x = axis.Dot(at);
        dots.Line(x, 0, x, dots.Height - 1, Ink.Chase, 2, 2, ref phase);
    }

    private static void Named(Pane plot, TimeAxis axis, Snapshot s)
    {
        if (plot.Width < 30) return;
        Name(s.Marks.Launch, "launch marked", 0);
        // Low down, where the plot is empty when the balloon is high.
        Name(s.Marks.Burst, "burst marked", plot.Height - 2);

        void Name(Instant? mark, string words, int row)
        {
            if (mark is not { } at) return;
            int x = (int)(axis.Dot(at) / 2) + 2;
            if (x >= 0 && x < plot.Width)
                plot.Text(x + words.Length <= plot.Width ? x : x - words.Length - 3, row, words, Ink.Chase);
        }
    }

    private static double Top(Snapshot s, DisplayUnits units)
    {
        double highest = s.Flight.Highest?.Height.Metres ?? 0;
        if (s.Flight.Phase is Phase.Pad or Phase.Ascent && s.Flight.Burst is null)
            highest = Math.Max(highest, s.Plan.BurstHeight.Metres);
        foreach (Waypoint w in s.Landing?.Path ?? []) highest = Math.Max(highest, w.Height.Metres);
        double step = units == DisplayUnits.Customary ? 20_000 * FootM : 5000;
        return Math.Max(1, Math.Ceiling(highest * 1.03 / step)) * step;
    }

    private static void Scale(Pane pane, Pane plot, Dots dots, double top, Figures fig)
    {
        double step = fig.Units == DisplayUnits.Customary ? 20_000 * FootM : 5000;
        int lines = (int)Math.Round(top / step);
        int every = Math.Max(1, (int)Math.Ceiling(lines * 2.0 / Math.Max(1, plot.Height)));
        for (int n = 0; n <= lines; n += every)
        {
            double y = (dots.Height - 1) * (1 - n * step / top);
            pane.Part(0, 0, Gutter - 1, pane.Height).Right((int)(y / 4), fig.AxisHeight(n * step), Ink.Quiet);
            for (int x = 0; x < dots.Width; x += 8) dots.Set(x, (int)y, Ink.Ring);
        }
    }

    private static void Follow(Dots dots, TimeAxis axis, Func<double, double> y, IEnumerable<Waypoint> way, Ink ink,
        int on, int off)
    {
        (double X, double Y)? last = null;
        int phase = 0;
        foreach (Waypoint w in way)
        {
            (double X, double Y) next = (axis.Dot(w.Utc), y(w.Height.Metres));
            if (last is { } l) dots.Line(l.X, l.Y, next.X, next.Y, ink, on, off, ref phase);
            last = next;
        }
    }

    private static void Mark(Pane plot, TimeAxis axis, Func<double, double> y, Waypoint? at, char sign, string words)
    {
        if (at is not { } w) return;
        int column = (int)(axis.Dot(w.Utc) / 2), row = Math.Clamp((int)(y(w.Height.Metres) / 4), 0, plot.Height - 1);
        plot.Put(column, row, sign, Ink.Strong);
        if (plot.Width < 30) return;
        int x = column + 2 + words.Length < plot.Width ? column + 2 : column - words.Length - 1;
        plot.Text(Math.Max(0, x), Math.Max(0, row), words, Ink.Strong);
    }
}
