using Groundstation.Core.Chase;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests.Chase;

public class ChaseTrackerTests
{
    private static readonly Instant Start = Instant.FromUnixMilliseconds(1_782_000_000_000);
    private static readonly GeoPoint Home = new(47, 3.4);
    private static readonly GeoPoint Target = Geodesic.Direct(Home, 90, 40_000);

    private static LandingEstimate Landing(double inS, Phase phase = Phase.Ascent) => new()
    {
        Utc = Start,
        Phase = phase,
        Altitude = default,
        Position = Target,
        Ground = default,
        LandingUtc = Start.PlusSeconds(inS),
        Method = phase == Phase.Landed ? LandingMethod.Landed : LandingMethod.Ascent,
        Area50 = default,
        Area95 = default,
        HeardAgeS = 0,
    };

    private static ChaseTracker Driven(double mps, double seconds, double azimuthDeg = 90)
    {
        ChaseTracker tracker = new(FlightPlan.Default);
        for (int s = 0; s <= seconds; s++)
            tracker.Take(Start.PlusSeconds(s), Geodesic.Direct(Home, azimuthDeg, mps * s), false);
        return tracker;
    }

    [Fact]
    public void Nothing_is_known_before_the_car_is_somewhere() =>
        Assert.Null(new ChaseTracker(FlightPlan.Default).State(Start, null, null, Landing(3600)));

    [Fact]
    public void Driving_towards_the_landing_it_closes_at_its_speed_and_the_margin_counts_the_road()
    {
        ChaseState state = Driven(20, 300).State(Start.PlusSeconds(300), Home, null, Landing(3600))!;
        Assert.Equal(20, state.SpeedMps!.Value, 0.05);
        Assert.Equal(20, state.ClosingMps!.Value, 0.05);
        Assert.Equal(34_000, state.ToLanding!.Value.DistanceM, 1.0);
        Assert.Equal(34_000 * 1.3 / 20, state.DriveS!.Value, 5.0);
        Assert.Equal(3300 - 2210, state.MarginS!.Value, 5.0);
        Assert.False(state.SpeedFromPlan);
        Assert.Equal(6000, state.ToBalloon!.Value.DistanceM, 1.0);
        Assert.Null(state.ToLastHeard);
    }

    [Fact]
    public void Driving_away_it_closes_with_a_minus() =>
        Assert.Equal(-15, Driven(15, 200, 270).State(Start.PlusSeconds(200), null, null, Landing(3600))!.ClosingMps!.Value, 0.1);

    [Fact]
    public void Standing_it_counts_with_the_plans_speed()
    {
        ChaseState state = Driven(0, 300).State(Start.PlusSeconds(300), null, null, Landing(3600))!;
        Assert.True(state.SpeedFromPlan);
        Assert.Equal(40_000 * 1.3 / 14, state.DriveS!.Value, 1.0);
    }

    [Fact]
    public void The_speed_is_that_of_the_last_ten_minutes()
    {
        ChaseTracker tracker = Driven(5, 3000);
        for (int s = 1; s <= 600; s++)
            tracker.Take(Start.PlusSeconds(3000 + s), Geodesic.Direct(Home, 90, 15_000 + 25 * s), false);
        Assert.Equal(25, tracker.State(Start.PlusSeconds(3600), null, null, null)!.SpeedMps!.Value, 0.5);
    }

    [Fact]
    public void Two_typed_places_give_a_speed_and_say_that_they_were_typed()
    {
        ChaseTracker tracker = new(FlightPlan.Default);
        tracker.Take(Start, Home, true);
        Assert.Null(tracker.State(Start, null, null, Landing(3600))!.SpeedMps);
        tracker.Take(Start.PlusSeconds(300), Geodesic.Direct(Home, 90, 6000), true);
        ChaseState state = tracker.State(Start.PlusSeconds(340), null, null, Landing(3600))!;
        Assert.Equal(20, state.SpeedMps!.Value, 0.1);
        Assert.Equal(40, state.AgeS);
        Assert.True(state.Typed);
    }

    [Fact]
    public void Landed_there_is_no_margin_but_still_a_way() =>
        Assert.True(Driven(20, 100).State(Start.PlusSeconds(100), null, null, Landing(0, Phase.Landed)) is
        { MarginS: null, DriveS: > 0 });
}
