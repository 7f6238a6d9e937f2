using Groundstation.Console.Cells;

namespace Groundstation.Console.Screens;

/// <summary>The keys of a replay, and where it can go.</summary>
internal static class ReplayHelp
{
    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane)
    {
        pane.Title(0, "Keys of the replay", "any key goes back");
        Rows rows = new(pane.Below(1), 14);
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
