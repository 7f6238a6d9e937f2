using Groundstation.Core.Earth;
using Xunit;

namespace Groundstation.Published.Earth;

/// <summary>
/// geodesic_direct.csv, geodesic_inverse.csv: GeodSolve of Debian geographiclib-tools 2.1.2.
/// geodesic_published.csv: Vincenty 1975 Table II and Flinders Peak–Buninyong, with GeodSolve rerun on each ellipsoid.
/// </summary>
public class GeodesicTables
{
    private static GeoPoint Point(PublishedRow row, string lat, string lon) => new(row.Number(lat), row.Number(lon));

    // The tables print 11 decimals of a degree: 1 µm; metres to 6 decimals.
    private const double Micrometres = 2e-6;

    [Fact]
    public void Direct_reaches_the_tabulated_place_within_two_micrometres()
    {
        PublishedTable table = PublishedTable.Read("geodesic_direct.csv");
        Assert.Equal(204, table.Rows.Count);
        foreach (PublishedRow row in table.Rows)
        {
            GeoPoint from = Point(row, "lat1", "lon1"), expected = Point(row, "lat2", "lon2");
            GeoPoint to = Geodesic.Direct(Ellipsoid.Wgs84, from, row.Number("azi1"), row.Number("s12_m"),
                out double azi2);
            Assert.True(Geodesic.DistanceM(to, expected) < Micrometres, $"{row}: reached {to}");
            Assert.Equal(0, LocalFrame.NormalLongitude(azi2 - row.Number("azi2")), 1e-9);
        }
    }

    [Fact]
    public void Inverse_gives_the_tabulated_distance_within_two_micrometres_and_azimuths()
    {
        PublishedTable table = PublishedTable.Read("geodesic_inverse.csv");
        Assert.Equal(204, table.Rows.Count);
        foreach (PublishedRow row in table.Rows)
        {
            GeodesicLine line = Geodesic.Inverse(Point(row, "lat1", "lon1"), Point(row, "lat2", "lon2"));
            Assert.True(Math.Abs(line.DistanceM - row.Number("s12_m")) < Micrometres, $"{row}: {line}");
            // On a line of a few metres a nanometre sideways is more than the printed digits.
            double tolerance = 1e-9 + 1e-9 / line.DistanceM * 57.3;
            double off1 = LocalFrame.NormalLongitude(line.AzimuthDeg - row.Number("azi1"));
            double off2 = LocalFrame.NormalLongitude(line.FinalAzimuthDeg - row.Number("azi2"));
            Assert.True(Math.Abs(off1) < tolerance && Math.Abs(off2) < tolerance, $"{row}: {line}");
        }
    }

    [Fact]
    public void Published_long_lines_on_their_own_ellipsoids_agree_both_ways()
    {
        foreach (PublishedRow row in PublishedTable.Read("geodesic_published.csv").Rows)
        {
            Ellipsoid ellipsoid = new(row.Number("a_m"), row.Number("inv_f"));
            GeoPoint a = Point(row, "lat1", "lon1"), b = Point(row, "lat2", "lon2");
            GeodesicLine line = Geodesic.Inverse(ellipsoid, a, b);
            Assert.True(Math.Abs(line.DistanceM - row.Number("karney_s12_m")) < 2e-6, $"{row}: {line}");
            Assert.True(Math.Abs(line.DistanceM - row.Number("s12_m")) < 1e-3, $"{row}: {line}");
            Assert.Equal(row.Number("karney_azi1"), line.AzimuthDeg, 1e-8);
            Assert.Equal(row.Number("karney_azi2"), line.FinalAzimuthDeg, 1e-8);

            GeoPoint to = Geodesic.Direct(ellipsoid, a, row.Number("karney_azi1"), row.Number("karney_s12_m"), out _);
            Assert.True(Geodesic.Inverse(ellipsoid, to, b).DistanceM < 2e-3, $"{row}: {to}");
        }
    }
}
