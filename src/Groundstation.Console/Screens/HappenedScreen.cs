using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;
using Groundstation.Core;

namespace Groundstation.Console.Screens;

/// <summary>What happened? The events, newest at the bottom.</summary>
internal static class HappenedScreen
{
    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, View view, FeedStatus status)
    {
        EventLine[] lines = view.Filter.Length == 0 ? [.. s.Events]
            : [.. s.Events.Where(e => e.Text.Contains(view.Filter, StringComparison.OrdinalIgnoreCase))];
        string note = view.Filter.Length > 0
            ? string.Create(CultureInfo.InvariantCulture, $"{lines.Length} of {s.Events.Length} hold \"{view.Filter}\"")
            : status.Recording.Length > 0 ? "recorded in " + status.Recording : "";
        pane.Title(0, "What happened?", note);
        if (lines.Length == 0)
        {
            pane.Text(1, 2, s.Events.Length == 0 ? "Nothing yet." : "No line holds that text.", Ink.Quiet);
            return;
        }

        int room = pane.Height - 1, end = Math.Max(Math.Min(room, lines.Length), lines.Length - view.Back);
        int first = Math.Max(0, end - room);
        for (int i = first; i < end; i++)
        {
            int x = pane.Text(1, 1 + i - first, Figures.Clock(lines[i].Utc), Ink.Quiet);
            pane.Text(x + 2, 1 + i - first, lines[i].Text);
        }

        if (end < lines.Length)
            pane.Right(pane.Height - 1, string.Create(CultureInfo.InvariantCulture,
                $" {lines.Length - end} newer below "), Ink.Chosen);
    }
}
