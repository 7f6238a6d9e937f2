using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Folders;
using nietras.SeparatedValues;
using Xunit;

namespace Groundstation.Io.Tests.Folders;

/// <summary>The rows of a flight folder's logs: the columns others rely on, what is not known, quoting.</summary>
public sealed class FlightLogTests : IDisposable
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
            + "nearest-to-arrival,no,no-altitude horizontal-jump,\"moved 900 m, 30 m allowed\",radio2 radio3:no-fix\r\n",
            Text("fixes.csv"), StringComparison.Ordinal);
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

    private static Fix Heard(string source, RefusalReasons refused) => new()
    {
        Source = new SourceId(source),
        Heard = _at,
        Utc = _at,
        DateFrom = DateOrigin.NearestToArrival,
        Refused = refused,
    };

    private string Text(string name) => File.ReadAllText(Path.Combine(_temp["f"], name));
}
