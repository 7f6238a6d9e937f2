using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests.Flight;

public class ForecastPriorTests
{
    private static readonly Instant Noon = Instant.FromUtc(new(2026, 6, 21), TimeSpan.FromHours(12));

    private static WindForecast West(double mps, Instant? valid, WindOrigin origin = WindOrigin.Measured, double topM =
        12_000) =>
        new()
        {
            Source = "test",
            Origin = origin,
            Valid = valid is { } at ? new ReportTime(at) : null,
            Levels = [.. Enumerable.Range(0, (int)(topM / 500) + 1).Select(i =>
                new ForecastLevel(new(500 * i), new WindVector(mps, 0)))],
        };

    private static WindLayer At(double heightM, Instant utc, params WindForecast[] winds)
    {
        var column = new WindColumn(FlightPlan.Default with { Winds = [.. winds] });
        Assert.True(column.Expect(utc));
        return column.Layers().First(l => l.Top.Metres > heightM);
    }

    [Fact]
    public void Within_its_levels_a_forecast_is_the_mean_and_its_spread_grows_with_age()
    {
        WindLayer fresh = At(6000, Noon, West(20, Noon));
        WindLayer old = At(6000, Noon + TimeSpan.FromHours(12), West(20, Noon));
        WindLayer computed = At(6000, Noon, West(20, Noon, WindOrigin.Forecast));
        Assert.Equal(20, fresh.Wind.EastMps, 1e-9);
        Assert.Equal(20, old.Wind.EastMps, 1e-9);
        Assert.Equal(WindBasis.Forecast, fresh.Basis);
        Assert.InRange(fresh.SigmaMps, 1, 2);
        Assert.InRange(old.SigmaMps, 4, 6);
        Assert.InRange(computed.SigmaMps, 3, 4.5);
    }

    [Fact]
    public void Above_the_last_level_it_does_not_go_on_silently()
    {
        WindLayer told = At(11_900, Noon, West(20, Noon)), near = At(13_000, Noon, West(20, Noon));
        WindLayer far = At(25_000, Noon, West(20, Noon));
        Assert.Equal(WindBasis.Neighbours, near.Basis);
        Assert.InRange(near.Wind.EastMps, 12, 19);
        Assert.InRange(near.SigmaMps, told.SigmaMps + 1, 10);
        Assert.InRange(far.Wind.EastMps, -0.5, 0.5);
        // As much as is known without any forecast.
        Assert.InRange(far.SigmaMps, 6.5, 8.5);
    }

    [Fact]
    public void Between_two_times_it_is_interpolated_and_least_sure_half_way()
    {
        WindForecast[] two = [West(10, Noon), West(22, Noon + TimeSpan.FromHours(12))];
        WindLayer early = At(6000, Noon, two), third = At(6000, Noon + TimeSpan.FromHours(4), two);
        WindLayer half = At(6000, Noon + TimeSpan.FromHours(6), two);
        Assert.Equal(10, early.Wind.EastMps, 1e-9);
        Assert.Equal(14, third.Wind.EastMps, 1e-9);
        Assert.Equal(16, half.Wind.EastMps, 1e-9);
        Assert.True(early.SigmaMps < third.SigmaMps && third.SigmaMps < half.SigmaMps);
        Assert.True(half.SigmaMps < At(6000, Noon + TimeSpan.FromHours(6), two[0]).SigmaMps);

        ForecastPick late = ForecastPick.For(FlightPlan.Default with { Winds = [.. two] }, Noon
            + TimeSpan.FromHours(15));
        Assert.Equal((3 * 3600.0, two[1]), (late.OutsideS, late.Before));
    }

    [Fact]
    public void A_wide_gap_between_levels_leaves_the_middle_less_sure()
    {
        WindForecast sparse = West(20, Noon) with
        {
            Levels = [new(new(1000), new(20, 0)), new(new(9000), new(20, 0))],
        };
        Assert.True(At(5000, Noon, sparse).SigmaMps > 2 * At(1100, Noon, sparse).SigmaMps);
        Assert.True(At(5000, Noon, sparse).SigmaMps > 2 * At(5000, Noon, West(20, Noon)).SigmaMps);
    }

    [Fact]
    public void Without_wind_files_nothing_changes()
    {
        var column = new WindColumn(FlightPlan.Default);
        Assert.False(column.Expect(Noon));
        Assert.Empty(column.Foretold);
        Assert.Equal(new WindColumn(FlightPlan.Default).Layers(), column.Layers());
    }

    /// <summary>
    /// A bulletin ends at 12 km: the area must be wider than with a sounding to the burst, and narrower than with
    /// none.
    /// </summary>
    [Fact]
    public void A_path_before_launch_says_how_little_a_low_forecast_tells()
    {
        FlightPlan plan = FlightPlan.Default with
        {
            LaunchSite = new GeoPoint(48, -30),
            LaunchHeight = new HeightMsl(200),
        };
        double full = Area(West(20, Noon, topM: 33_000)), low = Area(West(20, Noon)), none = Area();
        Assert.True(1.2 * full < low && 1.2 * low < none, $"{full:F0} {low:F0} {none:F0}");

        PlannedFlight flight = PlannedFlight.Of(plan with { Winds = [West(20, Noon, topM: 33_000)] }, Noon);
        Assert.Equal(30_000, flight.Burst.Height.Metres, 200.0);
        Assert.Equal(90, Geodesic.Inverse(flight.Launch.Position, flight.Landing.Position).AzimuthDeg, 2.0);

        double Area(params WindForecast[] winds) =>
            PlannedFlight.Of(plan with { Winds = [.. winds] }, Noon).Landing.Area95.MinorM;
    }
}
