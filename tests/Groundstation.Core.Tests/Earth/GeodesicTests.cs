using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests.Earth;

public class GeodesicTests
{
    // Half the meridian ellipse of WGS 84 (quarter meridian 10 001 965.729 m, NGA.STND.0036).
    private const double HalfMeridian = 2 * 10_001_965.7293;

    [Fact]
    public void Antipodes_go_over_a_pole()
    {
        GeodesicLine line = Geodesic.Inverse(new(0, 0), new(0, 180));
        Assert.Equal(HalfMeridian, line.DistanceM, 1e-3);
        Assert.True(line.AzimuthDeg is 0 or 180);
        Assert.Equal(HalfMeridian, Geodesic.DistanceM(new(90, 0), new(-90, 50)), 1e-3);
        Assert.Equal(HalfMeridian, Geodesic.DistanceM(new(-30, 10), new(30, -170)), 1e-3);
    }

    [Fact]
    public void Coincident_points_are_no_distance_apart()
    {
        GeoPoint p = new(47.1, 180);
        Assert.Equal(new GeodesicLine(0, 0, 0), Geodesic.Inverse(p, p));
        Assert.Equal(0, Geodesic.DistanceM(p, new(47.1, -180)));
        Assert.Equal(0, Geodesic.DistanceM(new(90, 10), new(90, -100)), 1e-6);
    }

    [Fact]
    public void Inverse_converges_and_direct_undoes_it_everywhere_on_Earth()
    {
        SeededRandom random = new(20130111);
        for (int i = 0; i < 20_000; i++)
        {
            GeoPoint a = new(random.NextBetween(-90, 90), random.NextBetween(-180, 180));
            GeoPoint b = (i % 4) switch
            {
                0 => new(random.NextBetween(-90, 90), random.NextBetween(-180, 180)),
                // Within half a degree of the antipode, where the plain method of 1975 fails.
                1 => new(Math.Clamp(-a.LatitudeDeg + random.NextBetween(-0.5, 0.5), -90, 90),
                    LocalFrame.NormalLongitude(a.LongitudeDeg + 180 + random.NextBetween(-0.7, 0.7))),
                2 => new(-a.LatitudeDeg,
                    LocalFrame.NormalLongitude(a.LongitudeDeg + 180 + random.NextBetween(-0.7, 0.7))),
                _ => LocalFrame.Move(a, random.NextBetween(-300, 300), random.NextBetween(-300, 300), 0),
            };
            GeodesicLine line = Geodesic.Inverse(a, b), back = Geodesic.Inverse(b, a);
            Assert.InRange(line.DistanceM, 0, HalfMeridian + 1e-3);
            Assert.Equal(line.DistanceM, back.DistanceM, 1e-6);
            GeoPoint reached = Geodesic.Direct(a, line.AzimuthDeg, line.DistanceM);
            double miss = Geodesic.DistanceM(reached, b);
            Assert.True(miss < 1e-6, $"{a} to {b}: {line}, missed by {miss} m");
        }
    }

    [Fact]
    public void Going_on_from_the_end_with_the_final_azimuth_leads_on()
    {
        GeoPoint a = new(-33, 178);
        GeoPoint half = Geodesic.Direct(Ellipsoid.Wgs84, a, 60, 4_000_000, out double onward);
        GeoPoint whole = Geodesic.Direct(a, 60, 10_000_000);
        Assert.True(Geodesic.DistanceM(Geodesic.Direct(half, onward, 6_000_000), whole) < 1e-6);
        Assert.True(Geodesic.DistanceM(Geodesic.Direct(half, onward, -4_000_000), a) < 1e-6);
        Assert.InRange(half.LongitudeDeg, -180, 180);
    }

    [Fact]
    public void Once_round_the_equator_comes_home()
    {
        GeoPoint home = Geodesic.Direct(new(0, 20), 90, 2 * Math.PI * 6_378_137);
        Assert.Equal(0, home.LatitudeDeg, 1e-12);
        Assert.Equal(20, home.LongitudeDeg, 1e-10);
    }
}
