using Groundstation.Core.Earth;
using Xunit;

namespace Groundstation.Core.Tests.Earth;

public class LocalFrameTests
{
    [Theory]
    [InlineData(0, 10)]
    [InlineData(47.3, 179.9999)]
    [InlineData(-60, -179.9999)]
    [InlineData(89.5, 30)]
    [InlineData(-89.999, 30)]
    public void A_step_agrees_with_the_geodesic_at_height_0(double lat, double lon)
    {
        GeoPoint from = new(lat, lon);
        foreach ((double east, double north) in ((double, double)[])[(30, 0), (0, 30), (-20, 25), (-12, -60)])
        {
            GeoPoint to = LocalFrame.Move(from, east, north, 0);
            GeodesicLine line = Geodesic.Inverse(from, to);
            Assert.Equal(double.Hypot(east, north), line.DistanceM, 0.02);
            Assert.InRange(to.LongitudeDeg, -180, 180);
            (double e, double n) = LocalFrame.Between(from, to, 0);
            Assert.Equal(east, e, 0.02);
            Assert.Equal(north, n, 0.02);
        }
    }

    [Fact]
    public void Steps_lead_over_the_pole_and_down_the_other_side()
    {
        GeoPoint at = new(89.9995, 40);
        for (int i = 0; i < 100; i++)
            at = LocalFrame.Move(at, 0, Math.Abs(LocalFrame.NormalLongitude(at.LongitudeDeg - 40)) < 90 ? 1 : -1, 0);
        Assert.Equal(-140, at.LongitudeDeg, 1e-6);
        // 55.847 m from the start to the pole, the rest of the 100 m beyond it.
        Assert.Equal(100 - 0.0005 * 111_694, Geodesic.DistanceM(at, new(90, 0)), 0.05);
    }

    [Fact]
    public void Many_steps_east_keep_to_the_parallel_at_89_and_a_half_degrees()
    {
        GeoPoint at = new(89.5, 0);
        for (int i = 0; i < 2000; i++)
            at = LocalFrame.Move(at, 20, 0, 10_000);
        Assert.Equal(89.5, at.LatitudeDeg, 1e-6);
        double radius = (Ellipsoid.Wgs84.PrimeVerticalRadius(89.5) + 10_000) * Math.Cos(89.5 * Math.PI / 180);
        Assert.Equal(40_000 / radius * 180 / Math.PI, at.LongitudeDeg, 1e-4);
    }

    [Fact]
    public void Height_shortens_the_step_on_the_ground()
    {
        GeoPoint from = new(45, 0);
        double ground = Geodesic.DistanceM(from, LocalFrame.Move(from, 0, 1000, 30_000));
        double radius = Ellipsoid.Wgs84.MeridianRadius(45);
        Assert.Equal(1000 * radius / (radius + 30_000), ground, 0.002);
    }
}
