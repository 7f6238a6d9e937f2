using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Core;
using Groundstation.Core.Alarms;

namespace Groundstation.Console.Screens.Panels;

/// <summary>The standing alarms, worst first, with the next step where there is room.</summary>
internal static class AlarmPanel
{
    /// <summary>Paints it over the whole pane.</summary>
    public static void Draw(Pane pane, Snapshot s)
    {
        AlarmState[] standing = [.. s.Alarms.Where(a => a.Standing)];
        int shelved = s.Alarms.Count(a => a.Phase == AlarmPhase.Shelved);
        string note = standing.Length == 0 ? "" : string.Create(CultureInfo.InvariantCulture,
            $"{standing.Length} standing");
        if (shelved > 0) note += string.Create(CultureInfo.InvariantCulture, $" {shelved} shelved");
        pane.Title(0, "Alarms", note.Trim());
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

            string word = Standing.Word(a.Severity);
            pane.Text(1, y, word, Standing.InkOf(a.Severity));
            pane.Put(10, y, State(a.Phase), Ink.Strong);
            // Room for the next step only when every other alarm still gets its row.
            int spare = pane.Height - y - 1 - left;
            y += Math.Max(1, pane.Wrap(12, y, a.Cause, Ink.Plain, Math.Clamp(spare, 1, 2)));
            spare = pane.Height - y - left;
            if (spare > 0 && i == 0) y += pane.Wrap(12, y, "Do: " + a.NextStep, Ink.Strong, Math.Min(spare, 3));
        }
    }

    /// <summary>A sign for the life cycle: ! not acknowledged, - acknowledged, ( returned.</summary>
    private static char State(AlarmPhase phase) => phase switch
    {
        AlarmPhase.Unacknowledged => '!',
        AlarmPhase.ReturnedUnacknowledged => '(',
        _ => ' ',
    };
}
