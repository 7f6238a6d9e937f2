using Groundstation.Core.Alarms;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Xunit;

namespace Groundstation.Core.Tests.Alarms;

/// <summary>When a rule's condition holds, one step to either side; and, where the alarm stands already, its deadband.</summary>
public class AlarmConditionTests
{
    private static readonly Instant Now = Instant.FromUtc(new DateOnly(2027, 5, 8), new TimeSpan(10, 0, 0));
    private static readonly GeoPoint Place = new(47, 3.4);
    private static readonly SourceId Radio = new("radio1");

    private static bool Holds(string id, AlarmInput input, bool active = false) =>
        AlarmRules.Find(id)!.Cause(input, active) is not null;

    private static AlarmInput Input(FlightState? flight = null, FlightPlan? plan = null) => new()
    {
        Arrival = Now,
        Started = Now.PlusSeconds(-3600),
        Plan = plan ?? FlightPlan.Default,
        Flight = flight ?? new FlightState(),
    };

    private static FlightState Flying(Phase phase) => new()
    {
        Phase = phase,
        Newest = new Fix
        {
            Source = Radio,
            Heard = Now,
            Utc = Now,
            DateFrom = DateOrigin.Receiver,
            Position = Place,
            Height = new HeightMsl(5000),
        },
    };

    private static Waypoint Ago(double seconds) => new(Now.PlusSeconds(-seconds), Place, new HeightMsl(200));

    [Theory]
    [InlineData(59, true)]
    [InlineData(60, false)]
    public void The_launch_is_news_for_a_minute(double agoS, bool holds) =>
        Assert.Equal(holds, Holds("launch", Input(Flying(Phase.Ascent) with { Launch = Ago(agoS) })));

    [Theory]
    [InlineData(119, true)]
    [InlineData(120, false)]
    public void The_burst_and_a_changed_canopy_are_news_for_two_minutes(double agoS, bool holds)
    {
        FlightState falling = Flying(Phase.Descent) with
        {
            Burst = Ago(agoS),
            CanopyChanged = new CanopyChange(Now.PlusSeconds(-agoS), 5, 9),
        };
        Assert.Equal(holds, Holds("burst", Input(falling)));
        Assert.Equal(holds, Holds("canopy-changed", Input(falling)));
    }

    [Theory]
    [InlineData(30, false)]
    [InlineData(31, true)]
    public void In_the_first_half_minute_the_rate_still_holds_the_pad(double agoS, bool holds) => Assert.Equal(holds,
        Holds("ascent-slow", Input(Flying(Phase.Ascent) with { Launch = Ago(agoS), VerticalRateMps = 1 })));

    [Theory]
    [InlineData(1499, false, true)]
    [InlineData(1501, false, false)]
    [InlineData(1699, true, true)]
    [InlineData(1701, true, false)]
    public void The_approach_is_called_at_its_height_and_stands_two_hundred_metres_further_up(
        double aboveM, bool active, bool holds) => Assert.Equal(holds, Holds("approach",
            Input(Flying(Phase.Descent)) with { Landing = Landing(170 + aboveM) }, active));

    [Theory]
    [InlineData(0.2, false, true)]
    [InlineData(0.19, false, false)]
    [InlineData(0.17, true, true)]
    [InlineData(0.15, true, false)]
    public void A_keep_out_is_told_by_its_share_of_landings(double share, bool active, bool holds) =>
        Assert.Equal(holds, Holds("keep-out", Input(Flying(Phase.Ascent)) with { KeepOuts = [Lake(share)] }, active));

    [Fact]
    public void On_the_pad_and_without_a_forecast_no_pond_rings()
    {
        AlarmInput pad = Input(Flying(Phase.Pad)) with { KeepOuts = [Lake(0.9)] };
        Assert.False(Holds("keep-out-likely", pad));
        WindForecast winds = new() { Source = "table", Levels = [new(new HeightMsl(1000), default)] };
        Assert.True(Holds("keep-out-likely", pad with { Plan = FlightPlan.Default with { Winds = [winds] } }));
    }

    // A tracker that sends every twenty seconds is silent after three of them, not after the plan's 15 or 30 s.
    [Theory]
    [InlineData("no-fix", 1, 29, false)]
    [InlineData("no-fix", 1, 30, true)]
    [InlineData("no-fix", 20, 59, false)]
    [InlineData("no-fix", 20, 60, true)]
    [InlineData("no-bytes", 1, 14, false)]
    [InlineData("no-bytes", 1, 15, true)]
    [InlineData("no-bytes", 20, 59, false)]
    [InlineData("no-bytes", 20, 60, true)]
    [InlineData("stalled-fix", 20, 59, false)]
    [InlineData("stalled-fix", 20, 60, true)]
    public void Silence_is_as_long_as_three_usual_intervals(string id, double everyS, double ageS, bool holds) =>
        Assert.Equal(holds, Holds(id, Input(Flying(Phase.Ascent)) with
        {
            EpochIntervalS = everyS,
            HeardAgeS = ageS,
            EpochAgeS = ageS,
            ByteAgeS = id == "stalled-fix" ? 0 : ageS,
        }));

    [Fact]
    public void A_lost_link_is_not_told_again_as_bytes_without_sentences()
    {
        AlarmInput mute = Input() with
        {
            Receivers = [new ReceiverHealth { Source = Radio, LineFault = "wrong baud rate?", Rejected = [], InView = [] }],
        };
        Assert.True(Holds("no-sentences", mute));
        LinkStatus lost = new(Radio, LinkState.Lost, "unplugged", Now);
        Assert.False(Holds("no-sentences", mute with { Links = [lost] }));
        Assert.True(Holds("no-sentences", mute with { Links = [lost with { State = LinkState.Up }] }));
    }

    [Theory]
    [InlineData(2, false, false)]
    [InlineData(3, false, true)]
    [InlineData(1, true, true)]
    [InlineData(0, true, false)]
    public void Outliers_stand_until_a_fix_is_believed(int inARow, bool active, bool holds) =>
        Assert.Equal(holds, Holds("outliers", Input() with { RefusedInARow = inARow }, active));

    [Fact]
    public void A_leak_is_suspected_when_two_fifths_of_the_rate_are_lost_and_stands_until_it_has_come_back_by_a_tenth()
    {
        AlarmInput At(double lostShare) => Input(Flying(Phase.Ascent)) with { Ascent = Climb(5, 5 * (1 - lostShare)) };
        Assert.False(Holds("ascent-falling", At(0.39)));
        Assert.True(Holds("ascent-falling", At(0.41)));
        Assert.True(Holds("ascent-falling", At(0.31), active: true));
        Assert.False(Holds("ascent-falling", At(0.29), active: true));
    }

    // Over a gap nothing says that it climbed all the time: the block that the gap lies in is not counted.
    [Fact]
    public void A_gap_in_the_ascent_is_no_leak()
    {
        AscentTrend trend = new();
        double height = 1000, lost = 0;
        for (int s = 0; s <= 1200; s++)
        {
            height += s is > 300 and < 700 ? 0 : 5;
            if (s is > 300 and < 700) continue;
            trend.Take(At(s, height), Phase.Ascent);
            lost = Math.Max(lost, trend.LostShare ?? 0);
        }

        Assert.Equal(0, lost, 0.01);
    }

    [Fact]
    public void The_host_s_clock_is_as_far_ahead_as_the_quickest_of_ten_fixes_shows()
    {
        HostOffset offset = new();
        for (int i = 0; i < 9; i++) offset.Take(At(i, 100) with { Heard = Now.PlusSeconds(i + 3 + i % 4) });
        Assert.Null(offset.AheadS);
        offset.Take(At(9, 100) with { Heard = Now.PlusSeconds(9 + 8) });
        Assert.Equal(3, offset.AheadS);
    }

    [Fact]
    public void The_likeliest_keep_out_comes_first()
    {
        KeepOut west = Square("west", 3.0), east = Square("east", 3.2);
        KeepOutWatch watch = new(new Overlays { KeepOuts = [west, east] });
        LandingEstimate landing = Landing(1000) with
        {
            Cloud = [new(47.05, 3.05), new(47.05, 3.25), new(47.05, 3.25), new(48, 3.25)],
        };
        Assert.Equal([("east", 0.5), ("west", 0.25)], watch.Of(landing).Select(k => (k.Area.Name, k.Share)));
    }

    private static KeepOut Square(string name, double west) => new(name, "water", [new AreaPart(new GeoRing(
        [new(47, west), new(47, west + 0.1), new(47.1, west + 0.1), new(47.1, west)]), [])]);

    private static KeepOutShare Lake(double share) => new(Square("lake", 3), share);

    private static AscentTrend Climb(double firstMps, double thenMps)
    {
        AscentTrend trend = new();
        double height = 1000;
        for (int s = 0; s <= 400; s++)
        {
            height += s <= 180 ? firstMps : thenMps;
            trend.Take(At(s, height), Phase.Ascent);
        }

        return trend;
    }

    private static Fix At(double second, double heightM) => Flying(Phase.Ascent).Newest! with
    {
        Utc = Now.PlusSeconds(second),
        Heard = Now.PlusSeconds(second),
        Height = new HeightMsl(heightM),
    };

    private static LandingEstimate Landing(double altitudeM) => new()
    {
        Utc = Now,
        Phase = Phase.Descent,
        Altitude = new(altitudeM),
        Position = Place,
        Ground = new(170),
        LandingUtc = Now.PlusSeconds(600),
        Method = LandingMethod.Descent,
        Area50 = new(900, 900, 0),
        Area95 = new(2000, 2000, 0),
        HeardAgeS = 0,
    };
}
