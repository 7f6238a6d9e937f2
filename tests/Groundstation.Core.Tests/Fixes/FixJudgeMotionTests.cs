using Groundstation.Core.Air;
using Groundstation.Core.Fixes;
using Xunit;
using static Groundstation.Core.Tests.Fixes.FlightOfFixes;

namespace Groundstation.Core.Tests.Fixes;

/// <summary>What a flight can and cannot do between two fixes.</summary>
public sealed class FixJudgeMotionTests
{
    [Fact]
    public void A_slip_to_the_side_is_refused_with_its_figures_and_leaves_no_trace()
    {
        FlightOfFixes flight = Ascending();
        Fix slip = flight.Move().Here(North(12_400));
        Assert.Equal(RefusalReasons.HorizontalJump, slip.Refused);
        Assert.Matches(@"^12\.4 km from where it should be, gate \d+ m$", slip.Detail.ToString());
        flight.Fly(10);
    }

    [Theory]
    [InlineData(0.1, 1500)]
    [InlineData(0.2, 500)]
    [InlineData(1, 150)]
    [InlineData(5, 100)]
    [InlineData(20, 100)]
    public void The_gate_is_tight_at_every_rate(double hz, double metres)
    {
        FlightOfFixes flight = Ascending(periodS: 1 / hz);
        Assert.Equal(RefusalReasons.HorizontalJump, flight.Move().Here(North(metres)).Refused);
        flight.Fly(1);
        Assert.Equal(RefusalReasons.HorizontalJump, flight.Move().Here(North(-metres)).Refused);
        flight.Fly(3);
    }

    // hostile.tsv altitude-lost-mid-flight: a real logger wrote 9203.8, 0.0, 9248.4, and later a UTC as altitude.
    [Fact]
    public void An_altitude_lost_for_one_fix_is_neither_burst_nor_landing()
    {
        FlightOfFixes flight = Ascending();
        Fix zero = flight.Move().Here(Height(0));
        Assert.Equal(RefusalReasons.VerticalJump | RefusalReasons.ZeroAltitude, zero.Refused);
        Assert.Contains("lower than it should be", zero.Detail.ToString(), StringComparison.Ordinal);
        flight.Fly(1);
        Fix utc = flight.Move().Here(Height(135_834));
        Assert.Equal(RefusalReasons.VerticalJump | RefusalReasons.OutOfRange, utc.Refused);
        flight.Fly(5);
    }

    [Theory]
    [InlineData(0.1, 5)]
    [InlineData(0.2, 5)]
    [InlineData(1, 5)]
    [InlineData(20, 5)]
    [InlineData(0.2, 30)] // no canopy: a box of 30 m/s at sea level
    [InlineData(1, 30)]
    public void A_burst_and_the_fall_after_it_are_believed_in_every_fix(double hz, double seaLevelMps)
    {
        double up = 5;
        var flight = new FlightOfFixes(periodS: 1 / hz) { EastMps = 10, UpMps = 5, HeightM = 32_000 };
        flight.Fly((int)(60 * hz));
        flight.UpMps = 0;
        double drag = 9.81 / (seaLevelMps * seaLevelMps * 1.225);
        while (flight.HeightM > 500)
        {
            for (double t = 0; t < 1 / hz - 1e-9; t += 0.05)
            {
                up += (-9.81 + drag * StandardAtmosphere.DensityKgM3(flight.HeightM) * up * up) * 0.05;
                flight.HeightM += up * 0.05;
            }

            flight.Fly(1);
        }
    }

    // 70 m/s of wind within 2 km, crossed at 45 m/s just after a burst: 1.6 m/s².
    [Fact]
    public void Jet_stream_shear_in_the_descent_is_believed()
    {
        var flight = new FlightOfFixes(periodS: 5) { EastMps = 75, UpMps = -45, HeightM = 14_000 };
        flight.Fly(10);
        for (int i = 0; i < 9; i++)
        {
            flight.EastMps -= 8;
            flight.Fly(1);
        }
    }

    [Fact]
    public void A_launch_into_the_wind_is_believed()
    {
        var flight = new FlightOfFixes().Fly(120);
        (flight.EastMps, flight.UpMps) = (18, 6);
        flight.Fly(30);
    }

    [Theory]
    [InlineData(60)]
    [InlineData(600)]
    [InlineData(3600)]
    public void After_a_gap_the_first_fix_is_believed(double gapS)
    {
        FlightOfFixes flight = Ascending();
        flight.At += gapS;
        flight.EastM += 25 * gapS;
        flight.HeightM += 3 * Math.Min(gapS, 1000);
        (flight.EastMps, flight.UpMps) = (25, -6);
        Assert.True(flight.Here().Believed);
        flight.Fly(20);
    }

    // A receiver that regains its satellites puts its place right: the farther off, the longer it must stay with it.
    [Theory]
    [InlineData(120, 8)]
    [InlineData(250, 20)]
    [InlineData(20_000, 30)]
    public void Another_place_held_without_a_gap_is_believed_after_a_time_that_grows_with_the_step(double metres, int atMost)
    {
        FlightOfFixes flight = Ascending();
        flight.NorthM += metres;
        Assert.Equal(RefusalReasons.HorizontalJump, flight.Move().Here().Refused);
        int refused = 1;
        for (Fix fix; !(fix = flight.Move().Here()).Believed; refused++)
            Assert.Equal(RefusalReasons.HorizontalJump, fix.Refused);
        Assert.InRange(refused, 2, atMost + 1);
        flight.Fly(20);
    }

    [Theory]
    [InlineData(0.2, 0, 5000)]
    [InlineData(0.2, 20_000, 0)]
    [InlineData(1, 500, 0)]
    [InlineData(1, 0, -5000)]
    public void A_wrong_stretch_of_twenty_seconds_is_never_believed(double periodS, double north, double up)
    {
        FlightOfFixes flight = Ascending(periodS: periodS);
        for (double t = 0; t < 20; t += periodS)
            Assert.False(flight.Move().Here(f => North(north)(f) with { Height = new(f.Height!.Value.Metres + up) }).Believed);
        flight.Fly(20);
    }

    [Fact]
    public void What_jumped_is_told_with_how_long_it_must_last()
    {
        FlightOfFixes flight = Ascending();
        flight.NorthM += 20_000;
        for (int i = 0; i < 9; i++) flight.Move().Here();
        Assert.Matches(@"^jumped 9\.0 s ago, 19\.9 km farther than a flight can; believed if it lasts 30 s$",
            flight.Move().Here().Detail.ToString());
    }

    [Fact]
    public void After_a_minute_without_a_believed_fix_three_that_agree_are_enough()
    {
        FlightOfFixes flight = Ascending();
        flight.At += 61;
        flight.NorthM += 60_000;
        for (int i = 0; i < 3; i++) Assert.Equal(RefusalReasons.HorizontalJump, flight.Move().Here().Refused);
        Assert.True(flight.Move().Here().StartsAnew);
        Assert.False(flight.Move().Here().StartsAnew);
        flight.Fly(20);
    }

    [Fact]
    public void A_wrong_stretch_long_enough_to_be_believed_costs_no_good_fix_after_it()
    {
        FlightOfFixes flight = Ascending();
        for (int i = 0; i < 40; i++)
            Assert.Equal(i >= 30, flight.Move().Here(North(20_000)).Believed);
        Fix back = flight.Move().Here();
        Assert.True(back is { Believed: true, StartsAnew: true });
        flight.Fly(20);
    }

    [Fact]
    public void A_fix_without_altitude_does_not_hide_the_way_back_from_a_wrong_stretch()
    {
        FlightOfFixes flight = Ascending();
        for (int i = 0; i < 40; i++) flight.Move().Here(North(20_000));
        Assert.Equal(RefusalReasons.NoAltitude, flight.Move().Here(f => f with { Height = null }).Refused);
        Assert.True(flight.Move().Here() is { Believed: true, StartsAnew: true });
        Assert.True(flight.Move().Here() is { Believed: true, StartsAnew: false });
    }

    [Fact]
    public void Slips_that_alternate_with_good_fixes_never_take_over()
    {
        FlightOfFixes flight = Ascending();
        for (int i = 0; i < 20; i++)
        {
            Assert.False(flight.Move().Here(North(3000)).Believed);
            flight.Fly(1);
        }
    }

    [Fact]
    public void Slips_that_disagree_with_each_other_never_take_over()
    {
        FlightOfFixes flight = Ascending();
        for (int i = 1; i <= 20; i++)
            Assert.False(flight.Move().Here(North(i % 2 == 0 ? 3000 + 100 * i : -4000)).Believed);
        flight.Fly(5);
    }

    [Fact]
    public void A_wrong_first_fix_costs_one_good_fix_only()
    {
        var flight = new FlightOfFixes { EastMps = 10, UpMps = 5 };
        Assert.True(flight.Here(North(50_000)).Believed);
        Assert.False(flight.Move().Here().Believed);
        flight.Fly(10);
    }

    [Fact]
    public void A_slip_small_enough_to_be_believed_does_not_turn_the_next_good_fix_away()
    {
        FlightOfFixes flight = Ascending(periodS: 5);
        Assert.True(flight.Move().Here(North(240)).Believed);
        flight.Fly(10);
    }
}
