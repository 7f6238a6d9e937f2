using Groundstation.Console.Cells;

namespace Groundstation.Console.Screens;

/// <summary>The last two lines: the keys of this screen and of all screens, and the screens themselves.</summary>
internal static class Footer
{
    /// <summary>Rows it takes.</summary>
    public const int Height = 2;

    /// <summary>Paints it; a prompt takes the first line's place.</summary>
    public static void Draw(Pane pane, View view, bool replay)
    {
        if (view.Prompt is { } prompt) Ask(pane, prompt);
        else KeyLine(pane, view, replay);
        ScreenLine(pane, view);
    }

    private static void KeyLine(Pane pane, View view, bool replay)
    {
        List<KeyUse> uses = [.. Keys.On(view.Screen, replay && view.Screen != ScreenId.Ready)];
        // Where there is no room for all, the rarest go first; the help lists them and is itself always shown.
        string[] rare = ["g", "c", "b", "l", "d", "r", "e", "[ ]", "Home", "m", "<", "n", "u", "f", "t"];
        int next = 0;
        while (uses.Sum(Length) > pane.Width + 1 && next < rare.Length)
        {
            string cap = rare[next++];
            uses.RemoveAll(u => u.Cap == cap);
            if (cap == "<") uses.RemoveAll(u => u.Cap == ">");
        }

        int x = 0;
        foreach (KeyUse use in uses)
        {
            x = pane.Text(x, 0, use.Cap, Ink.Strong);
            x = pane.Text(x + 1, 0, use.Label, Ink.Quiet) + 2;
        }

        static int Length(KeyUse use) => use.Cap.Length + use.Label.Length + 3;
    }

    private static void ScreenLine(Pane pane, View view)
    {
        bool wide = pane.Width >= 110;
        int x = 0;
        foreach ((ScreenId id, string label, _) in Keys.Screens)
        {
            string key = Keys.Of(id);
            if (id == view.Screen)
            {
                x = pane.Text(x, 1, key + " " + label, Ink.Chosen);
            }
            else
            {
                x = pane.Text(x, 1, key, Ink.Strong);
                x = pane.Text(x + 1, 1, label, Ink.Quiet);
            }

            x += wide ? 3 : 1;
        }
    }

    private static void Ask(Pane pane, Prompt prompt)
    {
        int x = pane.Text(0, 0, prompt.Question, Ink.Chosen) + 1;
        if (prompt.WantsText)
        {
            // The end of a long text stays in sight.
            int room = Math.Max(4, pane.Width - x - 2);
            string typed = prompt.Typed.Length > room ? prompt.Typed[^room..] : prompt.Typed;
            x = pane.Text(x, 0, typed, Ink.Strong);
            pane.Put(x++, 0, '█', Ink.Plain);
        }

        string hint = prompt.Complaint.Length > 0 ? prompt.Complaint : prompt.Hint;
        if (x + 1 + hint.Length <= pane.Width)
            pane.Text(x + 1, 0, hint, prompt.Complaint.Length > 0 ? Ink.Caution : Ink.Quiet);
    }
}
