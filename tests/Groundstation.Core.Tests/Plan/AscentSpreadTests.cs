using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Fill;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests.Plan;

/// <summary>What a stated fill makes of the ascent rate's spread, and of the area before launch.</summary>
public class AscentSpreadTests
{
    private static readonly BalloonFill Fill = new BalloonFill(new(GasKind.Helium), SiteAir.Standard(default), 1, 1.45, 1)
        .WithFreeLift(1.2);

    [Fact]
    public void A_weighed_fill_is_good_to_a_tenth_and_gas_by_the_gauge_to_less()
    {
        double weighed = AscentSpread.Of(Fill, weighed: true), gauge = AscentSpread.Of(Fill, weighed: false);
        Assert.InRange(weighed, 0.1, 0.105);
        Assert.InRange(gauge, weighed + 0.001, AscentSpread.NoFill);
        // With hardly any free lift left the scale's error is a large share of it.
        Assert.InRange(AscentSpread.Of(Fill.WithFreeLift(0.15), weighed: true), 0.15, 0.2);
    }

    [Fact]
    public void The_planned_landing_area_is_smaller_along_the_wind_where_the_fill_is_stated()
    {
        WindVector west = WindVector.FromDirection(270, 25);
        FlightPlan plan = FlightPlan.Default with
        {
            LaunchSite = new GeoPoint(47, 2),
            Winds = [new WindForecast { Source = "test", Origin = WindOrigin.Measured,
                Levels = [.. Enumerable.Range(0, 81).Select(i => new ForecastLevel(new(500 * i), west))] }],
        };
        Instant noon = Instant.FromUtc(new(2026, 6, 21), TimeSpan.FromHours(12));
        LandingEstimate unknown = PlannedFlight.Of(plan, noon).Landing;
        LandingEstimate weighed = PlannedFlight.Of(plan with { AscentRateLnSigma = AscentSpread.Of(Fill, true) }, noon)
            .Landing;
        Assert.StartsWith("ascent rate", unknown.Causes.ToString());
        Assert.True(weighed.Area95.MajorM < 0.85 * unknown.Area95.MajorM,
            $"{weighed.Area95.MajorM:F0} against {unknown.Area95.MajorM:F0} m");
    }
}
