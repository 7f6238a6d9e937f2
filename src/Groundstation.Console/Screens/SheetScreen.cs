using Groundstation.Console.Cells;
using Groundstation.Core;
using Groundstation.Core.Callouts;

namespace Groundstation.Console.Screens;

/// <summary>The search sheet as the file has it; in two columns where one screen's height would cut it.</summary>
internal static class SheetScreen
{
    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, View view)
    {
        pane.Title(0, "Search sheet", "up, down scroll; s goes back; file: search-sheet.txt");
        if (s.Sheet is not { } matter)
        {
            pane.Text(1, 2, "No estimate yet: there is nothing to search.");
            return;
        }

        string[] lines = SearchSheet.Compose(matter).TrimEnd('\n').Split('\n');
        int rows = pane.Height - 1;
        lines = [.. lines.Where(line => line.Length > 0)];
        bool two = lines.Length > rows && pane.Width >= 2 * SearchSheet.Width;
        int shown = Math.Min(lines.Length, two ? 2 * rows : rows), first = Math.Min(view.Back, lines.Length - shown);
        for (int i = 0; i < shown; i++)
        {
            string line = lines[first + i];
            pane.Text(i < rows ? 0 : SearchSheet.Width + 2, 1 + i % rows, line, line[0] == ' ' ? Ink.Plain : Ink.Heading);
        }
    }
}
