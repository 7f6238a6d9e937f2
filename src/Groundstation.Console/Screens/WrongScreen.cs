using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Core;
using Groundstation.Core.Alarms;

namespace Groundstation.Console.Screens;

/// <summary>What is wrong? Every alarm with cause, consequence and next step, worst first.</summary>
internal static class WrongScreen
{
    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, View view)
    {
        pane.Title(0, "What is wrong?", s.Alarms.Length == 0 ? "" : string.Create(CultureInfo.InvariantCulture,
            $"{s.Alarms.Length} in all, worst first"));
        if (s.Alarms.Length == 0)
        {
            pane.Text(1, 2, "Nothing: no alarm stands.", Ink.Good);
            return;
        }

        int chosen = Math.Min(view.Chosen, s.Alarms.Length - 1);
        int first = s.Alarms.Min(a => a.Order);
        // Each takes at most six rows: start so that the chosen one is in sight.
        int fits = Math.Max(1, (pane.Height - 1) / 6), y = 1;
        for (int i = Math.Max(0, chosen - fits + 1); i < s.Alarms.Length && y < pane.Height; i++)
            y += One(pane.Below(y), s, s.Alarms[i], i == chosen, first) + 1;
    }

    private static int One(Pane pane, Snapshot s, AlarmState a, bool chosen, int first)
    {
        pane.Put(0, 0, chosen ? '→' : ' ', Ink.Strong);
        int x = pane.Text(2, 0, Standing.Word(a.Severity), Standing.InkOf(a.Severity));
        x = pane.Text(x + 2, 0, Life(a, s), chosen ? Ink.Chosen : Ink.Plain);
        // Which came first often tells which brought on the others.
        pane.Text(x + 2, 0, a.Order == first && s.Alarms.Length > 1 ? "first out" : string.Create(
            CultureInfo.InvariantCulture, $"no. {a.Order}"), a.Order == first ? Ink.Strong : Ink.Quiet);
        pane.Right(0, string.Create(CultureInfo.InvariantCulture,
            $"{a.Id}  since {Figures.Clock(a.Since)}, {Figures.Span(s.Utc.SecondsSince(a.Since))}"), Ink.Quiet);
        Rows rows = new(pane.Below(1), 12);
        rows.Wrap("  because", a.Cause, Ink.Strong, 2);
        rows.Wrap("  so", a.Consequence, Ink.Plain, 2);
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
