using Groundstation.Console.Cells;
using Groundstation.Console.Plots;
using Groundstation.Core;
using Groundstation.Core.Quantities;

namespace Groundstation.Console.Screens;

/// <summary>How high is it? Altitude and rate against time, with the burst and what is expected.</summary>
internal static class HighScreen
{
    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, Figures fig)
    {
        string burst = s.Flight.Burst is { } b
            ? $"{Shown.Turn(s)} {fig.Height(b.Height.Metres)} at {Figures.Clock(b.Utc)}"
            : $"burst expected at {fig.Height(s.Plan.BurstHeight.Metres)} ±{fig.Height(s.Plan.BurstSigmaM * 2)}";
        pane.Title(0, "How high is it?", burst);
        int rates = Math.Max(5, (pane.Height - 3) / 3), heights = pane.Height - rates - 3;
        HeightPlot.Draw(pane.Part(0, 1, pane.Width, heights), s, fig, false);
        string unit = fig.Units == DisplayUnits.Customary ? "ft/min" : "m/s", marked = Marked(s);
        pane.Title(heights + 1, "Vertical rate, " + unit, marked, Ink.Chase);
        RatePlot.Draw(pane.Part(0, heights + 2, pane.Width, rates), s, fig);
        pane.Text(1, pane.Height - 1, Descent(s, fig));
        pane.Right(pane.Height - 1, "highest " + fig.Height(s.Flight.Highest?.Height.Metres));
    }

    /// <summary>The operator's newest mark, and whether the fixes have said the same yet.</summary>
    private static string Marked(Snapshot s)
    {
        if (s.Marks.Burst is { } burst)
            return $"burst marked {Figures.Clock(burst)}{(s.Flight.Burst is null ? ", not heard yet" : "")}";
        return s.Marks.Launch is { } launch
            ? $"launch marked {Figures.Clock(launch)}{(s.Flight.Launch is null ? ", not heard yet" : "")}" : "";
    }

    private static string Descent(Snapshot s, Figures fig)
    {
        if (s.Flight.DescentRateSeaLevelMps <= 0) return "";
        string origin = s.Flight.DescentRateMeasured ? "measured" : "not measured yet";
        double share = 2 * s.Flight.DescentRateLnSigma * 100;
        return $"descent at sea level {fig.Climb(-s.Flight.DescentRateSeaLevelMps)}"
            + $" ±{Figures.Number(share, 0)} %, {origin}";
    }
}
