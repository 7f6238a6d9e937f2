using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Simulation;
using Xunit;

namespace Groundstation.Core.Tests.Simulation;

public class TrueFlightTests
{
    [Fact]
    public void Drift_is_the_integral_of_the_wind_that_the_truth_shows()
    {
        GeoPoint reached = Flights.Rough.LaunchSite;
        TrueFlight flight = new(Flights.Rough);
        TrueState before = flight.Now;
        while (flight.Landing is null)
        {
            flight.Advance(0.1);
            TrueState now = flight.Now;
            if (now.Phase is Phase.Ascent or Phase.Descent && before.Phase is Phase.Ascent or Phase.Descent)
            {
                reached = LocalFrame.Move(reached, (before.Wind.EastMps + now.Wind.EastMps) * 0.05,
                    (before.Wind.NorthMps + now.Wind.NorthMps) * 0.05, now.Height.Metres);
            }

            before = now;
        }

        double drift = Geodesic.DistanceM(Flights.Rough.LaunchSite, flight.Landing.Value.Position);
        Assert.True(drift > 10_000, $"drifted {drift} m only");
        // The first and last step are not in the sum.
        Assert.True(Geodesic.DistanceM(reached, flight.Landing.Value.Position) < 3);
    }

    [Fact]
    public void Climbs_at_its_rate_and_bursts_at_its_height()
    {
        TrueFlight flight = new(Flights.Plain);
        flight.Advance(30 + 600);
        Assert.Equal(500 + 600 * 5, flight.Now.Height.Metres, 10.0);
        flight.FlyToGround();
        Assert.Equal(8000, flight.Burst!.Value.Height.Metres, 1.0);
        Assert.Equal(1500, flight.Burst.Value.TimeS, 2.0);
    }

    [Fact]
    public void Ascent_exponent_makes_it_faster_aloft_as_the_density_falls()
    {
        Scenario scenario = Flights.Plain with
        {
            Balloon = new() { AscentExponent = 1 / 6.0, BurstHeight = new(20_000) },
        };
        TrueFlight flight = new(scenario);
        while (flight.Now.Height.Metres < 18_000)
            flight.Advance(1);
        double expected = 5 * Math.Pow(1.225 / StandardAtmosphere.DensityKgM3(18_000), 1 / 6.0);
        Assert.Equal(expected, flight.Now.VerticalRateMps, 0.02);
    }

    [Fact]
    public void Ground_speed_of_landing_is_terminal_speed_there()
    {
        TrueState landing = new TrueFlight(Flights.Plain).FlyToGround();
        double expected = Flights.Plain.Parachute.SeaLevelRateMps * StandardAtmosphere.Table.FallFactor(420);
        Assert.Equal(-expected, landing.VerticalRateMps, 0.005);
        Assert.Equal(420, landing.Height.Metres);
    }

    [Fact]
    public void Warm_air_at_the_ground_lets_it_fall_faster_there()
    {
        TrueState warm = new TrueFlight(Flights.Plain with { Air = new() { TemperatureOffsetK = 8 } }).FlyToGround();
        TrueState cold = new TrueFlight(Flights.Plain with { Air = new() { TemperatureOffsetK = -8 } }).FlyToGround();
        Assert.Equal(Math.Sqrt(296.15 / 280.15), warm.VerticalRateMps / cold.VerticalRateMps, 0.003);
    }

    [Fact]
    public void A_tangled_canopy_falls_faster_from_its_height_on()
    {
        Scenario scenario = Flights.Plain with
        {
            Parachute = new() { TangledHeight = new(4000), TangledShare = 0.25 },
        };
        TrueFlight flight = new(scenario);
        double above = 0;
        while (flight.Now.Phase != Phase.Descent || flight.Now.Height.Metres > 4100)
        {
            flight.Advance(1);
            above = flight.Now.VerticalRateMps;
        }

        flight.Advance(60);
        double ratio = flight.Now.VerticalRateMps / above
            * StandardAtmosphere.Table.FallFactor(4050) / StandardAtmosphere.Table.FallFactor(flight.Now.Height.Metres);
        Assert.Equal(2, ratio, 0.03);
    }

    [Fact]
    public void Floats_at_its_height_then_is_let_go()
    {
        Scenario scenario = Flights.Plain with
        {
            Balloon = new() { FloatHeight = new(6000), FloatS = 900, BurstHeight = new(30_000) },
        };
        TrueFlight flight = new(scenario);
        double floated = 0;
        while (flight.Landing is null)
        {
            flight.Advance(1);
            floated += flight.Now.Phase == Phase.Float ? 1 : 0;
        }

        Assert.Equal(900, floated, 2.0);
        Assert.InRange(flight.Burst!.Value.Height.Metres, 5960, 6040);
    }

    [Fact]
    public void A_leaking_balloon_slows_turns_and_comes_down_slower_than_under_the_canopy_alone()
    {
        Scenario scenario = Flights.Plain with
        {
            Balloon = new() { LeakHeight = new(3000), LeakMpsPerMin = 0.5, BurstHeight = new(30_000) },
        };
        TrueFlight flight = new(scenario);
        TrueState landing = flight.FlyToGround();
        Assert.InRange(flight.Burst!.Value.Height.Metres, 4000, 5000);
        Assert.InRange(-landing.VerticalRateMps, 3, Flights.Plain.Parachute.SeaLevelRateMps * 1.05);
    }

    [Fact]
    public void The_line_is_cut_when_said()
    {
        TrueFlight flight = new(Flights.Plain with { Balloon = new() { CutDownS = 300 } });
        flight.FlyToGround();
        Assert.Equal(300, flight.Burst!.Value.TimeS, 0.11);
        Assert.Equal(500 + 1500, flight.Burst.Value.Height.Metres, 10.0);
    }

    [Fact]
    public void A_hill_higher_than_the_pad_does_not_end_the_ascent()
    {
        TrueState landing = new TrueFlight(Flights.Plain with { LandingGround = new(1500) }).FlyToGround();
        Assert.Equal(1500, landing.Height.Metres);
        Assert.True(landing.TimeS > 1500);
    }
}
