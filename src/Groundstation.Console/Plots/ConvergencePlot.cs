using Groundstation.Console.Cells;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Earth;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Console.Plots;

/// <summary>
/// How far off the newest estimate each earlier one lay, and how large its 95 % area was, against time. In decades,
/// since an estimate goes from tens of kilometres to hundreds of metres: an honest area keeps its dotted line above the
/// solid.
/// </summary>
internal static class ConvergencePlot
{
    private const int Gutter = 8;

    /// <summary>Paints it, with the time axis on the last row.</summary>
    public static void Draw(Pane pane, Snapshot s, LandingEstimate now, Figures fig)
    {
        Pane plot = pane.Part(Gutter, 0, pane.Width - Gutter, pane.Height - 1);
        if (plot.Width < 4 || plot.Height < 2 || TimeAxis.Fit(s, plot.Width) is not { } axis) return;
        // The newest of each column of dots: more would fill the dotted line.
        PastEstimate[] past = [.. s.LandingHistory.Where(h => h.Utc >= axis.From && h.Utc <= s.Utc)
            .GroupBy(h => (int)axis.Dot(h.Utc)).Select(g => g.Last())];
        if (past.Length < 2)
        {
            pane.Text(1, pane.Height / 2, "not yet: one estimate is no history", Ink.Quiet);
            return;
        }

        double[] off = [.. past.Select(h => Geodesic.DistanceM(now.Position, h.Position))];
        double unit = fig.Units == DisplayUnits.Customary ? MileM : 1000;
        double most = Math.Max(off.Max(), past.Max(h => h.Area95M));
        double top = Math.Pow(10, Math.Ceiling(Math.Log10(most / unit))) * unit;
        double bottom = Math.Max(top / 10_000, 0.1 * unit);
        if (top <= bottom) top = bottom * 10;
        Dots dots = new(plot.Width, plot.Height);
        double Y(double m) => (dots.Height - 1) * Math.Log(top / Math.Max(m, bottom)) / Math.Log(top / bottom);
        for (double decade = top; decade >= bottom * 0.99; decade /= 10)
        {
            int y = (int)Y(decade);
            for (int x = 0; x < dots.Width; x += 8) dots.Set(x, y, Ink.Ring);
            pane.Part(0, 0, Gutter - 1, plot.Height).Right(y / 4,
                fig.Distance(decade).Replace(".0 ", " ", StringComparison.Ordinal), Ink.Quiet);
        }

        int phase = 0, whole = 0;
        for (int i = 1; i < past.Length; i++)
        {
            double from = axis.Dot(past[i - 1].Utc), to = axis.Dot(past[i].Utc);
            dots.Line(from, Y(past[i - 1].Area95M), to, Y(past[i].Area95M), Ink.Area95, 1, 2, ref phase);
            dots.Line(from, Y(off[i - 1]), to, Y(off[i]), Ink.Track, 1, 0, ref whole);
        }

        dots.Paint(plot);
        axis.Label(pane.Part(Gutter, plot.Height, plot.Width, 1));
    }
}
