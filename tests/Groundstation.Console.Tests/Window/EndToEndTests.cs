using System.Diagnostics;
using Xunit;

namespace Groundstation.Console.Tests.Window;

/// <summary>The program itself in a real terminal.</summary>
public sealed class EndToEndTests
{
    private static readonly string Program = $"dotnet {Path.Combine(AppContext.BaseDirectory, "groundstation.dll")}";

    private static string Recording
    {
        get
        {
            DirectoryInfo? at = new(AppContext.BaseDirectory);
            while (at is not null && !File.Exists(Path.Combine(at.FullName, "groundstation.sln"))) at = at.Parent;
            return Path.Combine(at!.FullName, "recordings", "clean");
        }
    }

    private static Tmux Start(int width, int height, string rate)
    {
        Tmux tmux = Tmux.Open(width, height, $"before=$(stty -a); {Program} replay {Recording} --rate {rate}; "
            + "echo \"EXIT $?\"; [ \"$before\" = \"$(stty -a)\" ] && echo SAME; exec sleep 60");
        tmux.Until(s => s.Contains("9 Log", StringComparison.Ordinal), "the console");
        return tmux;
    }

    private static void TerminalIsBack(Tmux tmux)
    {
        tmux.Until(s => s.Contains("EXIT 0", StringComparison.Ordinal), "an end");
        tmux.Until(s => s.Contains("SAME", StringComparison.Ordinal), "the modes as before");
        Assert.Equal("0", tmux.Mode("alternate_on"));
        Assert.Equal("1", tmux.Mode("cursor_flag"));
        Assert.Equal("0", tmux.Mode("mouse_any_flag"));
    }

    [Fact]
    public void A_replay_is_shown_held_looked_at_resized_and_ended_and_the_terminal_is_back()
    {
        using Tmux tmux = Start(80, 24, "10");
        // Neither may stop it, or what comes next is never shown.
        tmux.Press("C-z");
        tmux.Press("C-l");
        tmux.Press("Space");
        tmux.Until(s => s.Contains("HELD", StringComparison.Ordinal), "held");
        tmux.Press("2");
        tmux.Until(s => s.Contains("Where is it?", StringComparison.Ordinal), "the plan view");
        tmux.Press("?");
        tmux.Until(s => s.Contains("Keys", StringComparison.Ordinal), "the keys");
        tmux.Press("1");
        tmux.Resize(120, 40);
        tmux.Until(s => s.Contains(" UTC ", StringComparison.Ordinal), "the wide standing line");
        tmux.Resize(60, 20);
        tmux.Until(s => s.Contains("needs 80×24, has 60×20", StringComparison.Ordinal), "what it needs");
        tmux.Resize(80, 24);
        tmux.Until(s => s.Contains("9 Log", StringComparison.Ordinal), "the small screen");
        tmux.Press("q");
        tmux.Until(s => s.Contains("Stop the station?", StringComparison.Ordinal), "the question");
        tmux.Press("y");
        tmux.Until(s => s.Contains("EXIT 0", StringComparison.Ordinal), "an end");
        Assert.Equal("0", tmux.Mode("alternate_on"));
        Assert.Contains("fixes:", tmux.Screen);
    }

    [Theory]
    [InlineData("TERM")]
    [InlineData("HUP")]
    [InlineData("INT")]
    [InlineData("QUIT")]
    public void A_signal_ends_it_in_good_order_and_the_terminal_is_back(string signal)
    {
        using Tmux tmux = Start(100, 40, "1");
        string shell = tmux.Mode("pane_pid");
        using Process kill = Process.Start("pkill",
            ["-" + signal, "-P", shell, "dotnet"]);
        kill.WaitForExit();
        TerminalIsBack(tmux);
    }

    [Fact]
    public void A_live_flight_from_standard_input_is_shown_and_recorded_and_keys_still_work()
    {
        string flight = Directory.CreateTempSubdirectory("groundstation-live-").FullName;
        try
        {
            string lines = $"sed -n '/s:radio1/s/^.s:[^$]*//p' {Path.Combine(Recording, "flight.nmea")} | head -400";
            using Tmux tmux = Tmux.Open(80, 24, $"before=$(stty -a); ({lines}; sleep 8) | "
                + $"{Program} watch --from - --flight {flight}; echo \"EXIT $?\"; "
                + "[ \"$before\" = \"$(stty -a)\" ] && echo SAME; exec sleep 60");
            tmux.Until(s => s.Contains("ON THE PAD", StringComparison.Ordinal), "on the pad");
            tmux.Until(s => s.Contains("recording, 40", StringComparison.Ordinal), "all lines recorded");
            tmux.Press("6");
            tmux.Until(s => s.Contains("Can I believe it?", StringComparison.Ordinal), "the receivers");
            tmux.Press("q");
            tmux.Press("y");
            TerminalIsBack(tmux);
            // A line is recorded in two pieces where the pipe pauses within it for over half a second.
            Assert.InRange(File.ReadLines(Path.Combine(flight, "received.nmea"))
                .Count(l => l.StartsWith("\\s:radio1", StringComparison.Ordinal)), 400, 410);
        }
        finally
        {
            Directory.Delete(flight, true);
        }
    }

    [Fact]
    public void A_serial_port_is_watched_and_unplugged_and_what_the_operator_does_is_recorded()
    {
        string folder = Directory.CreateTempSubdirectory("groundstation-serial-").FullName;
        string near = Path.Combine(folder, "port"), far = Path.Combine(folder, "tracker");
        Process wire = Wire(near, far);
        try
        {
            using Tmux tmux = Tmux.Open(80, 24, $"before=$(stty -a); {Program} watch --from serial:{near}@9600 "
                + $"--flight {folder}/flight; echo \"EXIT $?\"; [ \"$before\" = \"$(stty -a)\" ] && echo SAME; exec sleep 60");
            tmux.Until(s => s.Contains("Waiting for the first believed fix", StringComparison.Ordinal), "the wait");
            File.AppendAllLines(far, File.ReadLines(Path.Combine(Recording, "flight.nmea"))
                .Where(l => l.StartsWith("\\s:radio1", StringComparison.Ordinal)).Take(300)
                .Select(l => l[l.IndexOf('$', StringComparison.Ordinal)..] + "\r"));
            tmux.Until(s => s.Contains("ON THE PAD", StringComparison.Ordinal), "on the pad");
            foreach (string key in (string[])["l", "y", "3"]) tmux.Press(key);
            tmux.Until(s => s.Contains("launch marked", StringComparison.Ordinal)
                && s.Contains("not heard yet", StringComparison.Ordinal), "the mark on the profile");
            tmux.Press("u");
            tmux.Until(s => s.Contains("Vertical rate, ft/min", StringComparison.Ordinal), "feet");
            foreach (string key in (string[])["n", "o", "k", "Enter", "9"]) tmux.Press(key);
            tmux.Until(s => s.Contains("Note: ok", StringComparison.Ordinal)
                && s.Contains("Operator marks the launch; phase still pad", StringComparison.Ordinal), "the log");
            wire.Kill();
            tmux.Until(s => s.Contains("Link radio1 lost", StringComparison.Ordinal), "the lost link");
            tmux.Press("q");
            tmux.Press("y");
            TerminalIsBack(tmux);
            string recorded = File.ReadAllText(Path.Combine(folder, "flight", "received.nmea"));
            foreach (string act in (string[])["mark-launch", "units", "note"]) Assert.Contains(act, recorded);
        }
        finally
        {
            if (!wire.HasExited) wire.Kill();
            wire.Dispose();
            Directory.Delete(folder, true);
        }
    }

    /// <summary>Two pseudo-terminals joined back to back; skips the test where there is no socat.</summary>
    private static Process Wire(string near, string far)
    {
        ProcessStartInfo start = new("socat", [$"pty,raw,echo=0,link={near}", $"pty,raw,echo=0,link={far}"])
        { RedirectStandardError = true };
        try
        {
            Process wire = Process.Start(start)!;
            for (int i = 0; i < 100 && !(File.Exists(near) && File.Exists(far)); i++) Thread.Sleep(50);
            return wire;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Assert.Skip("needs socat");
            throw;
        }
    }

    [Fact]
    public void Ctrl_C_asks_first_and_then_ends_it()
    {
        using Tmux tmux = Start(100, 40, "1");
        tmux.Press("C-c");
        tmux.Until(s => s.Contains("Stop the station?", StringComparison.Ordinal), "the question");
        tmux.Press("y");
        TerminalIsBack(tmux);
    }
}
