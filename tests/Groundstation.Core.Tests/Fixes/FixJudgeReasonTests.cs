using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Plan;
using Groundstation.Core.Sentences;
using Xunit;
using static Groundstation.Core.Tests.Fixes.FlightOfFixes;

namespace Groundstation.Core.Tests.Fixes;

/// <summary>Each reason for refusal, and that it does not fire where it must not.</summary>
public sealed class FixJudgeReasonTests
{
    [Fact]
    public void Every_reason_that_applies_is_given()
    {
        FlightOfFixes flight = Ascending();
        Fix fix = flight.Move().Here(f => f with
        {
            Position = new GeoPoint(0.001, -0.001),
            Height = new HeightMsl(0),
            SatellitesUsed = 3,
            Hdop = 12,
            SpeedMps = 300,
        });
        Assert.Equal(RefusalReasons.NullIsland | RefusalReasons.ZeroAltitude | RefusalReasons.FewSatellites
            | RefusalReasons.PoorHdop | RefusalReasons.OutOfRange | RefusalReasons.HorizontalJump
            | RefusalReasons.VerticalJump, fix.Refused);
        Assert.Contains("3 satellites, 4 asked", fix.Detail.ToString(), StringComparison.Ordinal);
        Assert.Contains("HDOP 12.0, limit 8.0", fix.Detail.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(FixQuality.Invalid, RefusalReasons.NoFix)]
    [InlineData(FixQuality.Estimated, RefusalReasons.NotMeasured)]
    [InlineData(FixQuality.Manual, RefusalReasons.NotMeasured)]
    [InlineData(FixQuality.Simulator, RefusalReasons.NotMeasured)]
    [InlineData(FixQuality.Differential, RefusalReasons.None)]
    [InlineData(FixQuality.RtkFloat, RefusalReasons.None)]
    public void Quality_decides(FixQuality quality, RefusalReasons expected) =>
        Assert.Equal(expected, Ascending().Move().Here(f => f with { Quality = quality }).Refused);

    [Fact]
    public void Limits_come_from_the_plan()
    {
        var plan = FlightPlan.Default with { Belief = new BeliefLimits(MinSatellites: 11, MaxHdop: 0.8) };
        Assert.Equal(RefusalReasons.FewSatellites | RefusalReasons.PoorHdop, new FlightOfFixes(plan).Here().Refused);
    }

    [Fact]
    public void Without_altitude_or_in_two_dimensions_a_fix_cannot_drive_the_flight()
    {
        FlightOfFixes flight = Ascending();
        Assert.Equal(RefusalReasons.NoAltitude, flight.Move().Here(f => f with { Height = null }).Refused);
        Assert.Equal(RefusalReasons.NoAltitude,
            flight.Move().Here(f => f with { Dimension = FixDimension.TwoD }).Refused);
        Assert.Equal(RefusalReasons.NoPosition, flight.Move().Here(f => f with { Position = null }).Refused);
        flight.Fly(3);
    }

    [Fact]
    public void The_same_epoch_again_is_a_duplicate_and_the_same_UTC_with_another_place_is_frozen()
    {
        FlightOfFixes flight = Ascending();
        Assert.Equal(RefusalReasons.Duplicate, flight.Here().Refused);
        flight.EastM += 10;
        Assert.Equal(RefusalReasons.FrozenUtc, flight.Here().Refused);
        flight.EastM -= 10;
        flight.Fly(3);
    }

    [Fact]
    public void One_old_fix_is_refused_but_a_clock_set_back_is_followed()
    {
        FlightOfFixes flight = Ascending();
        Fix old = flight.Move().Here(f => f with { Utc = f.Utc.PlusSeconds(-20) });
        Assert.Equal(RefusalReasons.TimeBackwards, old.Refused);
        Assert.Contains("19.0 s before", old.Detail.ToString(), StringComparison.Ordinal);
        flight.Fly(3);
        // The leap seconds' number arrives up to 12.5 minutes after a cold start: UTC steps back by 3 s.
        for (int i = 0; i < 3; i++)
            Assert.False(flight.Move().Here(f => f with { Utc = f.Utc.PlusSeconds(-7) }).Believed);
        Assert.True(flight.Move().Here(f => f with { Utc = f.Utc.PlusSeconds(-7) }).Believed);
    }

    [Fact]
    public void A_UTC_an_hour_ahead_does_not_make_all_later_fixes_old()
    {
        FlightOfFixes flight = Ascending();
        Fix ahead = flight.Move().Here(f => f with { Utc = f.Utc.PlusSeconds(3600) });
        Assert.Equal(RefusalReasons.TimeJump, ahead.Refused);
        flight.Fly(3);
    }

    [Fact]
    public void Altitude_zero_is_an_altitude_at_a_launch_by_the_sea()
    {
        var flight = new FlightOfFixes { HeightM = 0.2 }.Fly(30);
        Assert.True(flight.Move().Here(Height(0)).Believed);
        Assert.True(flight.Move().Here(Height(-1.5)).Believed);
    }

    [Fact]
    public void Null_island_is_refused_even_as_the_first_fix() => Assert.Equal(RefusalReasons.NullIsland,
        new FlightOfFixes().Here(f => f with { Position = new GeoPoint(0, 0) }).Refused);

    [Theory]
    [InlineData(1000, 0.0)]
    [InlineData(20_000, 0.0)]
    [InlineData(29_500, -0.08)] // polar winter: the 10 hPa level lies 2.5 km lower than in the 1976 atmosphere
    [InlineData(29_500, 0.03)]
    public void Real_atmospheres_agree_with_the_altitude(double heightM, double deviation)
    {
        var flight = new FlightOfFixes { HeightM = heightM, UpMps = 5, EastMps = 10 };
        for (int i = 0; i < 60; i++)
        {
            flight.Move();
            Pressure(flight, StandardAtmosphere.PressurePa(flight.HeightM * (1 - deviation)));
            Assert.Equal(RefusalReasons.None, flight.Here().Refused);
        }
    }

    [Fact]
    public void An_altitude_kilometres_from_the_pressure_is_refused()
    {
        var flight = new FlightOfFixes { HeightM = 8000, UpMps = 5, EastMps = 10 };
        Pressure(flight, StandardAtmosphere.PressurePa(5000));
        Fix fix = flight.Here();
        Assert.Equal(RefusalReasons.AgainstPressure, fix.Refused);
        Assert.Contains("+3.0 km from the 5.0 km that 540.5 hPa says", fix.Detail.ToString(), StringComparison.Ordinal);
    }

    // Cheap sensors end at 300 or 10 hPa and repeat that value from there on.
    [Theory]
    [InlineData(30_000, 7_000)]
    [InlineData(1_000, 26_000)]
    public void A_sensor_at_the_end_of_its_range_refuses_nothing(double endPa, double fromM)
    {
        var flight = new FlightOfFixes(periodS: 5) { HeightM = fromM, UpMps = 5, EastMps = 10 };
        for (int i = 0; i < 400; i++)
        {
            flight.Move();
            Pressure(flight, Math.Max(endPa, StandardAtmosphere.PressurePa(flight.HeightM)));
            Assert.Equal(RefusalReasons.None, flight.Here().Refused);
        }
    }

    [Fact]
    public void A_sensor_that_contradicts_a_consistent_track_loses_its_say_after_a_minute()
    {
        var flight = new FlightOfFixes { HeightM = 8000, UpMps = 5, EastMps = 10 };
        int refused = 0;
        for (int i = 0; i < 300; i++)
        {
            flight.Move();
            Pressure(flight, StandardAtmosphere.PressurePa(flight.HeightM - 4000));
            refused += flight.Here().Believed ? 0 : 1;
        }

        Assert.InRange(refused, 30, 70);
    }

    private static void Pressure(FlightOfFixes flight, double pa) => flight.Telemetry = Telemetry.None with
    {
        PressurePa = pa,
        PressureHeard = Start.PlusSeconds(flight.At),
    };
}
