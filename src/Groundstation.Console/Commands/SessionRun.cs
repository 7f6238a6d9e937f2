using System.Runtime.ExceptionServices;
using System.Runtime.InteropServices;
using Groundstation.Console.Feeds;
using Groundstation.Console.Window;

namespace Groundstation.Console.Commands;

/// <summary>Runs a session with the console over it, or without a screen.</summary>
internal static class SessionRun
{
    /// <summary>The screen's snapshots come ten times a second.</summary>
    public static readonly TimeSpan SnapshotEvery = TimeSpan.FromMilliseconds(100);

    /// <summary>True when there will be a screen; when there cannot be one, says why on standard error.</summary>
    public static bool HasScreen(bool headless, TextWriter error)
    {
        if (headless) return false;
        if (ConsoleRunner.Obstacle() is not { } why) return true;
        error.WriteLine($"groundstation: {why}; running without a screen, as with --headless");
        return false;
    }

    /// <summary>Shows the console until the operator quits, a signal comes or the session breaks.</summary>
    /// <param name="feed">What the console shows.</param>
    /// <param name="work">The session's work.</param>
    /// <param name="ascii">Plots in ASCII.</param>
    public static void OnScreen(ISnapshotFeed feed, Action<CancellationToken> work, bool ascii)
    {
        using SessionThread session = new(work);
        ConsoleRunner.Run(feed, ascii, () => session.Broken is not null);
        session.Stop();
        session.Wait();
        Rethrow(session);
    }

    /// <summary>Does the work without a screen; SIGINT, SIGTERM, SIGHUP and SIGQUIT end it in good order.</summary>
    public static void Headless(Action<CancellationToken> work)
    {
        using SessionThread session = new(work);
        void On(PosixSignalContext context)
        {
            context.Cancel = true;
            session.Stop();
            WindowEnd.Await(context.Signal);
        }

        using PosixSignalRegistration interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, On);
        using PosixSignalRegistration terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, On);
        using PosixSignalRegistration hangUp = PosixSignalRegistration.Create(PosixSignal.SIGHUP, On);
        using PosixSignalRegistration quit = PosixSignalRegistration.Create(PosixSignal.SIGQUIT, On);
        session.Wait();
        Rethrow(session);
    }

    private static void Rethrow(SessionThread session)
    {
        if (session.Broken is { } broken) ExceptionDispatchInfo.Throw(broken);
    }
}
