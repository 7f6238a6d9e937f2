using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Core;
using Groundstation.Core.Alarms;

namespace Groundstation.Console.Screens;

/// <summary>What is wrong? Every alarm with cause, consequence and next step, worst first.</summary>
internal static class WrongScreen
{
    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, View view, Figures fig)
    {
        pane.Title(0, "What is wrong?", s.Alarms.Length == 0 ? "" : string.Create(CultureInfo.InvariantCulture,
            $"{s.Alarms.Length} in all, worst first"));
        if (s.Alarms.Length == 0)
        {
            pane.Text(1, 2, "Nothing: no alarm stands.", Ink.Good);
            return;
        }

        int chosen = view.ChosenIn(s.Alarms), first = s.Alarms.Min(a => a.Order);
        Pane list = pane.Below(1), measure = new(new Canvas(), 0, 0, pane.Width, int.MaxValue);
        // All in full where there is room; else the chosen one in full and of the others the next step, or one row.
        Detail others = Detail.Full;
        while (others != Detail.Row && Enumerable.Range(0, s.Alarms.Length).Sum(i => Rows(i, others)) - 1 > list.Height)
            others--;
        int at = 0;
        while (at < chosen && Enumerable.Range(at, chosen - at + 1).Sum(i => Rows(i, others)) > list.Height)
            at++;
        for (int i = at, y = 0; i < s.Alarms.Length && y < list.Height; i++)
        {
            One(list.Below(y), s, fig, s.Alarms[i], i == chosen, i == chosen ? Detail.Full : others, first);
            y += Rows(i, others);
        }

        int Rows(int i, Detail detail) =>
            One(measure, s, fig, s.Alarms[i], i == chosen, i == chosen ? Detail.Full : detail, first)
                + (detail == Detail.Row ? 0 : 1);
    }

    private enum Detail
    {
        Row,
        NextStep,
        Full,
    }

    private static int One(Pane pane, Snapshot s, Figures fig, AlarmState a, bool chosen, Detail detail, int first)
    {
        pane.Put(0, 0, chosen ? '→' : ' ', Ink.Strong);
        if (detail == Detail.Row)
        {
            // In one row the word must tell that it is over: a cable that is back is not to be looked at.
            (string word, Ink ink) = Standing.Word(a);
            pane.Text(2, 0, word, ink);
            pane.Text(12, 0, a.Cause.In(fig.Units));
            return 1;
        }

        int x = pane.Text(2, 0, Standing.Word(a.Severity), Standing.InkOf(a.Severity));
        x = pane.Text(x + 2, 0, Life(a, s), chosen ? Ink.Chosen : Ink.Plain);
        // Which came first often tells which brought on the others.
        x = pane.Text(x + 2, 0, a.Order == first && s.Alarms.Length > 1 ? "first out" : string.Create(
            CultureInfo.InvariantCulture, $"no. {a.Order}"), a.Order == first ? Ink.Strong : Ink.Quiet);
        // Which alarm it is and since when; how long that is by now goes first where the row is full.
        string since = $"{a.Id}  since {Figures.Clock(a.Since)}";
        string full = $"{since}, {Figures.Span(s.Utc.SecondsSince(a.Since))}";
        int room = pane.Width - x - 2;
        pane.Right(0, full.Length <= room ? full : since.Length <= room ? since : a.Id, Ink.Quiet);
        Rows rows = new(pane.Below(1), 12);
        rows.Wrap("  because", a.Cause.In(fig.Units), Ink.Strong, 2);
        if (detail == Detail.Full) rows.Wrap("  so", a.Consequence, Ink.Plain, 2);
        rows.Wrap("  do", a.NextStep, Ink.Strong, 2);
        if (chosen && AlarmRules.Find(a.Id) is { } rule) rows.Wrap("  rank", rule.Because, Ink.Quiet, 2);
        return 1 + rows.Y;
    }

    private static string Life(AlarmState a, Snapshot s) => a.Phase switch
    {
        AlarmPhase.Unacknowledged => "not acknowledged",
        AlarmPhase.Acknowledged => "acknowledged",
        AlarmPhase.ReturnedUnacknowledged => "over, not acknowledged",
        AlarmPhase.Shelved => a.ShelvedUntil is { } until
            ? $"shelved for {Figures.Span(until.SecondsSince(s.Utc))} more" : "shelved",
        _ => "over",
    };
}
