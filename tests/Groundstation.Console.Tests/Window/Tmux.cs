using System.Diagnostics;
using System.Globalization;
using Xunit;

namespace Groundstation.Console.Tests.Window;

/// <summary>A real terminal: tmux with a server of its own and one window.</summary>
internal sealed class Tmux : IDisposable
{
    private readonly string _server = string.Create(CultureInfo.InvariantCulture,
        $"groundstation-test-{Environment.ProcessId}-{Guid.NewGuid():N}");

    private Tmux()
    {
    }

    /// <summary>Opens a window that runs a shell's command line; skips the test where there is no tmux.</summary>
    public static Tmux Open(int width, int height, string commandLine)
    {
        try
        {
            Run("tmux", "-V");
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Assert.Skip("needs tmux");
        }

        Tmux tmux = new();
        tmux.Do("-f", "/dev/null", "new-session", "-d", "-s", "t", "-x", Number(width), "-y", Number(height),
            "-c", Path.GetTempPath(), "env", "-u", "TMUX", "LC_ALL=C.UTF-8", "TERM=screen-256color",
            "sh", "-c", commandLine);
        return tmux;
    }

    /// <summary>What the terminal shows.</summary>
    public string Screen => Do("capture-pane", "-t", "t", "-p");

    /// <summary>A key.</summary>
    public void Press(string key) => Do("send-keys", "-t", "t", key);

    /// <summary>A new size.</summary>
    public void Resize(int width, int height) => Do("resize-window", "-t", "t", "-x", Number(width), "-y",
        Number(height));

    /// <summary>A terminal's mode, e.g. <c>alternate_on</c>.</summary>
    public string Mode(string name) => Do("display-message", "-p", "-t", "t", "#{" + name + "}").Trim();

    /// <summary>Waits until the screen shows what is asked for; fails with the screen when it never does.</summary>
    public string Until(Func<string, bool> good, string what)
    {
        string screen = "";
        for (int i = 0; i < 150; i++)
        {
            screen = Screen;
            if (good(screen)) return screen;
            Thread.Sleep(100);
        }

        Assert.Fail($"never {what}:\n{screen}");
        return screen;
    }

    public void Dispose() => Do("kill-server");

    private string Do(params string[] args) => Run("tmux", ["-L", _server, .. args]);

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Run(string program, params string[] args)
    {
        ProcessStartInfo start = new(program) { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (string arg in args) start.ArgumentList.Add(arg);
        start.Environment.Remove("TMUX");
        using Process process = Process.Start(start)!;
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return output;
    }
}
