using Groundstation.Core.Air;
using Groundstation.Core.Chase;
using Groundstation.Core.Earth;
using Groundstation.Core.Fill;
using Groundstation.Core.Plan;
using Groundstation.Core.Plan.Rules;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests.Plan;

/// <summary>Where a rule, a doubt or a choice turns, one step to either side.</summary>
public class PlanLimitTests
{
    private static readonly Instant Noon = Instant.FromUtc(new(2027, 2, 15), TimeSpan.FromHours(12));

    [Theory]
    [InlineData(1, false)]
    [InlineData(2, true)]
    public void Twelve_pounds_together_are_a_limit_for_two_packages_or_more(int packages, bool passed) =>
        Assert.Equal(passed, UsRules.Of(new Payload(6, packages, 2, 1, 100)).Passed
            .Any(p => p.Paragraph == "101.1(a)(4)(iii)"));

    // 2.5 kg on 192.5 cm² are 129.9 kg/m², on 191 cm² 130.9: 13 g a square centimetre is the limit.
    [Theory]
    [InlineData(0.01925, BalloonClass.Light)]
    [InlineData(0.0191, BalloonClass.Heavy)]
    public void A_dense_package_makes_a_balloon_heavy(double faceM2, BalloonClass expected) =>
        Assert.Equal(expected, IcaoRules.Of(new Payload(2.5, 1, 2.5, faceM2, 100)).Class);

    [Theory]
    [InlineData(1.07, false)]
    [InlineData(1.09, true)]
    [InlineData(0.91, true)]
    public void A_pressure_that_no_weather_gives_is_doubted(double ofStandard, bool doubted) => Assert.Equal(doubted,
        PlanDoubts.Of(Balloon(p => p with { SitePressurePa = 101_325 * ofStandard }))
            .Contains(PlanDoubt.SitePressureOdd));

    [Theory]
    [InlineData(3.9, true)]
    [InlineData(4.1, false)]
    [InlineData(9.9, false)]
    [InlineData(10.1, true)]
    public void A_burst_diameter_that_no_film_gives_is_doubted(double metresPerRootKg, bool doubted) =>
        Assert.Equal(doubted, PlanDoubts.Of(Balloon(p => p with { BurstDiameterM = metresPerRootKg }))
            .Contains(PlanDoubt.BurstDiameterImpossible));

    // Filled at a high site whose pressure was typed in as reduced to sea level.
    [Fact]
    public void A_burst_below_the_launch_is_none()
    {
        FlightPlan plan = Balloon(p => p with
        {
            SitePressurePa = 101_325,
            Wanted = (FillAim.BurstHeight, 3000),
        }) with
        { LaunchHeight = new HeightMsl(4000) };
        Assert.Null(FillResult.Of(plan)!.Burst);
        Assert.Equal(3000, FillResult.Of(plan with { LaunchHeight = new HeightMsl(2900) })!.Burst!.Value.Metres, 1.0);
    }

    // The spread of the rate is what a little more gas makes of it, beside that of the drag coefficient (0.2 of its
    // logarithm, half of that in the rate).
    [Fact]
    public void Of_gas_told_by_a_gauge_the_rate_is_as_uncertain_as_three_hundredths_of_the_gas_make_it()
    {
        BalloonFill fill = new BalloonFill(new(GasKind.Helium), SiteAir.Standard(default), 1, 1.45, 1).WithFreeLift(0.5);
        double Rate(double share) => Math.Log((fill with { VolumeM3 = fill.VolumeM3 * share }).AscentRateMps);
        double byGas = 0.03 * (Rate(1.001) - Rate(0.999)) / 0.002;
        Assert.Equal(double.Hypot(byGas, 0.1), AscentSpread.Of(fill, weighed: false), 1e-4);
    }

    [Fact]
    public void Of_two_winds_for_one_time_the_measured_ones_are_taken()
    {
        WindForecast computed = Winds("computed", WindOrigin.Forecast), measured = Winds("measured", WindOrigin.Measured);
        FlightPlan plan = FlightPlan.Default with { Winds = [computed, measured] };
        Assert.Equal("measured", ForecastPick.For(plan, Noon).Before.Source);
    }

    [Theory]
    [InlineData(31, "2027-01-31")] // February has none
    [InlineData(14, "2027-02-14")]
    [InlineData(28, "2027-02-28")]
    public void A_day_of_the_month_is_the_nearest_one_that_there_is(int day, string date) =>
        Assert.Equal(date, new ReportTime(null, day, 720).Near(Noon).ToString()[..10]);

    [Theory]
    [InlineData(1, 300, true)] // slower than a walk: it stands
    [InlineData(3, 300, false)]
    [InlineData(20, 30, true)] // not followed for a minute yet
    [InlineData(20, 90, false)]
    public void The_plan_s_speed_counts_until_the_car_s_own_is_known(double mps, int seconds, bool fromPlan)
    {
        ChaseTracker tracker = new(FlightPlan.Default);
        GeoPoint home = new(47, 3.4);
        for (int s = 0; s <= seconds; s++)
            tracker.Take(Noon.PlusSeconds(s), Geodesic.Direct(home, 90, mps * s), typed: false);
        Assert.Equal(fromPlan, tracker.State(Noon.PlusSeconds(seconds), home, null, null)!.SpeedFromPlan);
    }

    private static FlightPlan Balloon(Func<FillPlan, FillPlan> change) => FlightPlan.Default with
    {
        Fill = change(new FillPlan { BalloonKg = 1, BurstDiameterM = 7.4 }),
    };

    private static WindForecast Winds(string source, WindOrigin origin) => new()
    {
        Source = source,
        Origin = origin,
        Valid = new ReportTime(Noon),
        Levels = [new(new HeightMsl(1000), new WindVector(5, 0))],
    };
}
