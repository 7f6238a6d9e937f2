using Groundstation.Core.Air;
using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
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

        Assert.Equal("utc,heard_utc,source,latitude_deg,longitude_deg,altitude_m,geoid_separation_m,quality,dimension,"
            + "satellites_used,hdop,speed_mps,course_deg,date_from,believed,reasons,detail,also_from\r\n",
            Text("fixes.csv"));
        Assert.Equal("utc,bottom_m,top_m,from_deg,speed_mps,east_mps,north_mps,sigma_mps,measured_utc,basis\r\n",
            Text("winds.csv"));
        Assert.Equal("utc,phase,altitude_m,latitude_deg,longitude_deg,ground_m,landing_utc,method,area50_major_m,"
            + "area50_minor_m,area50_azimuth_deg,area95_major_m,area95_minor_m,area95_azimuth_deg,lastwind_latitude_deg,"
            + "lastwind_longitude_deg,heard_age_s,landing_sigma_s,causes\r\n", Text("landing.csv"));
        Assert.Equal("utc,alarm,severity,change,state,cause,consequence,next_step,order,shelved_until_utc\r\n",
            Text("alarms.csv"));
        Assert.Equal("number,utc,occasion,text,read_back,spoken\r\n", Text("callouts.csv"));
    }

    [Fact]
    public void A_row_tells_all_that_is_known()
    {
        using (FlightFolder folder = FlightFolder.Open(_temp["f"], FolderUse.Live))
        {
            folder.Log.Fix(new Fix
            {
                Source = new SourceId("radio2"),
                Heard = _at,
                Utc = _at.PlusSeconds(-1),
                DateFrom = DateOrigin.Receiver,
                Position = new GeoPoint(-48.1, -179.9999999),
                Height = new HeightMsl(-3.14159),
                GeoidSeparationM = 47.25,
                Quality = FixQuality.Differential,
                Dimension = FixDimension.ThreeD,
                SatellitesUsed = 11,
                Hdop = 0.876,
                SpeedMps = 12.3456,
                CourseDeg = 359.5,
            });
            folder.Log.Wind(_at, new WindLayer(new(200), new(400), new WindVector(-3.456, 7.891), 0.789,
                _at.PlusSeconds(-60), WindBasis.Ascent));
            folder.Log.Callout(new Callout(7, _at, "burst", "said", "correct") { Spoken = "spoken" });
        }

        Assert.EndsWith("\r\n2026-06-20T23:59:59.123Z,2026-06-21T00:00:00.123Z,radio2,-48.100000000,-179.999999900,-3.142,"
            + "47.250,2,3,11,0.88,12.346,359.50,receiver,yes,,,\r\n", Text("fixes.csv"), StringComparison.Ordinal);
        Assert.EndsWith("\r\n2026-06-21T00:00:00.123Z,200,400,156.3,8.61,-3.46,7.89,0.79,2026-06-20T23:59:00.123Z,ascent"
            + "\r\n", Text("winds.csv"), StringComparison.Ordinal);
        Assert.EndsWith("\r\n7,2026-06-21T00:00:00.123Z,burst,said,correct,spoken\r\n", Text("callouts.csv"),
            StringComparison.Ordinal);
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
