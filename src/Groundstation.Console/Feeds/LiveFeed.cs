using Groundstation.Core;
using Groundstation.Io.Sessions;

namespace Groundstation.Console.Feeds;

/// <summary>A live session as the console sees it.</summary>
/// <param name="session">The session.</param>
/// <param name="folder">Its flight folder.</param>
/// <param name="sources">The sources as the user typed them, with their names.</param>
internal sealed class LiveFeed(LiveSession session, string folder, IReadOnlyList<string> sources) : ISnapshotFeed
{
    /// <inheritdoc/>
    public Action? Changed { set => session.Published = value; }

    /// <inheritdoc/>
    public Snapshot? Newest => session.Newest;

    /// <inheritdoc/>
    public FeedStatus Status => new()
    {
        Recording = folder,
        Lines = session.Recorded,
        Fault = session.Fault,
        Ended = session.SourcesEnded,
        Sources = sources,
    };

    /// <inheritdoc/>
    public void Post(OperatorAct act)
    {
        try
        {
            session.Act(act);
        }
        catch (OperationCanceledException)
        {
            // The session is ending: there is no event to add any more.
        }
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
