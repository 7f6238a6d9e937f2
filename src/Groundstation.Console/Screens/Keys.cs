namespace Groundstation.Console.Screens;

/// <summary>
/// One key of the console: the only place where it is named, used by the footer, the help and the dispatch.
/// </summary>
/// <param name="Keys">Names of the keys, as <c>KeyName</c> gives them; all do the same.</param>
/// <param name="Cap">How the key is written on screen.</param>
/// <param name="Label">One or two words for the footer.</param>
/// <param name="Does">A sentence for the help.</param>
/// <param name="On">The only screen on which it works; null: everywhere.</param>
/// <param name="ReplayOnly">True when it works in a replay only.</param>
/// <param name="Acts">True when it changes the flight, and not only how it is looked at.</param>
internal sealed record KeyUse(string[] Keys, string Cap, string Label, string Does, ScreenId? On = null,
    bool ReplayOnly = false, bool Acts = false);

/// <summary>All keys.</summary>
internal static class Keys
{
    /// <summary>Screens, each with its key: the digits are those of the flight.</summary>
    public static readonly (ScreenId Id, string Key, string Label, string Question)[] Screens =
    [
        (ScreenId.Flight, "1", "Flight", "Everything at a glance"),
        (ScreenId.Where, "2", "Where", "Where is it?"),
        (ScreenId.High, "3", "High", "How high is it?"),
        (ScreenId.Land, "4", "Land", "Where will it land?"),
        (ScreenId.Wind, "5", "Wind", "What is the wind?"),
        (ScreenId.Believe, "6", "Believe", "Can I believe it?"),
        (ScreenId.Wrong, "7", "Wrong", "What is wrong?"),
        (ScreenId.Say, "8", "Say", "What do I say?"),
        (ScreenId.Happened, "9", "Log", "What happened?"),
        (ScreenId.Chase, "0", "Chase", "How does the chase stand?"),
        (ScreenId.Ready, "L", "Go", "Ready to launch?"),
    ];

    /// <summary>A screen's key.</summary>
    public static string Of(ScreenId screen) => Screens.First(s => s.Id == screen).Key;

    /// <summary>The screen of a key; null: it is none's.</summary>
    public static ScreenId? ScreenOf(string key)
    {
        foreach ((ScreenId id, string of, _, _) in Screens)
            if (of == key) return id;
        return null;
    }

    /// <summary>All other keys, those of one screen first.</summary>
    public static readonly KeyUse[] All =
    [
        new(["+", "=", "-", "_"], "+ -", "zoom", "closer, farther off", ScreenId.Where),
        new(["Up", "Down", "Left", "Right"], "arrows", "move", "move the view", ScreenId.Where),
        new(["f"], "f", "follow", "what is kept in sight: all, the balloon, the landing", ScreenId.Where),
        new(["Home"], "Home", "fit", "show everything again", ScreenId.Where),
        new(["s"], "s", "sheet", "the search sheet; it is written to a file, too", ScreenId.Land),
        new(["Up", "Down"], "up down", "choose", "choose a row", ScreenId.Wrong),
        new(["s"], "s", "shelve", "shelve the chosen alarm for a time, or take it back", ScreenId.Wrong, Acts: true),
        new(["Up", "Down"], "up down", "choose", "choose a row", ScreenId.Say),
        new(["y", "x"], "y x", "read-back", "the car's read-back was correct, was wrong", ScreenId.Say, Acts: true),
        new(["f"], "f", "full", "make the callout in its full form, now", ScreenId.Say, Acts: true),
        new(["s"], "s", "speak", "read the chosen callout aloud (again)", ScreenId.Say, Acts: true),
        new(["Up", "Down", "PageUp", "PageDown", "Home", "End"], "up down", "scroll", "older, newer lines; PgUp PgDn Home End, too",
            ScreenId.Happened),
        new(["/"], "/", "filter", "show only lines that hold a text", ScreenId.Happened),
        new(["Up", "Down"], "up down", "choose", "choose a row", ScreenId.Ready),
        new(["Enter"], "Enter", "done", "confirm the chosen point, or take it back", ScreenId.Ready, Acts: true),
        new(["G", "X"], "G X", "decide", "decide, after asking: go, no-go", ScreenId.Ready, Acts: true),
        new(["p"], "p", "fill", "the plan's fill sheet alone on the screen", ScreenId.Ready),
        new([" "], "space", "hold", "hold the replay, go on", ReplayOnly: true),
        new(["<", ","], "<", "slower", "slower replay", ReplayOnly: true),
        new([">", "."], ">", "faster", "faster replay", ReplayOnly: true),
        new(["t"], "t", "go to", "go to a time or an event; what you did after it is taken back", ReplayOnly: true),
        new(["[", "]"], "[ ]", "second", "hold; one second back, on", ReplayOnly: true),
        new(["e"], "e", "fix", "hold; on to the next fix", ReplayOnly: true),
        new(["d"], "d", "debrief", "debrief: what there is to talk about", ReplayOnly: true),
        new(["r"], "r", "loop", "loop: mark its begin, its end, let it go", ReplayOnly: true),
        new(["a"], "a", "acknowledge", "acknowledge: worst, on 7 chosen", Acts: true),
        new(["n"], "n", "note", "note into the log", Acts: true),
        new(["l"], "l", "launched", "mark the launch", Acts: true),
        new(["b"], "b", "burst", "mark the burst", Acts: true),
        new(["c"], "c", "chase", "chase car's position", Acts: true),
        new(["g"], "g", "ground", "ground's height at landing", Acts: true),
        new(["m"], "m", "mute", "mute bell but for new warnings"),
        new(["u"], "u", "units", "units on screens, not said ones"),
        new(["?", "h"], "?", "keys", "these pages"),
        new(["q", "Ctrl+C"], "q", "quit", "stop, after asking"),
    ];

    /// <summary>The keys that work on a screen.</summary>
    public static IEnumerable<KeyUse> On(ScreenId screen, bool replay) =>
        All.Where(k => (k.On is null || k.On == screen) && (replay || !k.ReplayOnly));
}
