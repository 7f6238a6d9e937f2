using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Plan;
using Xunit;
using static Groundstation.Core.Tests.Fixes.FlightOfFixes;

namespace Groundstation.Core.Tests.Fixes;

/// <summary>Values that repeat to the last digit: a fault in flight, the rule on the ground.</summary>
public sealed class FreezeTests
{
    [Theory]
    [InlineData(1, 3)]
    [InlineData(5, 1)]
    [InlineData(10, 1)]
    public void A_frozen_altitude_is_refused_within_seconds_and_belief_returns_when_it_thaws(double periodS, int within)
    {
        FlightOfFixes flight = Ascending(periodS: periodS);
        double frozen = Math.Round(flight.HeightM, 1);
        for (int i = 1; i <= 12; i++)
        {
            Fix fix = flight.Move().Here(Height(frozen));
            if (i >= within)
                Assert.Equal(RefusalReasons.FrozenAltitude, fix.Refused & RefusalReasons.FrozenAltitude);
        }

        flight.Fly(10);
    }

    [Fact]
    public void A_frozen_place_is_refused_and_belief_returns_when_it_thaws()
    {
        FlightOfFixes flight = Ascending();
        GeoPoint? frozen = flight.Move().Here().Position;
        for (int i = 1; i <= 12; i++)
        {
            Fix fix = flight.Move().Here(f => f with { Position = frozen });
            if (i >= 2)
                Assert.Equal(RefusalReasons.FrozenPosition, fix.Refused & RefusalReasons.FrozenPosition);
        }

        flight.Fly(10);
    }

    [Fact]
    public void Everything_frozen_in_flight_is_no_landing()
    {
        FlightOfFixes flight = Ascending();
        flight.HeightM = 1800;
        Fix last = flight.Move().Here(Height(1805));
        int believed = 0;
        for (int i = 0; i < 120; i++)
        {
            Fix fix = flight.Move().Here(f => f with { Position = last.Position, Height = last.Height });
            believed += fix.Believed ? 1 : 0;
        }

        Assert.InRange(believed, 0, 3);
    }

    [Fact]
    public void A_car_that_stops_is_not_frozen()
    {
        FlightOfFixes car = new FlightOfFixes { HeightM = 1500, EastMps = 20 }.Fly(30);
        foreach (double speed in (ReadOnlySpan<double>)[15, 10, 5, 0])
        {
            car.EastMps = speed;
            car.Fly(1);
        }

        car.Fly(90);
    }

    [Fact]
    public void On_the_pad_frozen_values_are_normal() => new FlightOfFixes().Fly(600);

    [Fact]
    public void After_the_landing_frozen_values_are_normal()
    {
        var flight = new FlightOfFixes(FlightPlan.Default with { LaunchHeight = new HeightMsl(300) })
        {
            HeightM = 2300,
            EastMps = 6,
            UpMps = -5,
        }.Fly(250);
        (flight.EastMps, flight.UpMps) = (0, 0);
        flight.Fly(600);
    }

    [Fact]
    public void At_float_a_frozen_altitude_is_normal()
    {
        FlightOfFixes flight = Ascending();
        foreach (double up in (ReadOnlySpan<double>)[4, 3, 2, 1, 0.5, 0.2])
        {
            flight.UpMps = up;
            flight.Fly(5);
        }

        flight.UpMps = 0;
        flight.Fly(600);
    }

    [Fact]
    public void Whole_metres_at_ten_a_second_repeat_all_the_time()
    {
        var flight = new FlightOfFixes(periodS: 0.1) { EastMps = 10, UpMps = 4 };
        for (int i = 0; i < 2000; i++)
        {
            Fix fix = flight.Move().Here(Height(Math.Round(flight.HeightM)));
            Assert.Equal(RefusalReasons.None, fix.Refused);
        }
    }
}
