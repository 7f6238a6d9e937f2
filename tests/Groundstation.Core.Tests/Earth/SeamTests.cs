using Groundstation.Core.Earth;
using Xunit;

namespace Groundstation.Core.Tests.Earth;

/// <summary>Where a map has its edges: the antimeridian and the poles.</summary>
public class SeamTests
{
    // Between two columns of the grid the geoid is their mean, also between the last and the first.
    [Theory]
    [InlineData(52, 179.875)]
    [InlineData(-20, 179.875)]
    public void The_geoid_has_no_step_at_the_antimeridian(double latitude, double longitude)
    {
        double west = Geoid.SeparationM(new(latitude, longitude - 0.125));
        double east = Geoid.SeparationM(new(latitude, longitude + 0.125));
        Assert.Equal((west + east) / 2, Geoid.SeparationM(new(latitude, longitude)), 1e-6);
        Assert.NotEqual(west, east);
    }

    // Antarctica as maps draw it: along the edge of the map down to the pole.
    [Fact]
    public void A_ring_along_the_edge_of_the_map_holds_what_it_encloses()
    {
        GeoRing south = new([new(-60, -180), new(-60, -90), new(-60, 0), new(-60, 90), new(-60, 180), new(-90, 180),
            new(-90, -180)]);
        Assert.True(south.Contains(new(-75, 10)));
        Assert.True(south.Contains(new(-75, -170)));
        Assert.False(south.Contains(new(-50, 10)));
    }

    // The projection and back is off by a nanometre: a corner must not fall into the square beside it.
    [Fact]
    public void The_corner_of_a_square_of_100_km_belongs_to_it()
    {
        for (int east = 300_000; east <= 700_000; east += 100_000)
            for (int north = 100_000; north <= 8_900_000; north += 100_000)
            {
                GeoPoint corner = new Utm(32, true, east, north).ToGeoPoint();
                // Near the pole a square's corner lies in the next zone.
                if (Utm.ZoneOf(corner) == 32) Assert.EndsWith("0000000000", Mgrs.From(corner));
            }
    }

    [Fact]
    public void Seconds_of_arc_end_before_sixty()
    {
        Assert.Null(CoordinateText.Read("47°10'60\"N 3°00'00\"E").Place);
        Assert.NotNull(CoordinateText.Read("47°10'59.9\"N 3°00'00\"E").Place);
        Assert.Null(CoordinateText.Read("47°60'N 3°00'E").Place);
    }
}
