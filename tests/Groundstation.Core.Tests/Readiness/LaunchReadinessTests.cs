using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Readiness;
using Xunit;

namespace Groundstation.Core.Tests.Readiness;

/// <summary>Ready to launch? Points stand as the snapshot says; the decision is kept with what was open.</summary>
public class LaunchReadinessTests
{
    private static readonly Instant Nine = Instant.FromUtc(new(2026, 6, 21), TimeSpan.FromHours(9));

    private static Snapshot Bare(FlightPlan? plan = null) => new()
    {
        Utc = Nine,
        Arrival = Nine,
        Plan = plan ?? FlightPlan.Default,
        Flight = new FlightState(),
    };

    private static LaunchCheck Point(Snapshot s, string id) =>
        LaunchReadiness.Of(s).Station.Concat(LaunchReadiness.Of(s).People).Single(c => c.Id == id);

    [Fact]
    public void Nothing_heard_and_nothing_confirmed_is_not_ready()
    {
        LaunchReadiness ready = LaunchReadiness.Of(Bare());
        Assert.False(ready.Ready);
        Assert.Contains("fix", ready.Open.Select(c => c.Id));
        Assert.Equal(PeopleItems.All.Length, ready.People.Count(c => c.State == CheckState.Open));
        Assert.StartsWith("open: fix, permission", ready.Standing, StringComparison.Ordinal);
    }

    [Fact]
    public void A_wrong_baud_rate_stands_on_the_checklist()
    {
        Snapshot s = Bare() with
        {
            Receivers =
            [
                new ReceiverHealth
                {
                    Source = new("radio1"),
                    Rejected = [],
                    InView = [],
                    LineFault = "wrong baud rate? (bytes arrive, but they are no sentences)",
                },
            ],
        };
        Assert.Equal((CheckState.Open, "wrong baud rate?"), (Point(s, "fix").State, Point(s, "fix").Detail));
    }

    [Theory]
    [InlineData(412_300, "412 GB 99+ flights", CheckState.Ready)]
    [InlineData(3170, "3.2 GB 52 flights", CheckState.Ready)]
    [InlineData(610, "610 MB 10 flights", CheckState.Ready)]
    [InlineData(20, "20 MB 0 flights", CheckState.Open)]
    public void Room_on_the_disk_is_told_in_flights(double mb, string words, CheckState state)
    {
        LaunchCheck disk = Point(Bare() with { DiskFreeMb = mb }, "disk");
        Assert.Equal((words, state), (disk.Detail, disk.State));
    }

    [Theory]
    [InlineData(299, CheckState.Open)]
    [InlineData(300, CheckState.Ready)]
    public void The_fix_must_have_held_five_minutes(double seconds, CheckState state) =>
        Assert.Equal(state, Point(Bare() with { FixHeldS = seconds }, "fix").State);

    [Theory]
    [InlineData(3, CheckState.Open)]
    [InlineData(5, CheckState.Doubtful)]
    [InlineData(6, CheckState.Ready)]
    public void Two_satellites_are_wanted_to_spare(int used, CheckState state)
    {
        Fix fix = new()
        {
            Source = new("radio1"),
            Heard = Nine,
            Utc = Nine,
            DateFrom = DateOrigin.Receiver,
            SatellitesUsed = used,
        };
        Assert.Equal(state, Point(Bare() with { NewestFix = fix }, "satellites").State);
    }

    [Theory]
    [InlineData(119, CheckState.Ready)]
    [InlineData(121, CheckState.Doubtful)]
    public void The_chase_car_has_told_its_place_within_two_minutes(double agoS, CheckState state) => Assert.Equal(state,
        Point(Bare() with { Chase = new Waypoint(Nine.PlusSeconds(-agoS), new(60, 10), default) }, "chase").State);

    [Fact]
    public void What_the_station_cannot_know_is_doubtful_what_is_wrong_is_open()
    {
        FlightPlan plan = FlightPlan.Default with { TrackerAltitudeLimit = new HeightMsl(18_000), Stated = ["x"] };
        Snapshot s = Bare(plan);
        Assert.Equal((CheckState.Doubtful, "18 km BELOW burst"), (Point(s, "limit").State, Point(s, "limit").Detail));
        Assert.Equal(CheckState.Ready, Point(Bare(plan with { TrackerAltitudeLimit = new(50_000) }), "limit").State);
        Assert.Equal(CheckState.Doubtful, Point(s, "battery").State);
        Assert.Equal(CheckState.Open, Point(s with { StorageTrouble = "disk full" }, "recording").State);
        Assert.Equal(CheckState.Doubtful, Point(s, "terrain").State);
        Assert.Equal(CheckState.Ready, Point(s with { HasTerrain = true }, "terrain").State);
        Snapshot nonsense = Bare(plan with { Fill = new() { BalloonKg = 3, Wanted = (FillAim.Gas, 1) } });
        Assert.Equal(CheckState.Open, Point(nonsense, "plan").State);
    }

    // What the smallest screen shows of a point in one row: label, colon, meaning within 78 columns, figures within 19.
    [Fact]
    public void Every_point_fits_the_smallest_screen()
    {
        Snapshot s = Bare(FlightPlan.Default with
        {
            LaunchSite = new(60, 10),
            Fill = new() { BalloonKg = 1.2 },
            TrackerAltitudeLimit = new(18_000),
        }) with
        { FixHeldS = 250 };
        LaunchReadiness ready = LaunchReadiness.Of(s);
        foreach (LaunchCheck check in ready.People)
            Assert.True(check.Label.Length + $"{check.Detail}".Length <= 76, $"{check.Detail}");
        foreach (LaunchCheck check in ready.Station)
        {
            foreach (DisplayUnits units in Enum.GetValues<DisplayUnits>())
                Assert.True(check.Detail.In(units).Length <= 18, check.Detail.In(units));
        }


        Assert.Contains("UTC in daylight", Point(s, "daylight").Detail.ToString());
        Assert.Contains("IN DARKNESS", Point(s with { Utc = Nine.PlusSeconds(12 * 3600) }, "daylight").Detail.ToString());
    }

    [Fact]
    public void Confirmations_and_decisions_are_acts_of_the_flight()
    {
        Station station = new(FlightPlan.Default, new NoLog());
        station.Act(Nine, new OperatorAct("confirm", "gloves"));
        station.Act(Nine, new OperatorAct("confirm", "nonsense"));
        Assert.Equal(["gloves"], station.Snapshot().Confirmed);
        station.Act(Nine.PlusSeconds(1), new OperatorAct("no-go", ""));
        LaunchDecision decision = station.Snapshot().Decision!;
        Assert.False(decision.Go);
        Assert.Contains("permission", decision.Standing);
        Assert.DoesNotContain("gloves", decision.Standing);
        station.Act(Nine.PlusSeconds(2), new OperatorAct("withdraw", "gloves"));
        Assert.Empty(station.Snapshot().Confirmed);
        station.Act(Nine.PlusSeconds(3), new OperatorAct("go", ""));
        Assert.Contains(station.Snapshot().Events,
            e => e.Text.ToString().StartsWith("Launch decision: GO AGAINST THE CHECKLIST"));
        Assert.Contains(station.Snapshot().Events,
            e => e.Text.ToString() == "Checklist: nonsense confirmed (could not be carried out)");
    }

    private sealed class NoLog : IFlightLog
    {
        public void Fix(Fix fix)
        {
        }

        public void Wind(Instant utc, in WindLayer layer)
        {
        }

        public void Landing(LandingEstimate estimate)
        {
        }

        public void Alarm(Instant utc, string change, AlarmState alarm)
        {
        }

        public void Callout(Callout callout)
        {
        }
    }
}
