using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests;

/// <summary>Before anything is believed the screens show the planned flight's landing.</summary>
public partial class StationTests
{
    private static readonly FlightPlan WestWind = FlightPlan.Default with
    {
        LaunchSite = new GeoPoint(47.5, 3),
        LaunchHeight = new HeightMsl(200),
        Winds =
        [
            new WindForecast
            {
                Source = WindForecast.OwnLevels,
                Levels = [new(new HeightMsl(0), WindVector.FromDirection(270, 10)),
                    new(new HeightMsl(32_000), WindVector.FromDirection(270, 10))],
            },
        ],
    };

    private static LandingEstimate? PlannedAt(FlightPlan plan, Log? log = null)
    {
        Station station = new(plan, log ?? new Log());
        station.Tick(At(0));
        station.Tick(At(90));
        return station.Snapshot().Landing;
    }

    [Fact]
    public void Before_a_fix_the_planned_flight_lands_on_screen_and_nowhere_else()
    {
        Log log = new();
        LandingEstimate landing = PlannedAt(WestWind, log)!;
        Assert.Equal(LandingMethod.Planned, landing.Method);
        // 6000 s up at 5 m/s, some 45 min down, 10 m/s to the east.
        GeodesicLine way = Geodesic.Inverse(WestWind.LaunchSite!.Value, landing.Position);
        Assert.InRange(way.DistanceM, 80_000, 100_000);
        Assert.InRange(way.AzimuthDeg, 80, 100);
        Assert.True(landing.Area95.MajorM > landing.Area50.MajorM);
        // Launched now, to the minute.
        Assert.Equal(At(60), landing.Path[0].Utc);
        Assert.Empty(log.Landings);
        Assert.Empty(log.Callouts);
    }

    [Fact]
    public void A_launch_time_to_come_is_the_planned_flights_and_one_gone_by_is_not()
    {
        Assert.Equal(At(7200), PlannedAt(WestWind with { LaunchUtc = At(7200) })!.Path[0].Utc);
        Assert.Equal(At(60), PlannedAt(WestWind with { LaunchUtc = At(-7200) })!.Path[0].Utc);
    }

    [Fact]
    public void Without_launch_site_or_winds_there_is_nothing_to_show()
    {
        Assert.Null(PlannedAt(FlightPlan.Default));
        Assert.Null(PlannedAt(WestWind with { LaunchSite = null }));
        Assert.Null(PlannedAt(WestWind with { Winds = [] }));
    }

    [Fact]
    public void The_first_believed_fix_ends_it()
    {
        Station station = new(WestWind, new Log());
        station.Tick(At(0));
        Assert.Equal(LandingMethod.Planned, station.Snapshot().Landing!.Method);
        for (int s = 1; s < 5; s++) station.Receive(Radio, At(s + 0.2), Sentences(s));
        Assert.Equal(LandingMethod.Ascent, station.Snapshot().Landing!.Method);
    }

    [Fact]
    public void Ground_that_the_operator_tells_holds_for_it_too()
    {
        Station station = new(WestWind, new Log());
        station.Tick(At(0));
        station.Act(At(1), new OperatorAct("ground-height", "900"));
        Snapshot shown = station.Snapshot();
        Assert.Equal((900.0, GroundOrigin.Operator), (shown.Landing!.Ground.Metres, shown.GroundFrom));
    }
}
