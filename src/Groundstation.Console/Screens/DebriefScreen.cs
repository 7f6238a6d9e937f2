using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;

namespace Groundstation.Console.Screens;

/// <summary>
/// What there is to talk about after an exercise. Before the end it says nothing of how the flight goes on.
/// </summary>
internal static class DebriefScreen
{
    /// <summary>Paints it from a line on.</summary>
    public static void Draw(Pane pane, FeedStatus status, int first)
    {
        pane.Title(0, "Debrief", status.Ended ? "up down scroll, d goes back" : "so far; up down scroll, d goes back");
        int y = 1;
        foreach (string line in status.Debrief.Skip(first))
        {
            if (y >= pane.Height) return;
            // What belongs to a line stays under it.
            int indent = line.Length - line.TrimStart().Length;
            y += Math.Max(1, pane.Part(indent + 1, y, pane.Width - indent - 2, pane.Height - y)
                .Wrap(0, 0, line.TrimStart(), line.StartsWith(' ') ? Ink.Plain : Ink.Strong));
        }

        if (status.Debrief.Count == 0) pane.Text(1, 2, "Being made …", Ink.Quiet);
    }
}
