using Groundstation.Console.Cells;
using Groundstation.Console.Plots;
using Groundstation.Console.Screens.Panels;
using Groundstation.Core;
using Groundstation.Core.Chase;
using Groundstation.Core.Earth;
using Groundstation.Core.Landing;
using Groundstation.Core.Receive;

namespace Groundstation.Console.Screens;

/// <summary>
/// How does the chase stand? Car, ways, time in hand, and the landing estimate as a code for a phone.
/// </summary>
internal static class ChaseScreen
{
    private const int LabelWidth = 15, FiguresWidth = 46;

    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, Figures fig)
    {
        pane.Title(0, "How does the chase stand?", s.ChaseNow is { } c ? Age(c) : "car not known");
        // Without an estimate there is no code: the words take the whole width.
        Rows rows = new(pane.Part(0, 1, s.Landing is null ? pane.Width : FiguresWidth, pane.Height - 1), LabelWidth);
        Receiver(ref rows, s);
        if (s.ChaseNow is { } chase) Ways(ref rows, s, chase, fig);
        else rows.Wrap("car", "not known yet. Key c: type its place; or start with --chase SOURCE", Ink.Advisory);
        if (s.Landing is not { } landing)
        {
            rows.Line("landing", "no estimate yet");
            return;
        }

        string uri = QrCode.GeoUri(landing);
        rows.Line("landing", Figures.Place(landing.Position)
                + (landing.Method == LandingMethod.Planned ? ", planned" : ""), Ink.Strong);
        rows.Line("for a phone", uri);
        rows.Gap();
        rows.Text("The driver drives; a passenger scans.", Ink.Quiet);
        Pane right = pane.Part(FiguresWidth + 1, 1, pane.Width - FiguresWidth - 1, pane.Height - 1);
        QrCode code = new(uri);
        int width = code.Size(fig.Ascii).Width;
        if (!code.Draw(right))
        {
            (int w, int h) = code.Size(fig.Ascii);
            right.Wrap(0, 1, $"The code needs {FiguresWidth + 1 + w}×{h + 6} in ASCII; type the geo: text.", Ink.Quiet);
            return;
        }

        if (right.Width - width > 40)
        {
            PlanPlot.Draw(right.Part(width + 2, 0, right.Width - width - 2, right.Height), s,
                new View { Follow = Follow.Everything }, fig, true);
        }
    }

    private static void Receiver(ref Rows rows, Snapshot s)
    {
        if (s.Links.FirstOrDefault(l => l.Source == SourceId.Chase) is not { } link) return;
        (string text, Ink ink) = ReceiverPanel.Words(s, link, s.Receivers.FirstOrDefault(r => r.Source == SourceId.Chase));
        rows.Line("receiver", text, ink);
    }

    private static void Ways(ref Rows rows, Snapshot s, ChaseState c, Figures fig)
    {
        rows.Line("car", Figures.Place(c.Position), Ink.Strong);
        rows.Line("to landing", Way(c.ToLanding, fig), Ink.Strong);
        rows.Line(Shown.Silent(s) ? "to balloon?" : "to balloon", Way(c.ToBalloon, fig));
        rows.Line("to last heard", Way(c.ToLastHeard, fig));
        rows.Line("speed", c.SpeedMps is { } v ? fig.Speed(v) + ", mean of 10 min" : "not known yet");
        rows.Line("closing", c.ClosingMps is not { } mps ? "not known yet"
            : mps < -0.5 ? $"going away at {fig.Speed(-mps)}" : fig.Speed(Math.Max(0, mps)));
        if (c.DriveS is { } drive)
        {
            rows.Line("on the road", Figures.Span(drive) + (c.SpeedFromPlan ? " if it sets out now" : ""));
            rows.Line("", $"× {Figures.Number(s.Plan.ChaseRoadFactor, 1)} of the line, at {fig.Speed(c.CountedMps)}", Ink.Quiet);
        }

        if (c is { MarginS: { } margin, LandingUtc: { } lands })
        {
            rows.Line("be there by", $"{Figures.Clock(lands)} UTC");
            rows.Line("margin", margin < 0 ? Figures.Span(-margin) + " LATE" : Figures.Span(margin) + " in hand",
                margin < s.Plan.Alarms.ChaseMarginS ? Ink.Caution : Ink.Good);
        }
        else if (s.Landing is { Method: LandingMethod.Landed })
        {
            rows.Line("be there by", "it lies there");
        }
    }

    private static string Age(ChaseState c) => c.Typed ? $"typed {Figures.Span(c.AgeS)} ago"
        : c.AgeS < 5 ? "from its receiver" : $"from its receiver, {Figures.Span(c.AgeS)} old";

    private static string Way(GeodesicLine? way, Figures fig) => way is not { } line ? "not known" : fig.Way(line);
}
