using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;
using Groundstation.Core;

namespace Groundstation.Console.Screens;

/// <summary>Paints one whole picture: a function of snapshot, session, view and size, and of nothing else.</summary>
internal static class Painter
{
    /// <summary>Smallest size on which the screens are laid out.</summary>
    public const int LeastWidth = 80, LeastHeight = 24;

    /// <summary>Paints onto a canvas that has just been reset to the terminal's size.</summary>
    public static void Paint(Canvas canvas, Snapshot? snapshot, FeedStatus status, View view)
    {
        Figures fig = new(view.UnitsOver(snapshot), canvas.Ascii);
        Pane all = canvas.All;
        if (all.Width < LeastWidth || all.Height < LeastHeight)
        {
            TooSmall(all, snapshot, view, fig);
            return;
        }

        Standing.Draw(all.Part(0, 0, all.Width, Standing.Height), snapshot, status, fig, view.Muted);
        Footer.Draw(all.Part(0, all.Height - Footer.Height, all.Width, Footer.Height), snapshot, view,
            status.IsReplay);
        Pane body = all.Part(0, Standing.Height, all.Width, all.Height - Standing.Height - Footer.Height);
        if (view.HelpPage > 0) HelpScreen.Draw(body, view.HelpPage, status.IsReplay);
        else if (view.Debrief) DebriefScreen.Draw(body, status, view.Back);
        else if (snapshot is null) body.Text(1, 1, "Waiting for the station's first word.", Ink.Quiet);
        else Body(body, snapshot, status, view, fig);
    }

    private static void Body(Pane body, Snapshot s, FeedStatus status, View view, Figures fig)
    {
        switch (view.Screen)
        {
            case ScreenId.Where: WhereScreen.Draw(body, s, view, fig); break;
            case ScreenId.High: HighScreen.Draw(body, s, fig); break;
            case ScreenId.Land when view.Sheet: SheetScreen.Draw(body, s, view); break;
            case ScreenId.Land: LandScreen.Draw(body, s, fig); break;
            case ScreenId.Wind: WindScreen.Draw(body, s, fig); break;
            case ScreenId.Believe: BelieveScreen.Draw(body, s, fig); break;
            case ScreenId.Wrong: WrongScreen.Draw(body, s, view, fig); break;
            case ScreenId.Say: SayScreen.Draw(body, s, view); break;
            case ScreenId.Chase: ChaseScreen.Draw(body, s, fig); break;
            case ScreenId.Happened: HappenedScreen.Draw(body, s, view, status, fig); break;
            case ScreenId.Ready: ReadyScreen.Draw(body, s, view, fig); break;
            default:
                if (s.HeardAgeS is null && s.Flight.Newest is null) WaitScreen.Draw(body, s, status, fig);
                else FlightScreen.Draw(body, s, fig);
                break;
        }
    }

    /// <summary>Says what is needed, and still tells the figures that count in as many rows as there are.</summary>
    private static void TooSmall(Pane all, Snapshot? s, View view, Figures fig)
    {
        int y = view.Prompt is { } prompt ? 1 : 0;
        if (view.Prompt is { } p) all.Text(0, 0, p.Question + " " + (p.WantsText ? p.Typed : p.Hint), Ink.Chosen);
        y += all.Wrap(0, y, string.Create(CultureInfo.InvariantCulture,
            $"needs {LeastWidth}×{LeastHeight}, has {all.Width}×{all.Height}"), Ink.Strong);
        if (s is null) return;
        (string heard, Ink ink) = Standing.Heard(s);
        all.Text(0, y++, heard, ink);
        string about = Shown.Silent(s) ? "~" : "";
        all.Text(0, y++, Shown.PhaseWord(s) + " " + (Shown.Height(s) is { } h ? about + fig.Height(h) : "no altitude"));
        if (s.Landing is { } l)
        {
            all.Text(0, y++, "lands " + Figures.Place(l.Position));
            all.Text(0, y++, "within " + fig.Axes(l.Area95.MajorM, l.Area95.MinorM));
        }

        if (s.Alarms.FirstOrDefault(a => a.Standing) is { } alarm)
            all.Text(0, y, Standing.Word(alarm).Word + " " + alarm.Cause.In(fig.Units), Standing.Word(alarm).Ink);
    }
}
