using Groundstation.Console.Cells;
using Groundstation.Core;
using Groundstation.Core.Landing;

namespace Groundstation.Console.Screens.Panels;

/// <summary>The landing estimate in a few lines.</summary>
internal static class LandingPanel
{
    /// <summary>Paints it; returns the rows it took.</summary>
    public static int Draw(Pane pane, Snapshot s, Figures fig, bool roomy)
    {
        Rows rows = new(pane, 13);
        if (s.Landing is not { } l)
        {
            rows.Title("Landing estimate");
            rows.Text("none yet: needs a believed fix");
            return rows.Y;
        }

        rows.Title(l.Method == LandingMethod.Landed ? "Landing place" : "Landing estimate", Method(s, l));
        rows.Line("place", Figures.Place(l.Position), Ink.Strong);
        if (Shown.Home(s) is { } home) rows.Line("from launch", fig.Way(home, l.Position));
        if (roomy && s.Chase is { } chase) rows.Line("from chase", fig.Way(chase.Position, l.Position));

        rows.Line(Verb(s, l), When(s, l), Ink.Strong);
        if (roomy) rows.Line("ground", fig.Height(l.Ground.Metres));
        rows.Line("half inside", AreaWords(l.Area50, fig));
        rows.Line("95 of 100", AreaWords(l.Area95, fig));
        if (l.HearAgainUtc is { } again && again > s.Utc)
            rows.Line("fix again", $"{Figures.Clock(again)[..5]}, in {Figures.Span(again.SecondsSince(s.Utc))}",
                Ink.Strong);
        // Where there is no room for all of it the causes are left to the landing screen: half a cause says nothing.
        if (roomy && !l.Causes.IsEmpty) rows.Wrap("because", Causes(l, fig), Ink.Plain, 3);
        return rows.Y;
    }

    /// <summary>Landed, lands, or, in silence, should have landed.</summary>
    public static string Verb(Snapshot s, LandingEstimate l) =>
        l.Method == LandingMethod.Landed ? "landed" : l.LandingUtc < s.Utc ? "landed?" : "lands";

    /// <summary>The causes, with each figure kept beside its sign or unit.</summary>
    public static string Causes(LandingEstimate l, Figures fig)
    {
        ReadOnlySpan<string> units = ["%", "km", "kft"];
        string text = l.Causes.In(fig.Units);
        foreach (string unit in units)
            text = text.Replace(" " + unit, Glyphs.NoBreak + unit, StringComparison.Ordinal);
        return text;
    }

    /// <summary>An area in words: semi-axes and the direction of the longer one.</summary>
    public static string AreaWords(SearchArea area, Figures fig) =>
        $"±{fig.Axes(area.MajorM, area.MinorM)} along {fig.Bearing(area.AzimuthDeg)}";

    /// <summary>Time of landing and how long that is from now.</summary>
    public static string When(Snapshot s, LandingEstimate l)
    {
        double seconds = l.LandingUtc.SecondsSince(s.Utc);
        string spread = l.LandingSigmaS >= 1 ? $" ±{Round(l.LandingSigmaS * 2)}" : "";
        string clock = l.LandingSigmaS > 30
            ? Figures.Clock(l.LandingUtc.PlusSeconds(30))[..5] : Figures.Clock(l.LandingUtc);
        return l.Method == LandingMethod.Landed ? Figures.Clock(l.LandingUtc)
            : $"{clock}{spread}, " + (seconds >= 0 ? "in " + Left(seconds) : Left(-seconds) + " ago");

        // Seconds only where they mean something: near the ground, and never in a spread of minutes.
        static string Left(double s) => s < 600 ? Figures.Span(s) : Round(s);
        static string Round(double s) => s < 60 ? $"{Math.Ceiling(s)} s"
            : s < 6000 ? $"{Math.Round(s / 60)} min" : Figures.Span(s);
    }

    /// <summary>What the estimate rests on, in a few words.</summary>
    public static string Method(Snapshot s, LandingEstimate landing) => landing.Method switch
    {
        LandingMethod.Planned when s.Marks.Launch is { } marked => $"planned, launched {Figures.Clock(marked)[..5]}",
        LandingMethod.Planned => $"planned, launch {Figures.Clock(landing.Path[0].Utc)[..5]}",
        LandingMethod.Ascent => "by expected burst",
        LandingMethod.Descent => "by descent heard",
        LandingMethod.Float => "floats, ends unknown",
        LandingMethod.Silent => "by model, " + Shown.Hears(s),
        _ => "heard on the ground",
    };
}
