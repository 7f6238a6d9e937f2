using System.Globalization;
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
        foreach ((ScreenId id, string label, string question) in Keys.Screens)
            left.Line(((int)id).ToString(CultureInfo.InvariantCulture), $"{label,-9}{question}");
        foreach (KeyUse use in Keys.All.Where(k => k.On is null && !k.ReplayOnly)) left.Line(use.Cap, use.Does);
        Rows right = new(pane.Part(half, 1, pane.Width - half, pane.Height - 1), 12);
        foreach (KeyUse use in Keys.All.Where(k => k.On is not null))
            right.Line(string.Create(CultureInfo.InvariantCulture, $"{(int)use.On!} {use.Cap}"), use.Does);
        right.Line("  ~  ?", "expected, not heard");
        right.Line("  ! (", "alarm open, over but open");
        right.Line("  areas", "solid 50 %, dotted 95 %");
    }
}
