using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;
using Groundstation.Console.Screens.Panels;
using Groundstation.Core;
using Groundstation.Core.Plan;

namespace Groundstation.Console.Screens;

/// <summary>Before the first believed fix: what it waits for, and what it takes for granted.</summary>
internal static class WaitScreen
{
    // Until it is known which sentence comes last an epoch ends with the next one, or after 0.7 s of quiet.
    private const double FirstEpochS = 3;

    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, FeedStatus status, Figures fig)
    {
        pane.Title(0, "Waiting for the first believed fix");
        int y = 1 + pane.Wrap(1, 1, Waits(s, status), Ink.Strong, 3);
        if (status.Sources.Count > 0)
            pane.Text(1, y++, (status.Following ? "follows " : "listens to ") + string.Join(", ", status.Sources),
                Ink.Quiet);
        Pane receivers = pane.Below(y + 1);
        y += 1 + ReceiverPanel.Draw(receivers, s);
        if (s.NewestFix is { } fix && y < pane.Height)
            pane.Text(1, y++, $"newest fix refused: {fix.Detail.In(fig.Units)}", Ink.Caution);
        if (s.Landing is { } landing)
        {
            y += 1 + pane.Wrap(1, y + 1, $"{LandingPanel.Method(s, landing)}: lands {Figures.Clock(landing.LandingUtc)[..5]} at "
                + $"{Figures.Place(landing.Position)}, 95 of 100 within ±"
                + fig.Axes(landing.Area95.MajorM, landing.Area95.MinorM));
        }

        Defaults(pane.Below(y + 1), s.Plan, fig);
    }

    private static string Waits(Snapshot s, FeedStatus status)
    {
        if (status.Following && s.Receivers.All(r => r.LastByte is null))
            return "Nothing comes yet from the station that shares: is it on, and does it share under this name?";
        if (s.NewestFix is not null) return "Fixes come in, but none is believed yet: key 6 shows why.";
        if (s.Receivers.Any(r => r.Accepted > 0 && r.FirstByte is { } first && s.Arrival.SecondsSince(first) < FirstEpochS))
            return "Sentences come in. A fix is whole, and shown, when the next one begins: a second or two.";
        if (s.Receivers.Any(r => r.Accepted > 0))
            return "Sentences come in, but no position yet: the tracker may have no sky.";
        if (s.Receivers.Any(r => r.LastByte is not null))
            return "Bytes come in, but no sentence among them: is it the right port and baud rate?";
        if (status.IsReplay)
            return status.Ended ? "The recording has ended without a line." : "The recording has not given a line yet.";
        if (s.Marks.Launch is not null)
            return "Launched, and nothing heard: check antenna, channel and cable. Keys 4 and 8 show what the plan says.";
        return "Nothing heard yet: switch the tracker on, check the receiver's cable and its channel.";
    }

    /// <summary>The plan's values in force, each marked as stated or assumed.</summary>
    public static void Defaults(Pane pane, FlightPlan plan, Figures fig)
    {
        if (pane.Height < 2) return;
        bool none = plan.Stated.Length == 0;
        pane.Title(0, none ? "No plan: these values are assumed" : "Plan: " + plan.Name);
        int across = pane.Width >= 110 ? 2 : 1, half = pane.Width / across;
        (string Label, string Value)[] values =
        [
            ("ascent rate", fig.Climb(plan.AscentRateMps)),
            ("burst height", fig.Height(plan.BurstHeight.Metres) + " ±" + fig.Height(plan.BurstSigmaM * 2)),
            ("descent rate", fig.Climb(-plan.DescentRateSeaLevelMps) + " at sea level"),
            ("descent mass", fig.Mass(plan.DescentMassKg)),
            ("launch site", plan.LaunchSite is { } site ? Figures.Place(site) : "where the first fixes are"),
            ("landing ground", plan.LandingGround is { } g ? fig.Height(g.Metres) : "as high as the launch ground"),
            ("receiver's limit", plan.TrackerAltitudeLimit is { } limit ? fig.Height(limit.Metres) : "none known"),
            ("wind forecast", Winds(plan)),
            ("a fix needs", $"{plan.Belief.MinSatellites} satellites, HDOP ≤ {Figures.Number(plan.Belief.MaxHdop, 1)}"),
            ("silence alarm", "after " + Figures.Span(plan.Alarms.NoFixS)),
        ];
        for (int i = 0; i < values.Length; i++)
        {
            Pane cell = pane.Part(i % across * half, 1 + i / across, half, 1);
            cell.Text(1, 0, values[i].Label, Ink.Quiet);
            cell.Text(18, 0, values[i].Value);
        }
    }

    private static string Winds(FlightPlan plan) => plan.Winds switch
    {
        [var one] => one.Source,
        [_, ..] many => $"{many.Length} times, from {many[0].Source}",
        _ => "none",
    };
}
