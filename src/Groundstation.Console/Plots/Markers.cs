using Groundstation.Console.Cells;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Earth;

namespace Groundstation.Console.Plots;

/// <summary>The places that carry a sign and a word in the plan view.</summary>
internal static class Markers
{
    /// <summary>Cells of one row that a sign or a word has taken.</summary>
    internal readonly record struct Span(int From, int To, int Row);

    /// <summary>
    /// Paints them, the most important last, so that it stays on top; tells which cells they took.
    /// </summary>
    public static List<Span> Draw(Pane pane, in Frame frame, Snapshot s, bool labels)
    {
        List<(int X, int Y, string Word, Ink Ink)> words = [];
        Put(pane, frame, words, s.Flight.Launch?.Position ?? s.Flight.Pad?.Position, '▲', "launch", Ink.Strong);
        Put(pane, frame, words, s.Flight.Burst?.Position, '×', Shown.Turn(s), Ink.Strong);
        bool landed = Shown.OnGround(s), silent = Shown.Silent(s);
        if (!landed) Put(pane, frame, words, s.Landing?.LastWind, '◇', "last wind", Ink.Quiet);
        if (silent) Put(pane, frame, words, s.Flight.Newest?.Position, '○', "last heard", Ink.Strong);
        Put(pane, frame, words, s.Chase?.Position, '■', "chase", Ink.Chase);
        Put(pane, frame, words, s.Landing?.Position, '◆', landed ? "landed" : Shown.LandingWord(s), Ink.Area50);
        if (!landed) Put(pane, frame, words, Shown.Place(s), '●', silent ? "expected" : "balloon", Ink.Strong);
        List<Span> taken = [.. words.Select(w => new Span(w.X, w.X, w.Y))];
        if (!labels) return taken;
        words.Reverse();
        foreach ((int x, int y, string word, Ink ink) in words)
        {
            foreach ((int dx, int dy) in ((int, int)[])[(2, 0), (-word.Length - 1, 0), (2, 1), (2, -1),
                (-word.Length - 1, 1), (-word.Length - 1, -1)])
            {
                int from = x + dx, to = from + word.Length - 1, row = y + dy;
                if (from < 0 || to >= pane.Width || row < 0 || row >= pane.Height - 1) continue;
                if (!Free(taken, from, to, row)) continue;
                pane.Text(from, row, word, ink);
                taken.Add(new(from, to, row));
                break;
            }
        }

        return taken;
    }

    /// <summary>True when nothing stands in these cells or right beside them.</summary>
    public static bool Free(List<Span> taken, int from, int to, int row) =>
        !taken.Any(t => t.Row == row && from <= t.To + 1 && to >= t.From - 1);

    private static void Put(Pane pane, in Frame frame, List<(int, int, string, Ink)> words, GeoPoint? place, char sign,
        string word, Ink ink)
    {
        if (place is not { } at) return;
        (double dx, double dy) = frame.Dot(at);
        int x = (int)Math.Floor(dx / 2), y = (int)Math.Floor(dy / 4);
        if (x < 0 || y < 0 || x >= pane.Width || y >= pane.Height) return;
        pane.Put(x, y, sign, ink);
        words.RemoveAll(w => w.Item1 == x && w.Item2 == y);
        words.Add((x, y, word, ink));
    }
}
