using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;
using Groundstation.Core;
using Groundstation.Core.Quantities;

namespace Groundstation.Console.Screens;

/// <summary>What happened? The events, newest at the bottom.</summary>
internal static class HappenedScreen
{
    /// <summary>Column behind the clock.</summary>
    private const int Text = 11;

    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, View view, FeedStatus status, Figures fig)
    {
        (Instant Utc, string Text)[] lines = [.. s.Events.Select(e => (e.Utc, e.Text.In(fig.Units)))
            .Where(e => e.Item2.Contains(view.Filter, StringComparison.OrdinalIgnoreCase))];
        string note = view.Filter.Length > 0
            ? string.Create(CultureInfo.InvariantCulture, $"{lines.Length} of {s.Events.Length} hold \"{view.Filter}\"")
            : status.Recording.Length > 0 ? "recorded in " + status.Recording : "";
        pane.Title(0, "What happened?", note);
        if (lines.Length == 0)
        {
            pane.Text(1, 2, s.Events.Length == 0 ? "Nothing yet." : "No line holds that text.", Ink.Quiet);
            return;
        }

        // A long line takes several rows; the newest that fit, or those from where the operator scrolled to.
        Pane list = pane.Below(1);
        int end = Math.Clamp(lines.Length - view.Back, 1, lines.Length), first = end, used = 0;
        while (first > 0 && used + list.Rows(Text, lines[first - 1].Text) is var rows && rows <= list.Height)
            (first, used) = (first - 1, rows);
        while (end < lines.Length && used + list.Rows(Text, lines[end].Text) is var rows && rows <= list.Height)
            (end, used) = (end + 1, rows);
        for (int i = first, y = 0; i < end; i++)
        {
            list.Text(1, y, Figures.Clock(lines[i].Utc), Ink.Quiet);
            y += Math.Max(1, list.Wrap(Text, y, lines[i].Text));
        }

        if (end < lines.Length)
            pane.Right(pane.Height - 1, string.Create(CultureInfo.InvariantCulture,
                $" {lines.Length - end} newer below "), Ink.Chosen);
    }
}
