using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Core;
using Groundstation.Core.Callouts;

namespace Groundstation.Console.Screens;

/// <summary>What do I say? The callout to read aloud, its read-back, and the earlier ones.</summary>
internal static class SayScreen
{
    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, View view)
    {
        pane.Title(0, "What do I say?", s.Callouts.Length == 0 ? "" : string.Create(CultureInfo.InvariantCulture,
            $"{s.Callouts.Length} so far"));
        if (s.Callouts.Length == 0)
        {
            pane.Text(1, 2, "Nothing yet: the first callout comes with the launch.");
            pane.Text(1, 4, "The driver drives; a passenger takes callouts.", Ink.Quiet);
            return;
        }

        int at = Math.Max(0, s.Callouts.Length - 1 - view.Back);
        Callout c = s.Callouts[at];
        pane.Text(1, 2, string.Create(CultureInfo.InvariantCulture,
            $"Number {c.Number}, {Figures.Clock(c.Utc)}, {c.Occasion}, {Figures.Span(s.Utc.SecondsSince(c.Utc))} ago"));
        (string words, Ink ink) = c.ReadBack switch
        {
            "correct" => ("read back correctly", Ink.Good),
            "wrong" => ("READ BACK WRONG: say it again", Ink.Caution),
            _ => ("read-back: y right, x wrong", Ink.Advisory),
        };
        pane.Right(2, words, ink);
        // The callout is never cut for the sake of the list. Figures first, to be checked against; the words behind them
        // are what is read aloud: where a small terminal has no room for both, they alone.
        Pane room = pane.Part(4, 4, Math.Min(pane.Width - 8, 90), pane.Height - 4);
        bool both = c.Spoken.Length == 0 || room.Rows(0, c.Text) + 1 + room.Rows(0, c.Spoken) <= room.Height;
        int y = both ? room.Wrap(0, 0, c.Text, Ink.Strong) + 1 : 0;
        if (c.Spoken.Length > 0) y += room.Wrap(0, y, c.Spoken, both ? Ink.Plain : Ink.Strong) + 1;
        Pane rest = pane.Below(4 + Math.Min(y, room.Height));
        if (rest.Height < 2) return;
        rest.Title(0, "Callouts", "newest first");
        for (int i = 0; i < rest.Height - 1 && i < s.Callouts.Length; i++)
        {
            Callout row = s.Callouts[^(i + 1)];
            rest.Put(0, i + 1, row.Number == c.Number ? '→' : ' ', Ink.Strong);
            rest.Part(1, i + 1, 4, 1).Right(0, row.Number.ToString(CultureInfo.InvariantCulture));
            rest.Text(6, i + 1, Figures.Clock(row.Utc), Ink.Quiet);
            rest.Text(16, i + 1, row.ReadBack.Length > 0 ? row.ReadBack : "open",
                row.ReadBack == "wrong" ? Ink.Caution : row.ReadBack.Length == 0 ? Ink.Advisory : Ink.Good);
            rest.Text(25, i + 1, row.Text);
        }
    }
}
