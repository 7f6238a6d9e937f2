using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Console.Sheets;
using Groundstation.Core;
using Groundstation.Core.Readiness;

namespace Groundstation.Console.Screens;

/// <summary>Ready to launch? What the station sees, what people confirm, what stands against it, and the
/// fill.</summary>
internal static class ReadyScreen
{
    private const int ColumnWidth = 40;

    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, View view, Figures fig)
    {
        if (view.FillSheet)
        {
            pane.Title(0, "Fill", "up, down; p goes back");
            Sheet(pane.Below(1), s, fig, view.Chosen);
            return;
        }

        LaunchReadiness ready = LaunchReadiness.Of(s);
        int rows = Math.Max(ready.Station.Length, ready.People.Length) + 1;
        Points(pane.Part(0, 0, ColumnWidth - 1, rows), "The station sees", ready.Station, null, fig);
        Points(pane.Part(ColumnWidth, 0, ColumnWidth, rows), "People confirm", ready.People, view.Chosen, fig);
        Verdict(pane.Part(0, rows, Math.Min(pane.Width, 2 * ColumnWidth), pane.Height - rows), s, ready, view, fig);
        if (pane.Width < 2 * ColumnWidth + 30) return;
        Pane side = pane.Part(2 * ColumnWidth + 1, 0, pane.Width - 2 * ColumnWidth - 1, pane.Height);
        side.Title(0, "Fill", "p alone on the screen");
        Sheet(side.Below(1), s, fig, 0);
    }

    /// <summary>The plan's fill sheet, from a row on.</summary>
    private static void Sheet(Pane pane, Snapshot s, Figures fig, int from)
    {
        int y = -from;
        foreach (string line in FillSheet.Of(s.Plan with { Units = fig.Units }).Lines().Skip(1))
            y += Rows(pane, y, line.Length > 2 ? line[2..] : line);
    }

    private static int Rows(Pane pane, int y, string line)
    {
        if (y < 0) return 1;
        return line.Length <= pane.Width ? Put(pane, y, line) : Math.Max(1, pane.Wrap(0, y, line));
    }

    private static int Put(Pane pane, int y, string line)
    {
        pane.Text(0, y, line, line.StartsWith("NECK LIFT", StringComparison.Ordinal) ? Ink.Strong : Ink.Plain);
        return 1;
    }

    private static void Points(Pane pane, string title, IReadOnlyList<LaunchCheck> checks, int? chosen, Figures fig)
    {
        int done = checks.Count(c => c.State == CheckState.Ready);
        pane.Title(0, title, string.Create(CultureInfo.InvariantCulture, $"{done} of {checks.Count}"));
        for (int i = 0; i < checks.Count; i++)
        {
            LaunchCheck check = checks[i];
            bool people = chosen is not null;
            (string word, Ink ink) = check.State switch
            {
                CheckState.Ready => (people ? "done" : "ok", Ink.Good),
                CheckState.Doubtful => ("look", Ink.Caution),
                _ => (people ? "open" : "NO", Ink.Warning),
            };
            pane.Text(1, i + 1, word, ink);
            int x = pane.Text(6, i + 1, check.Label, i == chosen ? Ink.Chosen : people ? Ink.Plain : Ink.Quiet);
            if (!people)
                pane.Text(Math.Max(x + 1, 21), i + 1, check.Detail.In(fig.Units),
                    check.State == CheckState.Ready ? Ink.Plain : ink);
        }
    }

    private static void Verdict(Pane pane, Snapshot s, LaunchReadiness ready, View view, Figures fig)
    {
        LaunchCheck chosen = ready.People[Math.Clamp(view.Chosen, 0, ready.People.Length - 1)];
        int y = pane.Wrap(1, 0, $"{chosen.Label}: {chosen.Detail.In(fig.Units)}", Ink.Quiet, pane.Height > 5 ? 2 : 1);
        int open = ready.Open.Count();
        LaunchCheck[] look = [.. ready.Doubtful];
        int people = ready.People.Count(c => c.State == CheckState.Open);
        string against = string.Join(", ", ready.Station.Where(c => c.State == CheckState.Open).Select(c => c.Label)
            .Concat(people == 0 ? []
                : [string.Create(CultureInfo.InvariantCulture, $"{people} for people to confirm")]));
        y += ready.Ready
            ? pane.Wrap(1, y, look.Length == 0 ? "READY: nothing stands against the launch."
                : "READY, people decide about: " + string.Join(", ", look.Select(c => c.Label)), Ink.Good, 2)
            : pane.Wrap(1, y, string.Create(CultureInfo.InvariantCulture, $"NOT READY, {open} open: ") + against,
                Ink.Warning, 2);
        if (s.Decision is { } decision)
        {
            string decided = $"decided {Figures.Clock(decision.Utc)} {(decision.Go ? "GO" : "NO-GO")}, ";
            bool fits = pane.Rows(1, decided + decision.Standing) <= Math.Min(2, pane.Height - y);
            pane.Wrap(1, y, decided + (fits ? decision.Standing : "what was open then stands in the log, key 9"),
                Ink.Strong, 2);
        }
        else
        {
            pane.Text(1, y, "Not decided yet. G go, X no-go; either is recorded with what was open.", Ink.Quiet);
        }
    }
}
