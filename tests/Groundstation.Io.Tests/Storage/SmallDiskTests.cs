using System.Diagnostics;
using Groundstation.Core.Plan;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;
using Groundstation.Io.Storage;
using Xunit;

namespace Groundstation.Io.Tests.Storage;

/// <summary>A disk of its own that runs full and gets room again.</summary>
public sealed class SmallDiskTests : IDisposable
{
    private readonly TempFolder _temp = new();
    private bool _mounted;

    public void Dispose()
    {
        if (_mounted)
            Runs("umount", _temp["disk"]);
        _temp.Dispose();
    }

    [Fact]
    public void A_replay_whose_logs_a_full_disk_does_not_take_says_so_at_its_end()
    {
        string disk = Mounted();
        using ReplaySession replay = new(RecordingReader.Open(Bundled.Path("clean", "flight.nmea")), FlightPlan.Default,
            FlightFolder.OpenReplay(Path.Combine(disk, "f"), Bundled.Path("clean", "flight.nmea"), TimeProvider.System),
            null, TimeProvider.System);
        replay.Run(TestContext.Current.CancellationToken);
        Assert.Contains("f: not all could be written: received.nmea: no space left on the disk",
            HeadlessSummary.Text(replay.Outcome()), StringComparison.Ordinal);
        // So that the same replay makes it anew when there is room.
        Assert.True(File.Exists(Path.Combine(disk, "f", "unfinished-replay.txt")));
    }

    [Fact]
    public void What_a_full_disk_does_not_take_waits_and_is_written_in_order_when_there_is_room()
    {
        string disk = Mounted();
        string other = Path.Combine(disk, "other"), path = Path.Combine(disk, "received.nmea");
        File.WriteAllBytes(other, new byte[40_000]);

        using AppendFile file = new(path, fresh: true, writeThrough: true);
        byte[] line = new byte[100];
        for (int i = 0; i < 500; i++)
        {
            line.AsSpan().Fill((byte)('a' + i % 26));
            line[^1] = (byte)'\n';
            file.Append(line);
        }

        Assert.Equal("no space left on the disk", file.Trouble);
        file.Look();
        Assert.Equal("no space left on the disk", file.Trouble);
        File.Delete(other);
        file.Look();
        Assert.Equal("", file.Trouble);
        Assert.Equal(0, file.Dropped);
        string[] lines = File.ReadAllLines(path);
        Assert.Equal(500, lines.Length);
        Assert.All(lines.Index(), l => Assert.Equal(new string((char)('a' + l.Index % 26), 99), l.Item));
    }

    private string Mounted()
    {
        string disk = Directory.CreateDirectory(_temp["disk"]).FullName;
        _mounted = OperatingSystem.IsLinux() && Runs("mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", disk);
        if (!_mounted)
            Assert.Skip("needs to mount a small disk");
        return disk;
    }

    private static bool Runs(string program, params string[] arguments)
    {
        try
        {
            using Process p = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
            p.WaitForExit();
            return p.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }
}
