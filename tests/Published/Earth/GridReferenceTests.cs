using System.Globalization;
using Groundstation.Core.Earth;
using Xunit;

namespace Groundstation.Published.Earth;

/// <summary>UTM, UPS, MGRS against GeographicLib's GeoConvert 2.1.2; Maidenhead against Tyson, QST Jan 1989, and others.</summary>
public class GridReferenceTests
{
    [Fact]
    public void Utm_agrees_to_the_millimetre_and_mgrs_to_the_letter() =>
        Assert.All(PublishedTable.Read("utm_mgrs.csv").Rows, row =>
        {
            // One row was read amiss when the table was made: the program took "-1e-06" for an easting of -1° and -6°, so
            // its answer is that of 0°, -7°. It is held against that place.
            GeoPoint at = row["lat"] == "-1e-06" ? new(0, -7) : new(row.Number("lat"), row.Number("lon"));
            Utm utm = Utm.From(at);
            string zone = utm.Zone == 0 ? "" : utm.Zone.ToString("00", CultureInfo.InvariantCulture);
            Assert.Equal(row["utm_zone_hemi"], zone + (utm.North ? "n" : "s"));
            Assert.Equal(row.Number("easting_m"), utm.EastingM, 0.001);
            Assert.Equal(row.Number("northing_m"), utm.NorthingM, 0.001);
            Assert.Equal(row["mgrs_1m"], Mgrs.From(at));
            Assert.Equal(row["mgrs_10m"], Mgrs.From(at, 4));
            Assert.InRange(Geodesic.DistanceM(at, utm.ToGeoPoint()), 0, 0.001);
            Assert.Null(utm.Fault());
            // The middle of a metre's square, and of ten metres', is at most half its diagonal away.
            Assert.InRange(Geodesic.DistanceM(at, Mgrs.Read(row["mgrs_1m"]).Middle!.Value), 0, 0.72);
            Assert.InRange(Geodesic.DistanceM(at, Mgrs.Read(row["mgrs_10m"]).Middle!.Value), 0, 7.2);
        });

    [Fact]
    public void Maidenhead_names_the_cell() => Assert.All(PublishedTable.Read("maidenhead.csv").Rows, row =>
    {
        GeoPoint at = new(row.Number("lat"), row.Number("lon"));
        Assert.Equal(row["loc6"], Maidenhead.From(at));
        Assert.Equal(row["loc8_computed"], Maidenhead.From(at, 4));
        Assert.Equal(row["loc10_computed"], Maidenhead.From(at, 5));
        foreach (string locator in new[] { row["loc6"], row["loc8_computed"], row["loc10_computed"] })
            Assert.Equal(locator, Maidenhead.From(Maidenhead.Read(locator).Middle!.Value, locator.Length / 2));
    });
}
