using Groundstation.Core.Flight;
using Xunit;

namespace Groundstation.Core.Tests.Flight;

public class PhaseTests
{
    [Fact]
    public void Noise_on_the_pad_is_no_launch()
    {
        Flown flown = new Flown { NoiseM = 6 }.Stand(1800);
        Assert.Equal([Phase.Pad], flown.Phases);
        Assert.InRange(flown.Tracker.State().Pad!.Value.Height.Metres, 97, 103);
    }

    [Theory]
    [InlineData(10)]
    [InlineData(1)]
    [InlineData(0.1)]
    public void A_flight_goes_through_its_phases_in_order_at_any_fix_rate(double stepS)
    {
        Flown flown = new Flown(stepS: stepS).Stand(120).Climb(8000).Fall(100).Stand(240);
        Assert.Equal([Phase.Pad, Phase.Ascent, Phase.Descent, Phase.Landed], flown.Phases);
        FlightState state = flown.Tracker.State();
        Assert.InRange(state.Burst!.Value.Height.Metres, 7900, 8050);
        Assert.InRange(state.Launch!.Value.Utc.SecondsSince(Flown.Start), 100, 140);
    }

    [Theory]
    [InlineData(1.5)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void A_slow_launch_from_a_long_wait_is_no_float(double mps)
    {
        Flown flown = new Flown().Stand(900).Climb(1000, mps);
        Assert.Equal([Phase.Pad, Phase.Ascent], flown.Phases);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(10)]
    public void A_receiver_that_wanders_among_trees_is_landed_within_minutes_all_the_same(double stepS)
    {
        for (ulong seed = 1; seed <= 20; seed++)
        {
            Flown flown = new Flown(stepS: stepS, seed: seed) { WanderM = 15, Wind = new(4, 2) }
                .Stand(120).Climb(3000).Fall(100, 4).Stand(300);
            Assert.True(flown.Tracker.Phase == Phase.Landed, $"seed {seed}: {string.Join(' ', flown.Phases)}");
            Assert.True(Core.Earth.Geodesic.DistanceM(flown.Position, flown.Tracker.Landed!.Value.Position) < 60);
        }
    }

    [Fact]
    public void Heights_that_wander_by_ten_metres_make_no_climb_of_a_float()
    {
        for (ulong seed = 1; seed <= 20; seed++)
        {
            Flown flown = new Flown(stepS: 2, seed: seed) { WanderM = 10 }.Stand(120).Climb(3000).Level(1800);
            Assert.DoesNotContain(Phase.Ascent, flown.Phases.SkipWhile(p => p != Phase.Float));
        }
    }

    [Fact]
    public void Heights_that_wander_by_fifteen_metres_make_no_fall_of_a_float_and_its_fall_is_seen_at_once()
    {
        for (ulong seed = 1; seed <= 20; seed++)
        {
            Flown flown = new Flown(seed: seed) { WanderM = 15 }.Stand(120).Climb(3000).Level(4000);
            Assert.Equal([Phase.Pad, Phase.Ascent, Phase.Float], flown.Phases);
            flown.Fall(flown.HeightM - 200);
            Assert.Equal(Phase.Descent, flown.Phases[^1]);
        }
    }

    [Theory, InlineData(-150), InlineData(150)]
    public void A_float_whose_height_was_put_right_by_its_receiver_floats_on(double upM)
    {
        for (ulong seed = 1; seed <= 10; seed++)
        {
            Flown flown = new Flown(seed: seed) { WanderM = 15 }.Stand(120).Climb(3000).Level(600).Jump(0, upM).Level(2000);
            Assert.Equal([Phase.Pad, Phase.Ascent, Phase.Float], flown.Phases);
        }
    }

    // A receiver that was believed astray for a while: the steps there and back are no motion.
    [Theory]
    [InlineData(20_000, 0)]
    [InlineData(500, -3000)]
    [InlineData(0, 3000)]
    public void A_step_of_the_receiver_is_no_burst_and_no_wind(double eastM, double upM)
    {
        Flown flown = new Flown().Stand(120).Climb(4000).Jump(eastM, upM).Climb(4400).Jump(0, 0).Climb(6000);
        Assert.Equal([Phase.Pad, Phase.Ascent], flown.Phases);
        Assert.InRange(flown.Tracker.HighestM, 5900, 6100);
        for (double z = 500; z < 6000; z += 500)
        {
            var wind = flown.Tracker.Winds.At(z);
            Assert.True(double.Hypot(wind.EastMps - 8, wind.NorthMps - 3) < 1, $"{z} m: {wind}");
        }
        Assert.InRange(flown.Tracker.Ascent.Mps, 4.5, 5.5);
    }

    [Fact]
    public void A_receiver_that_was_astray_on_the_pad_has_its_pad_where_it_is_now()
    {
        Flown flown = new Flown().Jump(3000, 80).Stand(600).Jump(0, 0).Stand(240).Climb(1000);
        Assert.Equal([Phase.Pad, Phase.Ascent], flown.Phases);
        Waypoint pad = flown.Tracker.State().Pad!.Value;
        Assert.InRange(pad.Height.Metres, 95, 105);
        Assert.True(Core.Earth.Geodesic.DistanceM(new(47, 8), pad.Position) < 20);
    }

    [Fact]
    public void Up_and_down_in_still_air_is_a_burst_and_no_landing()
    {
        Flown flown = new Flown { Wind = new(0.2, 0.1) }.Stand(120).Climb(1500).Fall(800, 4);
        Assert.Equal([Phase.Pad, Phase.Ascent, Phase.Descent], flown.Phases);
    }

    [Fact]
    public void A_float_in_still_air_at_the_top_is_no_landing()
    {
        Flown flown = new Flown { Wind = new(0.1, 0.1) }.Stand(120).Climb(6000).Level(1200);
        Assert.Equal([Phase.Pad, Phase.Ascent, Phase.Float], flown.Phases);
    }

    [Fact]
    public void Level_flight_is_a_float_until_it_falls()
    {
        Flown flown = new Flown().Stand(60).Climb(3000).Level(600).Fall(1000);
        Assert.Equal([Phase.Pad, Phase.Ascent, Phase.Float, Phase.Descent], flown.Phases);
    }

    [Fact]
    public void A_climb_after_a_false_descent_is_an_ascent_again()
    {
        Flown flown = new Flown().Stand(60).Climb(5000).Fall(4700).Climb(7000);
        Assert.Equal([Phase.Pad, Phase.Ascent, Phase.Descent, Phase.Ascent], flown.Phases);
        Assert.Null(flown.Tracker.State().Burst);
    }

    [Fact]
    public void A_station_started_in_the_descent_knows_it_falls()
    {
        Flown flown = new Flown(12_000).Fall(10_000);
        Assert.Equal(Phase.Descent, flown.Tracker.Phase);
        Assert.Null(flown.Tracker.State().Launch);
    }

    [Fact]
    public void Carried_to_the_car_it_stays_landed_where_it_was()
    {
        Flown flown = new Flown().Stand(60).Climb(2000).Fall(100).Stand(240);
        var landed = flown.Position;
        flown.Level(120);
        Assert.Equal(Phase.Landed, flown.Tracker.Phase);
        Assert.True(Core.Earth.Geodesic.DistanceM(landed, flown.Tracker.Landed!.Value.Position) < 20);
    }
}
