using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;

namespace Groundstation.Console.Screens;

/// <summary>
/// How a replay stands, for the top of every screen. No share of the whole: whoever sees that two thirds are over knows
/// that the burst is near.
/// </summary>
internal static class DeskWords
{
    /// <summary>The words and their ink.</summary>
    public static (string, Ink) Of(FeedStatus status)
    {
        if (status.Said.Length > 0) return (status.Said, Ink.Advisory);
        string loop = status.Loop.Length > 0 ? ", " + status.Loop : "";
        return status.Ended ? ("replay ended" + loop, Ink.Advisory)
            : status.Paused ? ("replay HELD" + (status.Rate == "1×" ? "" : ", " + status.Rate) + loop, Ink.Advisory)
            : ("replay " + status.Rate + loop, Ink.Quiet);
    }
}
