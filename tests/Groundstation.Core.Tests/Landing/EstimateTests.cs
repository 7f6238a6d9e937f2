using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Tests.Flight;
using Xunit;

namespace Groundstation.Core.Tests.Landing;

public class EstimateTests
{
    private readonly LandingEstimator _estimator = new(FlightPlan.Default);

    [Fact]
    public void Areas_shrink_as_the_flight_comes_down_and_the_place_is_right_in_a_steady_wind()
    {
        Flown flown = new Flown().Stand(60).Climb(12_000);
        LandingEstimate up = Estimate(flown);
        LandingEstimate high = Estimate(flown.Fall(9000)), low = Estimate(flown.Fall(2000));
        Assert.True(up.Area95.AreaM2 > high.Area95.AreaM2 && high.Area95.AreaM2 > low.Area95.AreaM2);
        Assert.True(low.Area50.AreaM2 < low.Area95.AreaM2);
        flown.Fall(100);
        Assert.True(Geodesic.DistanceM(low.Position, flown.Position) < 150);
        Assert.True(Geodesic.DistanceM(high.Position, flown.Position) < 600);
    }

    [Fact]
    public void In_silence_the_place_stays_and_the_phase_follows_the_model()
    {
        Flown flown = new Flown().Stand(60).Climb(12_000).Fall(6000);
        LandingEstimate heard = Estimate(flown);
        LandingEstimate later = Estimate(flown, 300, true);
        Assert.Equal(heard.Position, later.Position);
        Assert.Equal(heard.Area95, later.Area95);
        Assert.Equal((LandingMethod.Silent, Phase.Descent, 300.0), (later.Method, later.Phase, later.HeardAgeS));
        Assert.True(later.Altitude.Metres < heard.Altitude.Metres - 1500);
        LandingEstimate down = Estimate(flown, 7200, true);
        Assert.Equal(Phase.Landed, down.Phase);
        Assert.Equal(down.Ground.Metres, down.Altitude.Metres, 1.0);
    }

    [Fact]
    public void Silent_above_its_altitude_limit_it_says_when_it_will_be_heard_again()
    {
        Flown flown = new Flown().Stand(60).Climb(18_000);
        LandingEstimate silent = _estimator.Estimate(flown.Tracker, flown.Utc.PlusSeconds(600), true, new HeightMsl(18_000))!;
        Assert.Equal(Phase.Ascent, silent.Phase);
        // 12 km more at 5 m/s, then down again at 20 to 40 m/s.
        Assert.InRange(silent.HearAgainUtc!.Value.SecondsSince(flown.Utc), 2500, 3300);
        Assert.True(silent.HearAgainUtc < silent.LandingUtc);
    }

    [Fact]
    public void A_balloon_that_leaks_comes_down_faster_and_faster_until_the_canopy_carries_alone()
    {
        // Without a burst: 0.5 m/s more each minute, to the plan's 5 m/s.
        Flown flown = new Flown { Wind = new(10, 0) }.Stand(60).Climb(6000).Level(120);
        var told = new List<(double AtS, LandingEstimate Estimate)>();
        double began = flown.TimeS;
        while (flown.HeightM > 150)
        {
            double mps = Math.Min(0.5 + (flown.TimeS - began) / 120, 5);
            flown.Fall(Math.Max(flown.HeightM - 10 * mps, 150), mps);
            told.Add((flown.TimeS - began, Estimate(flown)));
        }

        foreach ((double at, LandingEstimate estimate) in told.Where(t => t.AtS > 180))
        {
            GeodesicLine off = Geodesic.Inverse(estimate.Position, flown.Position);
            Assert.True(off.DistanceM < estimate.Area95.MajorM, $"{at} s: {off.DistanceM} m off, {estimate.Area95}");
            double left = flown.Utc.SecondsSince(estimate.Utc);
            Assert.InRange(estimate.LandingUtc.SecondsSince(flown.Utc), -0.35 * left - 30, 0.35 * left + 30);
        }
    }

    [Theory]
    [InlineData(60)]
    [InlineData(1200)]
    [InlineData(2700)]
    public void A_float_may_end_at_any_time_and_the_area_holds_the_landing(double moreS)
    {
        Flown flown = new Flown().Stand(60).Climb(6000).Level(360);
        LandingEstimate floating = Estimate(flown), silent = Estimate(flown, 900, true);
        Assert.Equal((LandingMethod.Float, Phase.Float), (floating.Method, floating.Phase));
        Assert.Equal((LandingMethod.Silent, Phase.Float, floating.Position), (silent.Method, silent.Phase, silent.Position));
        Assert.StartsWith("how long it floats", floating.Causes.ToString());
        flown.Level(moreS).Fall(100);
        Assert.True(Holds(floating, flown.Position), $"{floating.Position} {floating.Area95}");
    }

    [Fact]
    public void The_longer_a_float_has_gone_on_the_longer_it_may_yet()
    {
        Flown flown = new Flown().Stand(60).Climb(6000).Level(360);
        LandingEstimate soon = Estimate(flown), later = Estimate(flown.Level(3600));
        Assert.True(later.Area95.MajorM > 1.5 * soon.Area95.MajorM, $"{soon.Area95} {later.Area95}");
        Assert.True(later.LandingUtc.SecondsSince(later.Utc) > soon.LandingUtc.SecondsSince(soon.Utc) + 1800);
    }

    [Fact]
    public void Standing_again_it_is_where_it_stands()
    {
        Flown flown = new Flown().Stand(60).Climb(3000).Fall(100).Stand(300);
        LandingEstimate landed = Estimate(flown);
        Assert.Equal((LandingMethod.Landed, Phase.Landed), (landed.Method, landed.Phase));
        Assert.True(Geodesic.DistanceM(landed.Position, flown.Position) < 5);
        Assert.InRange(landed.Area95.MajorM, 3, 20);
    }

    [Fact]
    public void Lost_close_to_the_ground_the_area_is_no_smaller_than_what_receivers_know()
    {
        Flown flown = new Flown { Wind = new(0.5, 0) }.Stand(60).Climb(3000).Fall(130);
        LandingEstimate lost = Estimate(flown, 60, true);
        Assert.True(lost.Area95.MinorM > 5, $"{lost.Area95}");
        Assert.True(lost.Ground.Metres < 130);
    }

    [Fact]
    public void The_same_fixes_and_seed_give_the_same_estimates()
    {
        static string Run()
        {
            Flown flown = new Flown().Stand(60);
            var estimator = new LandingEstimator(FlightPlan.Default);
            var said = new System.Text.StringBuilder();
            foreach (double up in (double[])[2000, 9000]) said.Append(Say(estimator, flown.Climb(up)));
            foreach (double down in (double[])[7000, 3000, 500]) said.Append(Say(estimator, flown.Fall(down)));
            return said.ToString();
        }
        static string Say(LandingEstimator estimator, Flown flown)
        {
            LandingEstimate e = estimator.Estimate(flown.Tracker, flown.Utc, false, null)!;
            return $"{e.Position} {e.LandingUtc} {e.Area50} {e.Area95} {e.Causes} {string.Join(' ', e.Cloud)}\n";
        }
        Assert.Equal(Run(), Run());
    }

    private static bool Holds(LandingEstimate estimate, GeoPoint truth)
    {
        GeodesicLine off = Geodesic.Inverse(estimate.Position, truth);
        (double sin, double cos) = Math.SinCos((off.AzimuthDeg - estimate.Area95.AzimuthDeg) * Math.PI / 180);
        return double.Hypot(off.DistanceM * cos / estimate.Area95.MajorM, off.DistanceM * sin / estimate.Area95.MinorM) < 1;
    }

    private LandingEstimate Estimate(Flown flown, double laterS = 0, bool silent = false) =>
        _estimator.Estimate(flown.Tracker, flown.Utc.PlusSeconds(laterS), silent, null)!;
}
