using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Core;
using Groundstation.Core.Alarms;

namespace Groundstation.Console.Screens.Panels;

/// <summary>The standing alarms, worst first, with the next step where there is room.</summary>
internal static class AlarmPanel
{
    /// <summary>Paints it over the whole pane.</summary>
    public static void Draw(Pane pane, Snapshot s, Figures fig)
    {
        AlarmState[] standing = [.. s.Alarms.Where(a => a.Standing)];
        int over = standing.Count(a => a.Phase == AlarmPhase.ReturnedUnacknowledged);
        (int Count, string Word)[] counts = [(standing.Length - over, "standing"), (over, "over"),
            (s.Alarms.Count(a => a.Phase == AlarmPhase.Shelved), "shelved")];
        pane.Title(0, "Alarms", string.Join(", ", counts.Where(c => c.Count > 0)
            .Select(c => string.Create(CultureInfo.InvariantCulture, $"{c.Count} {c.Word}"))));
        if (standing.Length == 0) pane.Text(1, 1, "none", Ink.Good);
        int y = 1;
        for (int i = 0; i < standing.Length && y < pane.Height; i++)
        {
            AlarmState a = standing[i];
            int left = standing.Length - i - 1;
            if (y == pane.Height - 1 && left > 0)
            {
                pane.Text(1, y, string.Create(CultureInfo.InvariantCulture, $"and {left + 1} more: key 7"),
                    Ink.Caution);
                break;
            }

            (string word, Ink ink) = Standing.Word(a);
            pane.Text(1, y, word, ink);
            // Room for the next step only when every other alarm still gets its row.
            int spare = pane.Height - y - left, step = i == 0 ? pane.Rows(10, "Do: " + a.NextStep) : 0;
            // The first one's cause stands in full on top of the screen: its next step goes before more rows of it.
            int cause = step > 0 && step + 1 <= spare ? spare - step : Math.Max(1, spare);
            // Too long for its rows: its first clause says what is so, key 7 the rest.
            string text = a.Cause.In(fig.Units);
            if (pane.Rows(10, text) > cause) text = text.Split(';')[0];
            y += Math.Max(1, pane.Wrap(10, y, text, Ink.Plain, cause));
            if (step > 0 && step <= pane.Height - y - left) y += pane.Wrap(10, y, "Do: " + a.NextStep, Ink.Strong);
        }
    }
}
