using Groundstation.Core.Earth;
using Xunit;

namespace Groundstation.Published.Earth;

/// <summary>EGM96 against PROJ 9.1.1 on the full-precision 15-minute grid, and against NGA's own test points.</summary>
public sealed class GeoidTable
{
    [Fact]
    public void Separation_agrees_with_the_grid_at_full_precision()
    {
        foreach (PublishedRow row in PublishedTable.Read("geoid_egm96.csv").Rows)
        {
            double separation = Geoid.SeparationM(new GeoPoint(row.Number("lat"), row.Number("lon")));
            double offM = separation - row.Number("n_proj_15min_bilinear_m");
            Assert.True(Math.Abs(offM) <= 0.05, $"{row}: {separation:F3}");
            if (row.Has("n_published_m"))
                Assert.True(Math.Abs(separation - row.Number("n_published_m")) <= 0.1, $"{row}: {separation:F3}");
        }
    }

    [Theory]
    [InlineData(180, -180)]
    [InlineData(359.9, -0.1)]
    [InlineData(-540, 180)]
    public void Longitudes_a_turn_apart_are_the_same_place(double a, double b) => Assert.Equal(
        Geoid.SeparationM(new GeoPoint(12.3, a)), Geoid.SeparationM(new GeoPoint(12.3, b)), 1e-9);
}
