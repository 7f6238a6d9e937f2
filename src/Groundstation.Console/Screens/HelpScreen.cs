using Groundstation.Console.Cells;

namespace Groundstation.Console.Screens;

/// <summary>All keys, and the signs that need a word.</summary>
internal static class HelpScreen
{
    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, bool replay)
    {
        pane.Title(0, "Keys", replay ? "? the replay's keys, any other key goes back" : "any key goes back");
        int half = Math.Min(pane.Width / 2, 60);
        Rows left = new(pane.Part(0, 1, half - 1, pane.Height - 1), 8);
        foreach ((ScreenId id, _, string question) in Keys.Screens) left.Line(Keys.Of(id), question);
        List<KeyUse> everywhere = [.. Keys.All.Where(k => k.On is null && !k.ReplayOnly)];
        // What has no room on the left goes on at the top of the right.
        int fits = Math.Min(left.Left, everywhere.Count);
        foreach (KeyUse use in everywhere.Take(fits)) left.Line(use.Cap, use.Does);
        Rows right = new(pane.Part(half, 1, pane.Width - half, pane.Height - 1), 13);
        foreach (KeyUse use in everywhere.Skip(fits)) right.Line("  " + use.Cap, use.Does);
        foreach (var same in Keys.All.Where(k => k.On is not null).GroupBy(k => (k.Cap, k.Does)))
        {
            string screens = string.Concat(same.Select(k => Keys.Of(k.On!.Value)));
            right.Line($"{screens} {same.Key.Cap}", same.Key.Does);
        }

        right.Line("  ~ ?  ! (", "expected; alarm open, over");
        right.Line("  areas", "solid 50 %, dotted 95 %");
    }
}
