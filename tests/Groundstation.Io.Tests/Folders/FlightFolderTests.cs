using System.Text;
using Groundstation.Core.Callouts;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Folders;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;
using Xunit;

namespace Groundstation.Io.Tests.Folders;

/// <summary>The flight folder: what is in it is never lost, whatever came before.</summary>
public sealed class FlightFolderTests : IDisposable
{
    private static readonly Instant _at = Instant.FromUnixMilliseconds(1_782_000_000_123);
    private readonly TempFolder _temp = new();

    public void Dispose() => _temp.Dispose();

    [Fact]
    public void A_kill_before_the_first_line_leaves_a_folder_that_can_be_used()
    {
        FlightFolder.Open(_temp["f"], FolderUse.Live).Dispose();
        Assert.True(File.Exists(_temp["f/fixes.csv"]));
        using FlightFolder again = FlightFolder.Open(_temp["f"], FolderUse.Live);
        Assert.False(again.Continues);
    }

    [Fact]
    public void A_log_that_another_program_keeps_is_told_and_replaced_as_soon_as_it_can_be()
    {
        using (FlightFolder first = FlightFolder.Open(_temp["f"], FolderUse.Live))
            first.RecordCopy("one\r\n"u8);
        // As a spreadsheet does on Windows, a folder of that name keeps the file from being replaced.
        File.Delete(_temp["f/callouts.csv"]);
        Directory.CreateDirectory(_temp["f/callouts.csv"]);
        using FlightFolder folder = FlightFolder.Open(_temp["f"], FolderUse.Live);
        folder.Rebuilt();
        folder.Log.Callout(new Callout(1, _at, "launch", "on", ""));
        folder.Look();
        Assert.Matches(@"^the old callouts\.csv cannot be replaced \(.+\): the log goes on in callouts\.csv\.rebuilding$",
            folder.Unreplaced);
        Assert.Equal("", folder.Trouble);
        string[] rows = File.ReadAllLines(_temp["f/callouts.csv.rebuilding"]);
        Assert.Equal(2, rows.Length);
        Directory.Delete(_temp["f/callouts.csv"]);
        folder.Look();
        Assert.Equal("", folder.Unreplaced);
        Assert.Equal(rows, File.ReadAllLines(_temp["f/callouts.csv"]));
        Assert.False(File.Exists(_temp["f/callouts.csv.rebuilding"]));
    }

    [Fact]
    public void Two_stations_cannot_write_the_same_folder_but_one_after_the_other_can()
    {
        using (FlightFolder.Open(_temp["f"], FolderUse.Live))
        {
            Assert.Equal(
                $"{_temp["f"]}: another station is writing this flight; stop it or name another folder with --flight",
                Assert.Throws<UserErrorException>(() => FlightFolder.Open(_temp["f"], FolderUse.Live)).Message);
        }

        File.Delete(Path.Combine(_temp["f"], "landing.csv"));
        foreach (string log in Directory.GetFiles(_temp["f"], "*.csv"))
            File.Delete(log);
        FlightFolder.Open(_temp["f"], FolderUse.Live).Dispose();
    }

    [Fact]
    public void What_is_there_is_never_overwritten()
    {
        Directory.CreateDirectory(_temp["f"]);
        _temp.Write("f/fixes.csv", "mine");
        Assert.Contains("without its received.nmea",
            Assert.Throws<UserErrorException>(() => FlightFolder.Open(_temp["f"], FolderUse.Live)).Message,
            StringComparison.Ordinal);
        Assert.Equal("mine", Text("fixes.csv"));

        // A link that leads nowhere is a log that nobody knows.
        File.Delete(_temp["f/fixes.csv"]);
        if (!OperatingSystem.IsWindows())
        {
            File.CreateSymbolicLink(_temp["f/fixes.csv"], "/nowhere/fixes.csv");
            Assert.Contains("without its received.nmea",
                Assert.Throws<UserErrorException>(() => FlightFolder.Open(_temp["f"], FolderUse.Live)).Message,
                StringComparison.Ordinal);
            File.Delete(_temp["f/fixes.csv"]);
        }

        _temp.Write("f/fixes.csv", "mine");
        _temp.Write("f/received.nmea", "x\r\n");
        Assert.Contains("holds a flight already",
            Assert.Throws<UserErrorException>(() => FlightFolder.Open(_temp["f"], FolderUse.Replay)).Message,
            StringComparison.Ordinal);
        Assert.Equal("mine", Text("fixes.csv"));
    }

    [Fact]
    public void A_folder_that_cannot_be_made_is_told_in_one_line()
    {
        _temp.Write("file", "");
        string message = Assert.Throws<UserErrorException>(() =>
            FlightFolder.Open(Path.Combine(_temp["file"], "f"), FolderUse.Live)).Message;
        Assert.StartsWith(_temp["file"], message, StringComparison.Ordinal);
        Assert.DoesNotContain(message, char.IsControl);
    }

    [Fact]
    public void A_torn_last_line_is_closed_and_the_old_logs_stay_until_the_new_ones_are_whole()
    {
        using (FlightFolder folder = FlightFolder.Open(_temp["f"], FolderUse.Live))
        {
            folder.Record(RecordedEvent.Opened(_at, 1));
            folder.Record(RecordedEvent.Received(new SourceId("radio1"), _at, "one\r\n"u8.ToArray()));
            folder.Log.Callout(new Callout(1, _at, "launch", "before", ""));
        }

        string recording = Path.Combine(_temp["f"], "received.nmea");
        byte[] whole = File.ReadAllBytes(recording);
        File.WriteAllBytes(recording, whole[..^3]);
        using (FlightFolder folder = FlightFolder.Open(_temp["f"], FolderUse.Live))
        {
            Assert.True(folder.Continues);
            Assert.Contains("torn", folder.Repaired, StringComparison.Ordinal);
            Assert.Equal([.. whole[..^3], .. "\r\n"u8], File.ReadAllBytes(recording));
            folder.Log.Callout(new Callout(1, _at, "launch", "again", ""));
            Assert.Contains("before", Text("callouts.csv"), StringComparison.Ordinal);
            folder.Rebuilt();
            Assert.DoesNotContain("before", Text("callouts.csv"), StringComparison.Ordinal);
            folder.Log.Callout(new Callout(2, _at, "cadence", "on", ""));
        }

        Assert.Equal(["again", "on"], Text("callouts.csv").Split("\r\n")[1..3].Select(row => row.Split(',')[3]));
        Assert.Empty(Directory.GetFiles(_temp["f"], "*.rebuilding"));
    }

    [Fact]
    public void Of_a_copy_a_torn_last_line_is_cut_off_but_not_while_another_station_writes_it()
    {
        Directory.CreateDirectory(_temp["f"]);
        _temp.Write("f/received.nmea", "one\r\ntw");
        using (FlightFolder.Open(_temp["f"], FolderUse.Live))
            Assert.Throws<UserErrorException>(() => FlightFolder.Open(_temp["f"], FolderUse.Copy));
        Assert.Equal("one\r\ntw\r\n", File.ReadAllText(_temp["f/received.nmea"]));

        _temp.Write("f/received.nmea", "one\r\ntw");
        FlightFolder.Open(_temp["f"], FolderUse.Copy).Dispose();
        Assert.Equal("one\r\n", File.ReadAllText(_temp["f/received.nmea"]));
        foreach (string log in Directory.GetFiles(_temp["f"], "*.csv"))
            File.Delete(log);
        _temp.Write("f/received.nmea", "on");
        using FlightFolder anew = FlightFolder.Open(_temp["f"], FolderUse.Copy);
        Assert.False(anew.Continues);
    }

    [Fact]
    public void A_line_torn_between_CR_and_LF_gets_the_LF_alone()
    {
        _temp.Write("received.nmea", "$GPGGA,1*00\r");
        FlightFolder.Open(_temp.Path, FolderUse.Live).Dispose();
        Assert.Equal("$GPGGA,1*00\r\n", File.ReadAllText(_temp["received.nmea"]));
    }

    [Fact]
    public void The_plan_is_kept_as_loaded_or_as_the_defaults_in_force()
    {
        using FlightFolder folder = FlightFolder.Open(_temp["f"], FolderUse.Live);
        Assert.Null(folder.KeptPlan);
        folder.KeepPlan(null, FlightPlan.Default);
        Assert.Contains("# burst height: 30 km", Text("plan.toml"), StringComparison.Ordinal);
        Assert.Empty(PlanReader.Read(folder.KeptPlan!).Stated);

        string plan = _temp.Write("mine.toml", ExamplePlan.Text);
        folder.KeepPlan(plan, PlanReader.Read(plan));
        Assert.Equal(ExamplePlan.Text, Text("plan.toml"));
        folder.KeepPlan(folder.KeptPlan, PlanReader.Read(plan));
        Assert.Equal(ExamplePlan.Text, Text("plan.toml"));
    }

    private string Text(string name)
    {
        using FileStream file = new(Path.Combine(_temp["f"], name), FileMode.Open, FileAccess.Read,
            FileShare.ReadWrite | FileShare.Delete);
        using StreamReader text = new(file, Encoding.UTF8);
        return text.ReadToEnd();
    }
}
