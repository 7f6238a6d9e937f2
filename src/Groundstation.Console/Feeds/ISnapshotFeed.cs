using Groundstation.Core;

namespace Groundstation.Console.Feeds;

/// <summary>
/// How the session stands that makes the snapshots: live or replay, and what becomes of the recording.
/// </summary>
internal sealed record FeedStatus
{
    /// <summary>True for a replay: it can be paused and its rate changed.</summary>
    public bool IsReplay { get; init; }

    /// <summary>True when another station's flight is followed: this console looks on, and takes no acts.</summary>
    public bool Following { get; init; }

    /// <summary>Replay held.</summary>
    public bool Paused { get; init; }

    /// <summary>Replay's rate in words: <c>10×</c>, <c>as fast as it goes</c>; empty when live.</summary>
    public string Rate { get; init; } = "";

    /// <summary>The loop of a replay, in words; empty when there is none.</summary>
    public string Loop { get; init; } = "";

    /// <summary>A replay's debrief, a line each; empty when none was asked for.</summary>
    public IReadOnlyList<string> Debrief { get; init; } = [];

    /// <summary>What became of the newest jump of a replay; empty when there is nothing to say.</summary>
    public string Said { get; init; } = "";

    /// <summary>The recording, or all sources, came to their end.</summary>
    public bool Ended { get; init; }

    /// <summary>Where the flight is recorded, as the user would type it; empty when nothing is recorded.</summary>
    public string Recording { get; init; } = "";

    /// <summary>Lines recorded so far.</summary>
    public long Lines { get; init; }

    /// <summary>Why nothing more is recorded (a full disk); empty when all is well.</summary>
    public string Fault { get; init; } = "";

    /// <summary>The sources, as the user typed them.</summary>
    public IReadOnlyList<string> Sources { get; init; } = [];
}

/// <summary>
/// What the console needs of a session. All members may be called from any thread and return at once.
/// </summary>
internal interface ISnapshotFeed
{
    /// <summary>
    /// Told that there is something new, on any thread and at once, so that the screen need not wait for its next look.
    /// </summary>
    Action? Changed { set; }

    /// <summary>The newest snapshot; null before the first.</summary>
    Snapshot? Newest { get; }

    /// <summary>How the session stands.</summary>
    FeedStatus Status { get; }

    /// <summary>Hands over what the operator did; it shows in a later snapshot.</summary>
    void Post(OperatorAct act);

    /// <summary>Holds a replay, or lets it go on; live nothing happens.</summary>
    void TogglePause();

    /// <summary>Next faster (+1) or slower (−1) replay rate; live nothing happens.</summary>
    void ChangeRate(int step);

    /// <summary>Holds a replay and goes one second on (+1) or back (−1); live nothing happens.</summary>
    void StepSecond(int step)
    {
    }

    /// <summary>Holds a replay and goes on to the next fix; live nothing happens.</summary>
    void StepFix()
    {
    }

    /// <summary>Marks the begin of a replay's loop, then its end, then ends it; live nothing happens.</summary>
    void MarkLoop()
    {
    }

    /// <summary>The screen with the alarms was opened or left: a debrief tells when each alarm was looked at.</summary>
    void AlarmsInSight(bool inSight)
    {
    }

    /// <summary>Makes a replay's debrief anew; live nothing happens.</summary>
    void MakeDebrief()
    {
    }

    /// <summary>Goes to another moment of a replay; false when it is not understood. Live nothing happens.</summary>
    bool GoTo(string typed) => false;
}
