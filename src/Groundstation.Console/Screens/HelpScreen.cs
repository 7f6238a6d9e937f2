using Groundstation.Console.Cells;

namespace Groundstation.Console.Screens;

/// <summary>All keys.</summary>
internal static class HelpScreen
{
    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, bool replay)
    {
        pane.Title(0, "Keys", "any key goes back");
        int half = pane.Width / 2;
        Rows left = new(pane.Part(0, 1, half - 1, pane.Height - 1), 6);
        foreach ((ScreenId id, string label, string question) in Keys.Screens)
            left.Line(((int)id).ToString(System.Globalization.CultureInfo.InvariantCulture), label + ": " + question);
        left.Title("On one screen only");
        KeyUse[] local = [.. Keys.All.Where(k => k.On is not null)];
        Rows right = new(pane.Part(half, 1, pane.Width - half, pane.Height - 1), 10);
        foreach (KeyUse use in Keys.All.Where(k => k.On is null && (replay || !k.ReplayOnly))) right.Line(use.Cap, use.Does);
        Rows own = new(left.Rest(), 12);
        foreach (KeyUse use in local) own.Line($"{(int)use.On!} {use.Cap}", use.Does);
        if (right.Left < 4) return;
        right.Title("Signs");
        right.Line("~ ?", "expected by the model, not heard");
        right.Line("areas", "solid: half of all flights, dotted: 95 of 100");
    }
}
