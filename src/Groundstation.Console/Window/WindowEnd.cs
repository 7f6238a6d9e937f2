using System.Runtime.InteropServices;

namespace Groundstation.Console.Window;

/// <summary>
/// Windows ends a program as soon as its answer to a closed window, a log-off or a shutdown returns, and after 5 s anyway.
/// What a session still has to write, rows of a replay in blocks of 64 KiB above all, is written meanwhile.
/// </summary>
internal static class WindowEnd
{
    private static readonly TimeSpan _given = TimeSpan.FromSeconds(5);

    /// <summary>Holds such an answer back until the program has ended by itself; anything else returns at once.</summary>
    public static void Await(PosixSignal signal)
    {
        if (OperatingSystem.IsWindows() && signal is PosixSignal.SIGHUP or PosixSignal.SIGTERM) Thread.Sleep(_given);
    }
}
