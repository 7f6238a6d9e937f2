using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests.Earth;

/// <summary>Places as text: what is written is read back, in every format and all over the Earth.</summary>
public class CoordinateTextTests
{
    private static GeoPoint Read(string text)
    {
        (GeoPoint? place, string complaint) = CoordinateText.Read(text);
        Assert.True(place is not null, $"{text}: {complaint}");
        Assert.Empty(complaint);
        return place.Value;
    }

    [Theory]
    [InlineData(CoordinateFormat.DecimalDegrees, 0.8)]
    [InlineData(CoordinateFormat.DegreesMinutes, 1.4)]
    [InlineData(CoordinateFormat.DegreesMinutesSeconds, 2.3)]
    [InlineData(CoordinateFormat.Utm, 0.75)]
    [InlineData(CoordinateFormat.Mgrs, 0.75)]
    [InlineData(CoordinateFormat.Maidenhead, 22)]
    public void What_is_written_is_read_back_to_the_last_digit(CoordinateFormat format, double withinM)
    {
        SeededRandom draws = new(7);
        for (int i = 0; i < 5000; i++)
        {
            GeoPoint at = new(180 * draws.NextDouble() - 90, 360 * draws.NextDouble() - 180);
            string text = CoordinateText.Write(at, format);
            (GeoPoint? back, string complaint) = CoordinateText.Read(text);
            Assert.True(back is not null, $"{at}: {text}: {complaint}");
            Assert.True(Geodesic.DistanceM(at, back.Value) <= withinM, $"{at}: {text} is {back}");
            Assert.Equal(text, CoordinateText.Write(back.Value, format));
        }
    }

    [Theory]
    [InlineData(0, 0), InlineData(90, 0), InlineData(-90, 0), InlineData(0, 180), InlineData(0, -180)]
    [InlineData(84, 5), InlineData(-80, 5), InlineData(-0.000001, -0.000001), InlineData(59.9999999, 5.9999999)]
    [InlineData(72, 8.9999), InlineData(64, 3), InlineData(32, -100), InlineData(40, 6), InlineData(-45, 179.99999)]
    public void Edges_of_zones_bands_and_the_globe_come_back_too(double lat, double lon) =>
        Assert.All(Enum.GetValues<CoordinateFormat>(), format =>
        {
            GeoPoint at = new(lat, lon);
            Assert.InRange(Geodesic.DistanceM(at, Read(CoordinateText.Write(at, format))), 0, 30);
        });

    [Theory]
    [InlineData("47.5, -11.25"), InlineData("47.5 -11.25"), InlineData("47.5;-11.25"), InlineData("+47.5,-11.25")]
    [InlineData("47.5N 11.25W"), InlineData("n47.5 w11.25"), InlineData("11.25W 47.5N")]
    [InlineData("47.5° N, 11.25° W"), InlineData("47.5, 11.25W"), InlineData("N 47.5 -11.25")]
    [InlineData("47 30 -11 15"), InlineData("47°30.000′N 011°15.000′W")]
    [InlineData("N47 30.0, W011 15.0"), InlineData("47:30:00N 11:15:00W"), InlineData("47°30'0.0\"N 11°15'0\"W")]
    [InlineData("47 30 0 N 11 15 0 W"), InlineData("  47d30m0n  11d15m0w ")]
    public void Degrees_are_read_as_people_write_them(string text)
    {
        GeoPoint at = Read(text);
        Assert.Equal(47.5, at.LatitudeDeg, 1e-9);
        Assert.Equal(-11.25, at.LongitudeDeg, 1e-9);
    }

    [Theory]
    [InlineData("25 north 620496 6451001"), InlineData("25N 620496 6451001"), InlineData("25V 620496 6451001")]
    [InlineData("UTM zone 25 V 620495.9m E 6451000.6m N"), InlineData("utm 25n, 620496, 6451001")]
    [InlineData("25VFE2049551000"), InlineData("25V FE 20495 51000"), InlineData("25v fe 2049 5100")]
    public void Grids_are_read_with_hemisphere_or_band(string text) =>
        Assert.InRange(Geodesic.DistanceM(Read("58.183762 -30.950768"), Read(text)), 0, 10);

    [Fact]
    public void A_letter_S_that_fits_band_and_hemisphere_is_not_guessed()
    {
        string complaint = CoordinateText.Read("14S 634567 3894567").Complaint;
        Assert.Contains("north or south", complaint, StringComparison.Ordinal);
        Assert.InRange(Read("14 north 634567 3894567").LatitudeDeg, 35, 36);
        Assert.InRange(Read("14 south 634567 3894567").LatitudeDeg, -56, -55);
        // At these northings band S is impossible.
        Assert.InRange(Read("33S 377333 6223413").LatitudeDeg, -35, -34);
    }

    [Theory]
    [InlineData("", "type a place")]
    [InlineData("hello", "needs latitude and longitude")]
    [InlineData("47.5", "needs latitude and longitude")]
    [InlineData("47.5 3.2 1.0", "needs latitude and longitude")]
    [InlineData("91, 3", "latitude runs from -90 to 90")]
    [InlineData("47, 181", "longitude runs from -180 to 180")]
    [InlineData("47,5 3,2", "decimals are written with a point")]
    [InlineData("47 60.0 N 3 0 E", "below 60")]
    [InlineData("47.5 30 N 3 0 E", "only the last number")]
    [InlineData("-47.5N 3E", "both sign and letter")]
    [InlineData("47.5N 3.2S", "one latitude")]
    [InlineData("47.5N 3.2 x", "cannot read")]
    [InlineData("JN58", "more than a hundred kilometres")]
    [InlineData("ZZ58TD", "must lie between AA and RR")]
    [InlineData("32UPU", "100 km")]
    [InlineData("32UPU912", "as many digits")]
    [InlineData("61UPU91000 34000", "zones run from 1 to 60")]
    [InlineData("32UAA9100034000", "no square")]
    [InlineData("32NPU9100034000", "does not lie in band N|no square")]
    [InlineData("32 north 50000 5334000", "easting runs")]
    [InlineData("32 north 899000 5334000", "outside zone 32")]
    [InlineData("UPS north 2000000 3100000", "above 84")]
    public void What_is_no_place_is_refused_with_what_to_type(string text, string says)
    {
        (GeoPoint? place, string complaint) = CoordinateText.Read(text);
        Assert.Null(place);
        Assert.Contains(says.Split('|'), part => complaint.Contains(part, StringComparison.Ordinal));
        Assert.DoesNotContain('\n', complaint);
    }

    [Fact]
    public void Any_text_gives_a_place_within_range_or_a_complaint()
    {
        const string Signs = "0123456789 .,-+NSEWUPJ°'\"′:ZAHX";
        SeededRandom draws = new(11);
        for (int i = 0; i < 20_000; i++)
        {
            string text = string.Concat(Enumerable.Range(0, draws.NextBelow(24))
                .Select(_ => Signs[draws.NextBelow(Signs.Length)]));
            (GeoPoint? place, string complaint) = CoordinateText.Read(text);
            Assert.Equal(place is null, complaint.Length > 0);
            if (place is { } at) Assert.True(Math.Abs(at.LatitudeDeg) <= 90 && Math.Abs(at.LongitudeDeg) <= 180, text);
        }
    }
}
