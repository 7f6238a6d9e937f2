using System.Globalization;
using Groundstation.Console.Cells;

namespace Groundstation.Console.Screens;

/// <summary>All keys, the mouse, and the signs that need a word: a page for everywhere, one for screens, one for replays.</summary>
internal static class HelpScreen
{
    /// <summary>Pages there are.</summary>
    public static int Pages(bool replay) => replay ? 3 : 2;

    /// <summary>Paints a page.</summary>
    /// <param name="pane">Where.</param>
    /// <param name="page">Its number from 1.</param>
    /// <param name="replay">True for a replay.</param>
    public static void Draw(Pane pane, int page, bool replay)
    {
        (string title, string next) = page switch
        {
            1 => ("Keys everywhere", "? keys of one screen"),
            2 => ("Keys of one screen", replay ? "? the replay's keys" : ""),
            _ => ("Keys of the replay", ""),
        };
        string number = string.Create(CultureInfo.InvariantCulture, $"{page} of {Pages(replay)}");
        pane.Title(0, $"{title}, {number}", (next.Length > 0 ? next + ", any other key" : "any key") + " goes back");
        Pane body = pane.Below(1);
        switch (page)
        {
            case 1: Everywhere(body); break;
            case 2: OnScreens(body); break;
            default: OnReplay(body); break;
        }
    }

    private static void Everywhere(Pane pane)
    {
        int half = Math.Min(pane.Width / 2, 60);
        Rows left = new(pane.Part(0, 0, half - 1, pane.Height), 5);
        foreach ((_, string key, _, string question) in Keys.Screens) left.Line(key, question);
        left.Gap();
        left.Text("The mouse, where the terminal has one", Ink.Strong);
        left.Text("click   a key or a screen below");
        left.Text("wheel   zoom on screen 2, else scroll");
        left.Text("drag    move the view on screen 2");
        left.Text("Shift with it marks text, as ever.", Ink.Quiet);
        Rows right = new(pane.Part(half, 0, pane.Width - half, pane.Height), 9);
        foreach (KeyUse use in Keys.All.Where(k => k.On is null && !k.ReplayOnly)) right.Line(use.Cap, use.Does);
        right.Line("Ctrl+L", "draw the screen anew");
        right.Gap();
        right.Text("Signs", Ink.Strong);
        right.Line("~  ?", "expected, not heard");
        right.Line("!", "behind a screen: it waits for you");
        right.Line("areas", "inner: half, outer: 95 of 100");
        right.Line("±", "95 of 100 keep within it");
    }

    private static void OnScreens(Pane pane)
    {
        Rows rows = new(pane, 20);
        foreach (var same in Keys.All.Where(k => k.On is not null).GroupBy(k => (k.Cap, k.Does)))
        {
            string screens = string.Join(' ', same.Select(k => Keys.Of(k.On!.Value)));
            rows.Line($"{screens,-6} {same.Key.Cap}", same.Key.Does);
        }

        rows.Line($"{"4",-6} up down", "scroll the search sheet");
    }

    private static void OnReplay(Pane pane)
    {
        Rows rows = new(pane, 14);
        foreach (KeyUse use in Keys.All.Where(k => k.ReplayOnly)) rows.Line(use.Cap, use.Does);
        rows.Gap();
        rows.Text("Go to", Ink.Strong);
        rows.Line("T+1:10:00", "time since launch; T-0:30 before it");
        rows.Line("10:58:18", "time of day, UTC");
        rows.Line("-30  +2:00", "seconds, or minutes and seconds, back or on");
        rows.Line("start", "the beginning");
        rows.Line("launch", "burst, silence, landed: shortly before the station tells of it");
        rows.Line("alarm", "shortly before the next alarm, whichever it is");
    }
}
