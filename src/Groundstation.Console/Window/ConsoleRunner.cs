using System.Runtime.InteropServices;
using Groundstation.Console.Feeds;
using Terminal.Gui.App;
using Terminal.Gui.Configuration;
using Terminal.Gui.Drawing;
using Terminal.Gui.Drivers;
using Attribute = Terminal.Gui.Drawing.Attribute;

namespace Groundstation.Console.Window;

/// <summary>Runs the window on the terminal until the operator quits or a signal comes.</summary>
internal static class ConsoleRunner
{
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
        Palette palette = new(Palette.FromEnvironment(Environment.GetEnvironmentVariable));
        using TerminalGuard guard = new();
        Driver.Force16Colors = palette.Colours != Colours.True;
        // A snapshot waits for a look at it (50 ms) and the next round: a byte is on the screen within 200 ms.
        Application.MaximumIterationsPerSecond = 20;
        IApplication app = Application.Create();
        guard.Attach(app);
        app.Init(DriverRegistry.Names.ANSI);
        foreach (string name in SchemeManager.GetSchemeNames().ToArray())
        {
            Attribute plain = palette.Of(Cells.Ink.Plain);
            SchemeManager.AddScheme(name, new Scheme { Normal = plain, Focus = plain });
        }

        using (ConsoleWindow window = new(feed, palette, ascii, broken, guard.Ring)) app.Run(window);
        guard.Close();
        return guard.Ended;
    }
}
