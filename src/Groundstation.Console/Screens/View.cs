using System.Collections.Immutable;
using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Console.Screens;

/// <summary>The screens, named for the question each answers; the number is its key.</summary>
internal enum ScreenId
{
    /// <summary>Everything at a glance.</summary>
    Flight = 1,

    /// <summary>Where is it?</summary>
    Where,

    /// <summary>How high?</summary>
    High,

    /// <summary>Where will it land?</summary>
    Land,

    /// <summary>What is the wind?</summary>
    Wind,

    /// <summary>Can I believe it?</summary>
    Believe,

    /// <summary>What is wrong?</summary>
    Wrong,

    /// <summary>What do I say?</summary>
    Say,

    /// <summary>What happened?</summary>
    Happened,

    /// <summary>How does the chase stand?</summary>
    Chase,

    /// <summary>Ready to launch? Its key is <c>L</c>: the digits are those of the flight.</summary>
    Ready,
}

/// <summary>What the plan view keeps in sight.</summary>
internal enum Follow
{
    /// <summary>Everything: launch, track, path and areas.</summary>
    Everything,

    /// <summary>The balloon.</summary>
    Balloon,

    /// <summary>The landing estimate.</summary>
    Landing,
}

/// <summary>A question or a line of text that waits for the operator.</summary>
/// <param name="Verb">The act that follows: the verb of an operator's act, <c>quit</c> or <c>filter</c>.</param>
/// <param name="Question">What is asked.</param>
/// <param name="Hint">What the answer looks like.</param>
/// <param name="WantsText">True for a line of text, false for yes or no, where anything but y is no.</param>
internal sealed record Prompt(string Verb, string Question, string Hint, bool WantsText)
{
    /// <summary>What has been typed.</summary>
    public string Typed { get; init; } = "";

    /// <summary>Why the answer was not taken; empty at first.</summary>
    public string Complaint { get; init; } = "";
}

/// <summary>How the operator looks at the flight: nothing here changes the flight itself. Immutable.</summary>
internal sealed record View
{
    /// <summary>The screen shown.</summary>
    public ScreenId Screen { get; init; } = ScreenId.Flight;

    /// <summary>Page of the help that covers the screen, from 1; 0: none.</summary>
    public int HelpPage { get; init; }

    /// <summary>True while the debrief covers the screen; <see cref="Back"/> is its first line.</summary>
    public bool Debrief { get; init; }

    /// <summary>What waits for an answer.</summary>
    public Prompt? Prompt { get; init; }

    /// <summary>
    /// Units chosen on this keyboard, and what the flight's were then; null: none chosen. The choice is an act, too, so it
    /// stands here only until that comes back, or another one: a replay's recorded choice must not stay hidden.
    /// </summary>
    public (DisplayUnits Chosen, DisplayUnits? Over)? Units { get; init; }

    /// <summary>Units to show a snapshot in.</summary>
    public DisplayUnits UnitsOver(Snapshot? s) => Units is { } own && own.Over == s?.Units ? own.Chosen : Shown.Units(s);

    /// <summary>Plan view: steps in (positive) or out from the scale that shows everything.</summary>
    public int Zoom { get; init; }

    /// <summary>Plan view: what it is centred on.</summary>
    public Follow Follow { get; init; }

    /// <summary>Plan view: shift to the east, in eighths of the view.</summary>
    public int PanEast { get; init; }

    /// <summary>Plan view: shift to the north, in eighths of the view.</summary>
    public int PanNorth { get; init; }

    /// <summary>Landing: the search sheet in the place of the estimate.</summary>
    public bool Sheet { get; init; }

    /// <summary>Plan view: true to show the earlier landing estimates too.</summary>
    public bool Earlier { get; init; }

    /// <summary>Lists: rows back from the newest, or down from the top.</summary>
    public int Back { get; init; }

    /// <summary>
    /// Alarms: the chosen one's name, so that a new alarm above it does not put another one under the hand; empty: the
    /// worst.
    /// </summary>
    public string ChosenAlarm { get; init; } = "";

    /// <summary>Launch checklist: the chosen row.</summary>
    public int Chosen { get; init; }

    /// <summary>True while the bell is muted.</summary>
    public bool Muted { get; init; }

    /// <summary>The chosen alarm's place in a list; 0, the worst, when there is no such one any more.</summary>
    public int ChosenIn(ImmutableArray<AlarmState> alarms)
    {
        for (int i = 0; i < alarms.Length; i++)
            if (alarms[i].Id == ChosenAlarm) return i;
        return 0;
    }

    /// <summary>Launch checklist: the plan's fill covers it.</summary>
    public bool FillSheet { get; init; }

    /// <summary>Events: only lines that hold this text.</summary>
    public string Filter { get; init; } = "";
}
