using System.Text;
using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Folders;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;
using nietras.SeparatedValues;
using Xunit;

namespace Groundstation.Io.Tests.Folders;

/// <summary>The flight folder: the columns others rely on, quoting, and what happens after a kill.</summary>
public sealed class FlightFolderTests : IDisposable
{
    private static readonly Instant _at = Instant.FromUnixMilliseconds(1_782_000_000_123);
    private readonly TempFolder _temp = new();

    public void Dispose() => _temp.Dispose();

    [Fact]
    public void The_logs_have_their_columns_in_the_agreed_order()
    {
        using (FlightFolder.Open(_temp["f"], FolderUse.Live))
        {
        }

        Assert.StartsWith("utc,phase,altitude_m,latitude_deg,longitude_deg,ground_m,landing_utc,method,area50_major_m,"
            + "area50_minor_m,area50_azimuth_deg,area95_major_m,area95_minor_m,area95_azimuth_deg,"
            + "lastwind_latitude_deg,lastwind_longitude_deg,heard_age_s", Text("landing.csv"),
            StringComparison.Ordinal);
        Assert.StartsWith("utc,heard_utc,source,latitude_deg,longitude_deg,altitude_m,", Text("fixes.csv"),
            StringComparison.Ordinal);
        Assert.All(new[] { "fixes", "winds", "landing", "alarms", "callouts" },
            name => Assert.EndsWith("\r\n", Text(name + ".csv"), StringComparison.Ordinal));
    }

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
        File.Delete(_temp["f/fixes.csv"]);
        Directory.CreateDirectory(_temp["f/fixes.csv"]);
        using FlightFolder folder = FlightFolder.Open(_temp["f"], FolderUse.Live);
        folder.Rebuilt();
        folder.Log.Fix(Heard("radio1", default));
        folder.Look();
        Assert.Matches(@"^the old fixes\.csv cannot be replaced \(.+\): the log goes on in fixes\.csv\.rebuilding$",
            folder.Unreplaced);
        Assert.Equal("", folder.Trouble);
        string[] rows = File.ReadAllLines(_temp["f/fixes.csv.rebuilding"]);
        Assert.Equal(2, rows.Length);
        Directory.Delete(_temp["f/fixes.csv"]);
        folder.Look();
        Assert.Equal("", folder.Unreplaced);
        Assert.Equal(rows, File.ReadAllLines(_temp["f/fixes.csv"]));
        Assert.False(File.Exists(_temp["f/fixes.csv.rebuilding"]));
    }

    private static Fix Heard(string source, RefusalReasons refused) => new()
    {
        Source = new SourceId(source),
        Heard = _at,
        Utc = _at,
        DateFrom = DateOrigin.NearestToArrival,
        Refused = refused,
    };

    [Fact]
    public void A_row_says_what_is_known_and_leaves_blank_what_is_not()
    {
        using (FlightFolder folder = FlightFolder.Open(_temp["f"], FolderUse.Live))
        {
            folder.Log.Fix(new Fix
            {
                Source = new SourceId("radio1"),
                Heard = _at,
                Utc = _at.PlusSeconds(-1),
                DateFrom = DateOrigin.NearestToArrival,
                Position = new GeoPoint(-1e-12, 12.123456789),
                Refused = RefusalReasons.NoAltitude | RefusalReasons.HorizontalJump,
                Detail = "moved 900 m, 30 m allowed",
                Also = [Heard("radio2", RefusalReasons.None), Heard("radio3", RefusalReasons.NoFix)],
            });
            folder.Log.Landing(new LandingEstimate
            {
                Utc = _at,
                Phase = Phase.Descent,
                Altitude = new HeightMsl(12345.678),
                Position = new GeoPoint(48.123456789, -30),
                Ground = new HeightMsl(100),
                LandingUtc = _at.PlusSeconds(1800),
                Method = LandingMethod.Silent,
                Area50 = new SearchArea(300, 200, 45),
                Area95 = new SearchArea(900, 600, 45),
                HeardAgeS = 61.26,
            });
        }

        Assert.EndsWith("\r\n2026-06-20T23:59:59.123Z,2026-06-21T00:00:00.123Z,radio1,0.000000000,12.123456789,,,,,,,,,"
            + "nearest-to-arrival,no,no-altitude horizontal-jump,\"moved 900 m, 30 m allowed\",radio2 radio3:no-fix\r\n", Text("fixes.csv"),
            StringComparison.Ordinal);
        Assert.EndsWith("\r\n2026-06-21T00:00:00.123Z,descent,12345.7,48.123457,-30.000000,100.0,"
            + "2026-06-21T00:30:00.123Z,silent,300.0,200.0,45.0,900.0,600.0,45.0,,,61.3,0.0,\r\n", Text("landing.csv"),
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("plain", "plain")]
    [InlineData("with, comma", "with, comma")]
    [InlineData("with \"quote\"", "with \"quote\"")]
    [InlineData("=HYPERLINK(\"x\")", "'=HYPERLINK(\"x\")")]
    [InlineData("+1", "'+1")]
    [InlineData("-1", "'-1")]
    [InlineData("@SUM", "'@SUM")]
    [InlineData("\t=1", " =1")]
    [InlineData("line\r\nbreak\u001b[31m", "line  break [31m")]
    public void A_text_from_outside_is_quoted_and_can_be_no_formula(string text, string cell)
    {
        using (FlightFolder folder = FlightFolder.Open(_temp["f"], FolderUse.Live))
        {
            folder.Log.Callout(new Callout(1, _at, "cadence", text, ""));
            folder.Log.Callout(new Callout(2, _at, "cadence", "next", "correct"));
        }

        using SepReader reader = Sep.Reader(o => o with { Unescape = true }).FromText(Text("callouts.csv"));
        List<string> cells = [];
        foreach (SepReader.Row row in reader)
            cells.Add(row["text"].ToString());
        Assert.Equal([cell, "next"], cells);
    }

    [Fact]
    public void An_alarm_row_has_severity_and_state_as_words()
    {
        using (FlightFolder folder = FlightFolder.Open(_temp["f"], FolderUse.Live))
        {
            folder.Log.Alarm(_at, "raised", new AlarmState("no-fix", Severity.Warning,
                AlarmPhase.ReturnedUnacknowledged, "No fix for 31 s", "c", "n", _at, 1, null));
        }

        Assert.EndsWith("no-fix,warning,raised,returned-unacknowledged,No fix for 31 s,c,n,1,\r\n", Text("alarms.csv"),
            StringComparison.Ordinal);
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
