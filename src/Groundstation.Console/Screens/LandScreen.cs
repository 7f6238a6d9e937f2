using Groundstation.Console.Cells;
using Groundstation.Console.Plots;
using Groundstation.Console.Screens.Panels;
using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Earth;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;

namespace Groundstation.Console.Screens;

/// <summary>Where will it land? The estimate with all that belongs to it, and how it has moved.</summary>
internal static class LandScreen
{
    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, Figures fig)
    {
        pane.Title(0, "Where will it land?", s.Landing is { } m ? LandingPanel.Method(s, m) : "");
        if (s.Landing is not { } l)
        {
            pane.Text(1, 2, "No estimate yet: it needs a believed fix.");
            pane.Wrap(1, 3, "A plan that states launch site and winds shows here, before that, where its flight would land.",
                Ink.Quiet);
            return;
        }

        bool side = pane.Width >= 110;
        int width = side ? Math.Max(58, pane.Width * 2 / 5) : pane.Width;
        Rows rows = new(pane.Part(0, 1, width, pane.Height - 1), 18);
        Place(ref rows, s, l, fig);
        Areas(ref rows, l, fig);
        foreach (KeepOutShare share in s.KeepOuts.Take(side ? 5 : 1))
            rows.Line("keep out", $"{share.Area.Name}: {Math.Max(1, Math.Round(share.Share * 100))} of 100 land in it",
                share.Share >= s.Plan.Alarms.KeepOutCautionShare ? Ink.Caution : Ink.Strong);
        Pane rest = rows.Rest();
        int plot = side ? Math.Max(7, rest.Height / 2) : rest.Height;
        Convergence(rest.Part(0, 0, rest.Width - (side ? 1 : 0), plot), s, l, fig);
        if (side)
        {
            History(rest.Part(0, plot, rest.Width - 1, rest.Height - plot), s, l, fig);
            pane.Part(width, 1, 1, pane.Height - 1).Upright(0);
            PlanPlot.Draw(pane.Part(width + 1, 1, pane.Width - width - 1, pane.Height - 1), s,
                new View { Follow = Follow.Landing, Zoom = Zoom(s, l, pane.Width - width - 1), Earlier = true }, fig,
                true);
        }
    }

    private static void Place(ref Rows rows, Snapshot s, LandingEstimate l, Figures fig)
    {
        rows.Line("place", Figures.Place(l.Position), Ink.Strong);
        if (Shown.Home(s) is { } home) rows.Line("from launch", fig.Way(home, l.Position));
        if (Shown.Place(s) is { } balloon && l.Method != LandingMethod.Landed)
            rows.Line(Shown.Silent(s) ? "from expected" : "from the balloon", fig.Way(balloon, l.Position));
        if (s.Chase is { } chase) rows.Line("from chase", fig.Way(chase.Position, l.Position));
        rows.Line("ground there", $"{fig.Height(l.Ground.Metres)} above sea level, {From(s, l)}");
        rows.Line(LandingPanel.Verb(s, l), LandingPanel.When(s, l), Ink.Strong);
        if (l.HearAgainUtc is { } again)
            rows.Line("fix again", $"{Figures.Clock(again)}, {Relative(s, again)}", Ink.Strong);
    }

    private static void Areas(ref Rows rows, LandingEstimate l, Figures fig)
    {
        rows.Line("half of flights", $"{LandingPanel.AreaWords(l.Area50, fig)}  ({fig.Area(l.Area50.AreaM2)})");
        rows.Line("95 of 100", $"{LandingPanel.AreaWords(l.Area95, fig)}  ({fig.Area(l.Area95.AreaM2)})");
        if (!l.Causes.IsEmpty) rows.Wrap("because of", LandingPanel.Causes(l, fig), Ink.Plain, 3);
        if (l is { Method: not LandingMethod.Landed, LastWind: { } plain })
            rows.Line("last wind only", $"{Figures.Place(plain)}, {fig.Way(l.Position, plain)}");
    }

    private static void Convergence(Pane pane, Snapshot s, LandingEstimate l, Figures fig)
    {
        if (pane.Height < 4) return;
        pane.Title(0, "How it has moved", pane.Width < 72 ? "off the newest; dotted 95 % area"
            : "distance off the newest estimate; dotted: 95 % area");
        ConvergencePlot.Draw(pane.Below(1), s, l, fig);
    }

    private static string From(Snapshot s, LandingEstimate l) => l.Method == LandingMethod.Landed ? "as heard there"
        : s.GroundFrom switch
        {
            GroundOrigin.Operator => "as you told",
            GroundOrigin.Terrain => "from terrain tiles",
            GroundOrigin.Plan => "from the plan",
            GroundOrigin.Launch => "as at the launch",
            _ => "a guess",
        };

    private static void History(Pane pane, Snapshot s, LandingEstimate now, Figures fig)
    {
        if (pane.Height < 3) return;
        pane.Title(0, "Earlier estimates", pane.Width >= 68 ? "off the newest, 95 % area" : "how far off the newest");
        var rows = s.LandingHistory.Where(h => h.Utc < now.Utc).ToArray();
        if (rows.Length == 0) pane.Text(1, 1, "none", Ink.Quiet);
        int room = pane.Height - 1, shown = Math.Min(room, rows.Length);
        for (int i = 0; i < shown; i++)
        {
            // Evenly over the whole flight, the newest on top: convergence is seen at a glance.
            int at = rows.Length - 1 - (shown == 1 ? 0 : i * (rows.Length - 1) / (shown - 1));
            (Instant utc, GeoPoint place, double area) = rows[at];
            int x = pane.Text(1, i + 1, Figures.Clock(utc), Ink.Quiet);
            x = pane.Text(x + 2, i + 1, Figures.Place(place));
            (double metres, double bearing, _) = Geodesic.Inverse(now.Position, place);
            x = pane.Text(Math.Max(x + 2, 34), i + 1, $"{fig.Distance(metres)} at {fig.Bearing(bearing)}");
            if (pane.Width >= 68) pane.Text(Math.Max(x + 2, 54), i + 1, "±" + fig.Distance(area), Ink.Quiet);
        }
    }

    private static string Relative(Snapshot s, Instant at) =>
        at.SecondsSince(s.Utc) is var t && t >= 0 ? "in " + Figures.Span(t) : Figures.Span(t) + " ago";

    /// <summary>Steps in from the view of everything, so that the larger area fills about half the picture.</summary>
    private static int Zoom(Snapshot s, LandingEstimate l, int columns)
    {
        if (Shown.Anchor(s) is not { } anchor || l.Area95.MajorM <= 0) return 0;
        Pane pane = new(new Canvas(), 0, 0, columns, columns / 2);
        double want = l.Area95.MajorM * 4 / (columns * 2);
        int zoom = 0;
        double Scale(int steps) => Frame.Fit(s, new View { Follow = Follow.Landing, Zoom = steps }, pane, anchor).Scale;
        while (zoom < 12 && Scale(zoom + 1) >= want) zoom++;
        return zoom;
    }
}
