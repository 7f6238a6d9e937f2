using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Sentences;
using Xunit;
using static Groundstation.Core.Tests.Fixes.FlightOfFixes;

namespace Groundstation.Core.Tests.Fixes;

/// <summary>Where a fix stops being believed, one step to either side of each limit.</summary>
public sealed class FixLimitTests
{
    [Theory]
    [InlineData(8.0, RefusalReasons.None)]
    [InlineData(8.1, RefusalReasons.PoorHdop)]
    public void HDOP_may_be_as_large_as_the_limit(double hdop, RefusalReasons expected) =>
        Assert.Equal(expected, new FlightOfFixes().Here(f => f with { Hdop = hdop }).Refused);

    [Theory]
    [InlineData(4, RefusalReasons.None)]
    [InlineData(3, RefusalReasons.FewSatellites)]
    public void Four_satellites_are_enough(int used, RefusalReasons expected) =>
        Assert.Equal(expected, new FlightOfFixes().Here(f => f with { SatellitesUsed = used }).Refused);

    [Theory]
    [InlineData(-500, RefusalReasons.None)]
    [InlineData(-501, RefusalReasons.OutOfRange)]
    [InlineData(60_000, RefusalReasons.None)]
    [InlineData(60_001, RefusalReasons.OutOfRange)]
    public void Heights_are_those_that_balloons_reach(double metres, RefusalReasons expected) =>
        Assert.Equal(expected, new FlightOfFixes().Here(Height(metres)).Refused);

    [Theory]
    [InlineData(250, RefusalReasons.None)]
    [InlineData(251, RefusalReasons.OutOfRange)]
    public void Speeds_are_those_that_winds_have(double mps, RefusalReasons expected) =>
        Assert.Equal(expected, new FlightOfFixes().Here(f => f with { SpeedMps = mps }).Refused);

    // 0.008° are 890 m, 0.02° are 2.2 km: a launch off that coast is a launch.
    [Theory]
    [InlineData(0.008, RefusalReasons.NullIsland)]
    [InlineData(0.02, RefusalReasons.None)]
    public void Null_island_is_a_kilometre_wide(double degrees, RefusalReasons expected) => Assert.Equal(expected,
        new FlightOfFixes().Here(f => f with { Position = new GeoPoint(degrees, 0) }).Refused);

    [Theory]
    [InlineData(90, false)]
    [InlineData(150, true)]
    public void Altitude_zero_is_doubted_from_a_hundred_metres_up(double beforeM, bool doubted)
    {
        FlightOfFixes flight = new FlightOfFixes { HeightM = beforeM }.Fly(30);
        Assert.Equal(doubted, flight.Move().Here(Height(0)).Refused.HasFlag(RefusalReasons.ZeroAltitude));
    }

    // 0.05′ of latitude are 93 m, 0.08′ are 148 m.
    [Theory]
    [InlineData("5213.17345", RefusalReasons.None)]
    [InlineData("5213.20345", RefusalReasons.SentencesDisagree)]
    public void Sentences_of_an_epoch_may_lie_a_hundred_metres_apart(string latitude, RefusalReasons expected) =>
        Assert.Equal(expected,
            new Wire().Hear(Wire.Gga("090000"), Wire.Rmc("090000", latitude: latitude)).Wait(2).Last.Refused);

    [Theory]
    [InlineData("A", 5.0)]
    [InlineData("N", null)]
    [InlineData("E", null)]
    public void A_VTG_that_is_not_measured_tells_no_speed(string mode, double? knots)
    {
        Fix fix = new Wire().Hear(Wire.Gga("090000"), $"GPVTG,90.0,T,,M,5.0,N,9.3,K,{mode}").Wait(2).Last;
        Assert.Equal(knots, fix.SpeedMps is { } mps ? Math.Round(mps * 3600 / 1852, 6) : null);
    }

    [Theory]
    [InlineData(29, RefusalReasons.None)]
    [InlineData(35, RefusalReasons.TimeJump)]
    public void A_link_may_have_held_fixes_back_for_half_a_minute(double aheadS, RefusalReasons expected)
    {
        FlightOfFixes flight = Ascending();
        Fix fix = flight.Move().Here(f => f with
        {
            Utc = f.Utc.PlusSeconds(aheadS),
            Height = new HeightMsl(f.Height!.Value.Metres + 5 * aheadS),
            Position = f.Position!.Value with { LongitudeDeg = f.Position.Value.LongitudeDeg + 10 * aheadS / 68_460 },
        });
        Assert.Equal(expected, fix.Refused);
    }

    [Fact]
    public void At_ten_hertz_too_a_slip_must_last_half_a_minute_before_it_is_believed()
    {
        FlightOfFixes flight = Ascending(periodS: 0.1);
        List<double> believed = [];
        for (int i = 0; i < 320; i++)
            if (flight.Move().Here(North(20_000)).Believed) believed.Add(i * 0.1);
        Assert.InRange(believed[0], 29.9, 30.2);
    }

    // What was believed before a slip is gone back to at once within a minute; later it must prove itself like any other.
    [Theory]
    [InlineData(40, true)]
    [InlineData(70, false)]
    public void A_place_given_up_is_remembered_for_a_minute(int slippedS, bool believed)
    {
        FlightOfFixes flight = Ascending();
        bool followed = false;
        for (int s = 0; s < slippedS; s++) followed = flight.Move().Here(North(20_000)).Believed;
        Assert.True(followed);
        Assert.Equal(believed, flight.Move().Here().Believed);
    }

    // In whole metres at 1 Hz a flight comes through the height it had a second ago just after a burst.
    [Fact]
    public void The_same_height_a_second_after_a_burst_is_no_frozen_one()
    {
        var flight = new FlightOfFixes { HeightM = 20_000, UpMps = 5, EastMps = 10 };
        for (int i = 0; i < 60; i++) Assert.True(flight.Move().Here(Height(Math.Round(flight.HeightM))).Believed);
        flight.UpMps = 0;
        Assert.Equal(RefusalReasons.None, flight.Move().Here(Height(Math.Round(flight.HeightM))).Refused);
    }

    // At 1 km the tolerance is half a kilometre, a twentieth of the height and what 2 hPa are worth: 567 m.
    [Theory]
    [InlineData(500, RefusalReasons.None)]
    [InlineData(700, RefusalReasons.AgainstPressure)]
    public void Near_the_ground_height_and_pressure_agree_within_half_a_kilometre(double offM, RefusalReasons expected)
    {
        var flight = new FlightOfFixes { HeightM = 1000 };
        Assert.Equal(expected, Heard(flight, 1000 - offM).Here().Refused);
    }

    [Theory]
    [InlineData(9, RefusalReasons.AgainstPressure)]
    [InlineData(11, RefusalReasons.None)]
    public void An_old_pressure_says_nothing(double ageS, RefusalReasons expected)
    {
        var flight = new FlightOfFixes { HeightM = 8000 };
        Heard(flight, 4000);
        flight.At += ageS;
        Assert.Equal(expected, flight.Here().Refused);
    }

    [Fact]
    public void A_sensor_that_lost_its_say_must_agree_five_times_before_it_is_heard_again()
    {
        var flight = new FlightOfFixes { HeightM = 8000, UpMps = 5, EastMps = 10 };
        for (int i = 0; i < 200; i++) Heard(flight.Move(), flight.HeightM - 4000).Here();
        for (int i = 0; i < 4; i++) Assert.True(Heard(flight.Move(), flight.HeightM).Here().Believed);
        Assert.True(Heard(flight.Move(), flight.HeightM - 4000).Here().Believed);
        for (int i = 0; i < 6; i++) Assert.True(Heard(flight.Move(), flight.HeightM).Here().Believed);
        Assert.Equal(RefusalReasons.AgainstPressure, Heard(flight.Move(), flight.HeightM - 4000).Here().Refused);
    }

    private static FlightOfFixes Heard(FlightOfFixes flight, double pressureOfM)
    {
        flight.Telemetry = Telemetry.None with
        {
            PressurePa = StandardAtmosphere.PressurePa(pressureOfM),
            PressureHeard = Start.PlusSeconds(flight.At),
        };
        return flight;
    }
}
