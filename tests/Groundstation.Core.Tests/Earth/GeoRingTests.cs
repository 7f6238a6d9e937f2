using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Xunit;

namespace Groundstation.Core.Tests.Earth;

public class GeoRingTests
{
    private static GeoRing Ring(params (double Lat, double Lon)[] points) =>
        new([.. points.Select(p => new GeoPoint(p.Lat, p.Lon))]);

    private static GeoRing Square(double lat, double lon, double half) => Ring((lat - half, lon - half),
        (lat - half, lon + half), (lat + half, lon + half), (lat + half, lon - half), (lat - half, lon - half));

    [Theory]
    [InlineData(47.0, 3.0, true)]
    [InlineData(47.9, 3.9, true)]
    [InlineData(48.1, 3.0, false)]
    [InlineData(47.0, 4.1, false)]
    [InlineData(47.0, -177, false)]
    public void A_point_is_inside_its_square(double lat, double lon, bool inside) =>
        Assert.Equal(inside, Square(47, 3, 1).Contains(new(lat, lon)));

    [Fact]
    public void A_hole_is_not_part_of_the_area()
    {
        AreaPart part = new(Square(47, 3, 1), [Square(47, 3, 0.2)]);
        Assert.False(part.Contains(new(47, 3)));
        Assert.True(part.Contains(new(47.5, 3)));
    }

    // Longitudes that jump at 180, and longitudes that run past it, draw the same strait.
    [Theory]
    [InlineData(179, -179)]
    [InlineData(179, 181)]
    [InlineData(-181, -179)]
    public void Across_the_antimeridian_it_goes_the_short_way(double west, double east)
    {
        GeoRing ring = Ring((60, west), (60, east), (62, east), (62, west), (60, west));
        Assert.True(ring.Contains(new(61, 179.5)));
        Assert.True(ring.Contains(new(61, -179.5)));
        Assert.True(ring.Contains(new(61, 180)));
        Assert.False(ring.Contains(new(61, 178)));
        Assert.False(ring.Contains(new(61, 0)));
    }

    [Fact]
    public void Cut_at_the_antimeridian_as_the_standard_asks_the_two_halves_hold_their_own()
    {
        GeoRing west = Ring((60, 179), (60, 180), (62, 180), (62, 179), (60, 179));
        GeoRing east = Ring((60, -180), (60, -179), (62, -179), (62, -180), (60, -180));
        Assert.True(west.Contains(new(61, 179.9)));
        Assert.False(west.Contains(new(61, -179.9)));
        Assert.True(east.Contains(new(61, -179.9)));
        Assert.False(east.Contains(new(61, 179.9)));
    }

    [Fact]
    public void A_polar_cap_drawn_along_the_edge_of_the_map_is_taken_as_drawn()
    {
        GeoRing cap = Ring((-90, -180), (-70, -180), (-70, -60), (-70, 60), (-70, 180), (-90, 180), (-90, -180));
        Assert.True(cap.Contains(new(-80, 10)));
        Assert.True(cap.Contains(new(-75, -170)));
        Assert.False(cap.Contains(new(-60, 10)));
    }

    [Fact]
    public void Narrowed_to_a_band_it_answers_the_same_for_points_in_it()
    {
        GeoRing star = Ring([.. Enumerable.Range(0, 400).Select(i =>
            (47 + (1 + 0.3 * (i % 7)) * Math.Sin(i * Math.PI / 200), 3 + (1 + 0.3 * (i % 7)) * Math.Cos(i * Math.PI / 200)))]);
        GeoRing band = star.Between(46.9, 47.2);
        for (double lat = 46.9; lat <= 47.2; lat += 0.013)
            for (double lon = 0; lon < 6; lon += 0.037)
                Assert.Equal(star.Contains(new(lat, lon)), band.Contains(new(lat, lon)));
    }
}
