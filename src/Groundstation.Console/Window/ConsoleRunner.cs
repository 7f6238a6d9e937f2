using System.Runtime.InteropServices;
using Groundstation.Console.Feeds;
using Terminal.Gui.App;
using Terminal.Gui.Drivers;

namespace Groundstation.Console.Window;

/// <summary>Runs the window on the terminal until the operator quits or a signal comes.</summary>
internal static class ConsoleRunner
{
    /// <summary>Longest time between two looks at the keys: a key shows within this and the library's own 20 ms.</summary>
    private static readonly TimeSpan KeyLook = TimeSpan.FromMilliseconds(25);

    /// <summary>
    /// Why there can be no screen; null when there can. TERM=dumb and redirected output cannot show one, and without a
    /// terminal the library would wait for ever.
    /// </summary>
    public static string? Obstacle()
    {
        if (System.Console.IsOutputRedirected) return "standard output is no terminal";
        if (Environment.GetEnvironmentVariable("TERM") is null or "" or "dumb" && !OperatingSystem.IsWindows())
            return "the terminal cannot place text (TERM is dumb or not set)";
        return null;
    }

    /// <summary>True when the screen should keep to ASCII because the locale says the terminal is not UTF-8.</summary>
    public static bool WantsAscii(Func<string, string?> variable)
    {
        string locale = First(variable("LC_ALL"), variable("LC_CTYPE"), variable("LANG"));
        return locale is "C" or "POSIX";

        static string First(params string?[] values) => values.FirstOrDefault(v => !string.IsNullOrEmpty(v)) ?? "";
    }

    /// <summary>
    /// Shows the console until the operator quits, a signal comes or <paramref name="broken"/> says that the session is
    /// over by force; returns the signal, if one ended it.
    /// </summary>
    public static PosixSignal? Run(ISnapshotFeed feed, bool ascii, Func<bool> broken)
    {
        Palette palette = new(Palette.FromEnvironment(Environment.GetEnvironmentVariable,
            OperatingSystem.IsWindows()));
        using TerminalGuard guard = new();
        // Asked of the system, not of the terminal: not every terminal answers, and it costs nothing on a slow line.
        Driver.SizeDetection = SizeDetectionMode.Polling;
        // Between its rounds the library only sleeps; here the wait is for news, so that it is on the screen at once.
        Application.MaximumIterationsPerSecond = 1000;
        IApplication app = Application.Create();
        guard.Attach(app);
        app.Init(DriverRegistry.Names.ANSI);
        Nudge news = new();
        feed.Changed = news.Give;
        using (ConsoleWindow window = new(feed, palette, ascii, broken, guard.Ring))
        {
            app.Iteration += (_, _) =>
            {
                news.Await(KeyLook);
                window.Look();
            };
            app.Run(window);
        }

        feed.Changed = null;
        guard.Close();
        return guard.Ended;
    }
}
