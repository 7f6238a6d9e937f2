using Groundstation.Console.Cells;
using Groundstation.Core;
using Groundstation.Core.Alarms;

namespace Groundstation.Console.Screens;

/// <summary>The last two lines: the keys of this screen and of all screens, and the screens themselves.</summary>
internal static class Footer
{
    /// <summary>Rows it takes.</summary>
    public const int Height = 2;

    /// <summary>Paints it; a prompt takes the first line's place.</summary>
    public static void Draw(Pane pane, Snapshot? s, View view, bool replay)
    {
        if (view.Prompt is { } prompt) Ask(pane, prompt);
        else KeyLine(pane, view, replay);
        ScreenLine(pane, s, view);
    }

    /// <summary>The key that stands at a cell of the footer; null between them, and on a question's line.</summary>
    public static string? KeyAt(int x, int row, int width, View view, bool replay)
    {
        int from = 0;
        if (row == 0)
        {
            foreach (KeyUse use in view.Prompt is null ? Fitting(width, view, replay) : [])
            {
                if (x >= from && x < from + Length(use) - 2) return use.Keys[0];
                from += Length(use);
            }

            return null;
        }

        foreach ((_, string key, string label, _) in Keys.Screens)
        {
            int to = from + 2 + label.Length;
            if (x >= from && x < to) return key;
            from = to + Gap(width);
        }

        return null;
    }

    /// <summary>Columns of a key with its label and the blanks behind it.</summary>
    private static int Length(KeyUse use) => use.Cap.Length + use.Label.Length + 3;

    private static int Gap(int width) => width >= 110 ? 3 : 1;

    private static List<KeyUse> Fitting(int width, View view, bool replay)
    {
        List<KeyUse> uses = [.. Keys.On(view.Screen, replay && view.Screen != ScreenId.Ready)];
        // Where there is no room for all, the rarest go first; the help lists them and is itself always shown.
        string[] rare = ["g", "c", "b", "l", "d", "r", "e", "[ ]", "Home", "m", "<", "n", "u", "f", "t", "up down", "arrows"];
        int next = 0;
        while (uses.Sum(Length) > width + 2 && next < rare.Length)
        {
            string cap = rare[next++];
            uses.RemoveAll(u => u.Cap == cap);
            if (cap == "<") uses.RemoveAll(u => u.Cap == ">");
        }

        return uses;
    }

    private static void KeyLine(Pane pane, View view, bool replay)
    {
        int x = 0;
        foreach (KeyUse use in Fitting(pane.Width, view, replay))
        {
            x = pane.Text(x, 0, use.Cap, Ink.Strong);
            x = pane.Text(x + 1, 0, use.Label, Ink.Quiet) + 2;
        }
    }

    private static void ScreenLine(Pane pane, Snapshot? s, View view)
    {
        int x = 0;
        foreach ((ScreenId id, string key, string label, _) in Keys.Screens)
        {
            if (id == view.Screen)
            {
                x = pane.Text(x, 1, key + " " + label, Ink.Chosen);
            }
            else
            {
                x = pane.Text(x, 1, key, Ink.Strong);
                Ink calls = Calls(id, s);
                x = pane.Text(x + 1, 1, label, calls);
                // For those who see no colour.
                if (calls != Ink.Quiet) pane.Put(x, 1, '!', calls);
            }

            x += Gap(pane.Width);
        }
    }

    /// <summary>A screen that waits for the operator: an alarm not acknowledged, a callout not read back.</summary>
    private static Ink Calls(ScreenId id, Snapshot? s) => id switch
    {
        ScreenId.Wrong when s?.Alarms.FirstOrDefault(a => a.Phase == AlarmPhase.Unacknowledged) is { } alarm =>
            Standing.InkOf(alarm.Severity),
        ScreenId.Say when s?.Callouts is { Length: > 0 } callouts && callouts[^1].ReadBack != "correct" => Ink.Advisory,
        _ => Ink.Quiet,
    };

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
