using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Console.Plots;
using Groundstation.Console.Screens.Panels;
using Groundstation.Core;
using Groundstation.Core.Callouts;

namespace Groundstation.Console.Screens;

/// <summary>Everything at a glance: figures on the left, the plan view and the profile on the right.</summary>
internal static class FlightScreen
{
    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, Figures fig)
    {
        bool roomy = pane.Height >= 30;
        int left = pane.Width >= 150 ? 48 : pane.Width >= 110 ? 45 : 43;
        Pane figures = pane.Part(0, 0, left - 1, pane.Height);
        int gap = roomy ? 1 : 0;
        figures = figures.Below(PositionPanel.Draw(figures, s, fig, roomy) + gap);
        figures = figures.Below(LandingPanel.Draw(figures, s, fig, roomy));
        if (s.Callouts.Length > 0)
        {
            (string words, Ink ink) = ToSay(s, s.Callouts[^1]);
            figures.Text(1, 0, "to say", Ink.Quiet);
            figures.Text(13, 0, words, ink);
            figures = figures.Below(1);
        }

        figures = figures.Below(gap);
        figures = figures.Below(ReceiverPanel.Draw(figures, s) + gap);
        AlarmPanel.Draw(figures, s, fig);
        pane.Part(left, 0, 1, pane.Height).Upright(0);
        Pictures(pane.Part(left + 1, 0, pane.Width - left - 1, pane.Height), s, fig, roomy);
    }

    private static void Pictures(Pane pane, Snapshot s, Figures fig, bool roomy)
    {
        // The sentence to be read aloud is never cut off.
        int say = roomy && s.Callouts.Length > 0 ? Math.Min(8, 1 + pane.Rows(1, s.Callouts[^1].Text)) : 0;
        int low = roomy ? (pane.Height - say) * 2 / 5 : 7;
        int high = pane.Height - say - low;
        Pane plan = pane.Part(0, 0, pane.Width, high);
        if (roomy) plan.Title(0, "From above");
        PlanPlot.Draw(roomy ? plan.Below(1) : plan, s, new View(), fig, pane.Width >= 30);
        Pane below = pane.Part(0, high, pane.Width, low);
        int profile = pane.Width >= 100 ? pane.Width * 3 / 5 : pane.Width;
        Pane heights = below.Part(0, 0, profile, low);
        heights.Title(0, "Altitude");
        HeightPlot.Draw(heights.Below(1), s, fig, roomy);
        if (profile < pane.Width) WindColumn(below.Part(profile + 1, 0, pane.Width - profile - 1, low), s, fig);
        if (say > 0) Callout(pane.Part(0, pane.Height - say, pane.Width, say), s.Callouts[^1]);
    }

    /// <summary>Whether something waits to be said or read back: what key 8 leads to.</summary>
    private static (string, Ink) ToSay(Snapshot s, Callout newest)
    {
        string number = string.Create(CultureInfo.InvariantCulture, $"callout {newest.Number}");
        return newest.ReadBack switch
        {
            "correct" => (number + " was read back right", Ink.Good),
            "wrong" => ("AGAIN: " + number + ", heard wrong", Ink.Caution),
            _ => ($"{number}, {Figures.Span(s.Utc.SecondsSince(newest.Utc))} old", Ink.Advisory),
        };
    }

    private static void WindColumn(Pane pane, Snapshot s, Figures fig)
    {
        pane.Title(0, "Wind");
        List<WindRow> winds = WindRows.NothingKnown(s) ? [] : WindRows.Of(s, pane.Height - 1);
        if (winds.Count == 0) pane.Text(1, 1, "none measured yet", Ink.Quiet);
        double full = winds.Count == 0 ? 1 : Ticks.FineNotBelow(winds.Max(w => w.Wind.SpeedMps + w.SpreadMps));
        for (int i = 0; i < winds.Count; i++)
        {
            WindRow w = winds[i];
            pane.Part(0, i + 1, 8, 1).Right(0, fig.AxisHeight(w.BottomM, 1), Ink.Quiet);
            pane.Put(8, i + 1, w.HoldsBalloon ? '●' : ' ', Ink.Strong);
            if (w.Wind.SpeedMps >= 0.5) pane.Put(10, i + 1, Figures.Arrow(w.Wind.FromDeg + 180), Ink.Plain);
            pane.Part(12, i + 1, 9, 1).Right(0, fig.Speed(w.Wind.SpeedMps));
            WindBars.Draw(pane.Part(22, i + 1, pane.Width - 22, 1), w, full);
        }
    }

    private static void Callout(Pane pane, Callout callout)
    {
        pane.Title(0, "To say", Figures.Clock(callout.Utc)
            + (callout.ReadBack.Length > 0 ? ", read back " + callout.ReadBack : ""));
        pane.Wrap(1, 1, callout.Text, Ink.Strong);
    }
}
