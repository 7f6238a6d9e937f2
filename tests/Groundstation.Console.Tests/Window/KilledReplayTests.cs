using System.Diagnostics;
using System.Globalization;
using Xunit;

namespace Groundstation.Console.Tests.Window;

/// <summary>A replay on screen writes its flight when it is over: killed before, it leaves nothing.</summary>
public sealed class KilledReplayTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("groundstation-killed-").FullName;

    public void Dispose() => Directory.Delete(_folder, true);

    [Fact]
    public void Killed_on_screen_it_leaves_no_folder_and_run_again_it_writes_it()
    {
        string program = Path.Combine(AppContext.BaseDirectory, "groundstation.dll"),
            flight = Path.Combine(_folder, "flight"), pid = Path.Combine(_folder, "pid"),
            recording = BundledFlights.File("clean", "flight.nmea"),
            command = $"dotnet {program} replay {recording} --rate max --flight {flight}";
        using (Tmux tmux = Tmux.Open(80, 24, $"echo $$ > {pid}; exec {command}"))
        {
            tmux.Until(s => s.Contains("9 Log", StringComparison.Ordinal), "the console");
            using Process replay = Process.GetProcessById(
                int.Parse(File.ReadAllText(pid), CultureInfo.InvariantCulture));
            replay.Kill();
            replay.WaitForExit();
        }

        Assert.False(Directory.Exists(flight));
        using (Tmux tmux = Tmux.Open(80, 24, $"{command}; echo \"EXIT $?\"; exec sleep 60"))
        {
            tmux.Until(s => s.Contains("9 Log", StringComparison.Ordinal), "the console");
            foreach (string key in (string[])["q", "y"]) tmux.Press(key);
            tmux.Until(s => s.Contains("EXIT 0", StringComparison.Ordinal), "an end");
        }

        Assert.True(new FileInfo(Path.Combine(flight, "received.nmea")).Length > 0);
    }
}
