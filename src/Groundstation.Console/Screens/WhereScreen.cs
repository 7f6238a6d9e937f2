using Groundstation.Console.Cells;
using Groundstation.Console.Plots;
using Groundstation.Console.Screens.Panels;
using Groundstation.Core;

namespace Groundstation.Console.Screens;

/// <summary>Where is it? The plan view as large as it can be.</summary>
internal static class WhereScreen
{
    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, View view, Figures fig)
    {
        string follow = view.Follow switch
        {
            Follow.Balloon => "centred on the balloon",
            Follow.Landing => "centred on the landing estimate",
            _ => "everything",
        };
        pane.Title(0, "Where is it?", view.PanEast != 0 || view.PanNorth != 0 ? follow + ", moved" : follow);
        bool side = pane.Width >= 110;
        int width = side ? pane.Width - 46 : pane.Width;
        int legend = side ? 0 : 2;
        PlanPlot.Draw(pane.Part(0, 1, width, pane.Height - 1 - legend), s, view, fig, true);
        if (side)
        {
            Pane right = pane.Part(width + 1, 1, 45, pane.Height - 1);
            int y = PositionPanel.Draw(right, s, fig, true) + 1;
            y += LandingPanel.Draw(right.Below(y), s, fig, true) + 1;
            Legend(right.Below(y), s, 1);
            return;
        }

        Pane low = pane.Below(pane.Height - legend);
        string place = Shown.Place(s) is { } at ? Figures.Place(at) : "no place yet";
        string land = s.Landing is { } l ? Shown.LandingWord(s) + " " + Figures.Place(l.Position) : "no landing estimate yet";
        low.Text(0, 0, (Shown.Silent(s) ? "expected " : "balloon ") + place + "   " + land);
        Legend(low.Below(1), s, 6);
    }

    private static void Legend(Pane pane, Snapshot s, int across)
    {
        (char Sign, string Words, Ink Ink)[] signs = pane.Canvas.Ascii
            ? [('*', "track", Ink.Track), ('+', "path", Ink.Path), ('o', "half inside", Ink.Area50),
                ('.', "95 of 100", Ink.Area95), (',', "range", Ink.Ring), ('%', "your map", Ink.Map)]
            : [('⣿', "track", Ink.Track), ('⠒', "path expected", Ink.Path), ('⠛', "half inside", Ink.Area50),
                ('⠁', "95 of 100", Ink.Area95), ('⡀', "range", Ink.Ring),
                ('⠤', "your map", Ink.Map)];
        int x = 0, y = 0;
        foreach ((char sign, string words, Ink ink) in signs)
        {
            if (sign is '⠤' or '%' && s.Plan.Overlays is { Lines: [], KeepOuts: [], Points: [] }) continue;
            pane.Put(x, y, sign, ink);
            if (sign == '⠒') pane.Put(x + 1, y, ' ', ink);
            x = pane.Text(x + 2, y, words, Ink.Quiet) + 3;
            if (across > 1) continue;
            (x, y) = (0, y + 1);
        }
    }
}
