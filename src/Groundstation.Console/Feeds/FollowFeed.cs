using Groundstation.Core;
using Groundstation.Io.Sharing;

namespace Groundstation.Console.Feeds;

/// <summary>
/// A followed flight as the console sees it. Acts are the sharing station's: its recording is the flight, and an act that
/// only this console knew would make two flights of one.
/// </summary>
/// <param name="session">The session.</param>
/// <param name="folder">Its flight folder.</param>
/// <param name="source">What is followed, as the user typed it.</param>
internal sealed class FollowFeed(FollowSession session, string folder, string source) : ISnapshotFeed
{
    private readonly string[] _sources = [source];

    /// <inheritdoc/>
    public Action? Changed
    {
        // What is followed has a tenth of a second and more behind it already: the screen's own look is soon enough.
        set { }
    }

    /// <inheritdoc/>
    public Snapshot? Newest => session.Newest;

    /// <inheritdoc/>
    public FeedStatus Status =>
        new() { Following = true, Recording = folder, Lines = session.Recorded, Fault = session.Fault, Sources = _sources };

    /// <inheritdoc/>
    public void Post(OperatorAct act)
    {
    }

    /// <inheritdoc/>
    public void TogglePause()
    {
    }

    /// <inheritdoc/>
    public void ChangeRate(int step)
    {
    }
}
