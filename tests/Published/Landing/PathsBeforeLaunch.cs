using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.Winds;
using Xunit;

namespace Groundstation.Published.Landing;

/// <summary>
/// flight_*_truth.csv: burst and landing of whole flights, integrated with scipy through real soundings. A plan that
/// names the sounding's file must foretell them before launch.
/// </summary>
public class PathsBeforeLaunch
{
    /// <summary>
    /// The path's own end and burst lie within 0.5 % of the way plus 300 m of the truth; the landing place is the mean
    /// of all that may come, which scatter of the rates carries up to 3.5 % further along.
    /// </summary>
    [Theory]
    [InlineData("sounding_OUN_20230522T12Z.csv", 35.18, -97.44, 345, 5.0, 30_000, 1.0, 35.1498700, -96.9879721,
        35.1474939, -96.7884363)]
    [InlineData("sounding_BOI_20101209T12Z.csv", 43.56, -116.21, 871, 5.5, 29_000, 1.5, 43.3850277, -114.8093309,
        43.3252121, -114.1373567)]
    public void A_sounding_as_forecast_foretells_burst_and_landing(string file, double lat, double lon, double heightM,
        double ascentMps, double burstM, double massKg, double burstLat, double burstLon, double landLat,
            double landLon)
    {
        FlightPlan plan = FlightPlan.Default with
        {
            LaunchSite = new(lat, lon),
            LaunchHeight = new(heightM),
            LandingGround = new HeightMsl(heightM),
            AscentRateMps = ascentMps,
            BurstHeight = new(burstM),
            BurstSigmaM = 500,
            DescentMassKg = massKg,
            CanopyDragAreaM2 = 0.6,
            DescentRateLnSigma = 0.05,
            Winds = WindFiles.Read(Path.Combine(AppContext.BaseDirectory, "data", file)),
        };
        PlannedFlight flight = PlannedFlight.Of(plan, plan.Winds[0].Valid!.Value.Near(default));

        double way = Geodesic.DistanceM(new(lat, lon), new(landLat, landLon));
        Near(flight.Burst.Position, new(burstLat, burstLon), 300 + 0.005 * way);
        Near(flight.Landing.Path[^1].Position, new(landLat, landLon), 300 + 0.005 * way);
        Near(flight.Landing.Position, new(landLat, landLon), 300 + 0.035 * way);
        GeodesicLine off = Geodesic.Inverse(flight.Landing.Position, new(landLat, landLon));
        Assert.True(off.DistanceM < flight.Landing.Area50.MajorM);
        Assert.True(flight.BurstArea50.MajorM < flight.BurstArea95.MajorM);
    }

    private static void Near(GeoPoint found, GeoPoint truth, double mostM)
    {
        double off = Geodesic.DistanceM(found, truth);
        Assert.True(off < mostM, string.Create(CultureInfo.InvariantCulture, $"{off:F0} m off, at most {mostM:F0}"));
    }
}
