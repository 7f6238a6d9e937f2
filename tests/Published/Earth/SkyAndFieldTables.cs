using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Published.Earth;

/// <summary>WMM2025 against its makers' test values; the Sun against ephem 4.1.4, Meeus' example and NREL's.</summary>
public class SkyAndFieldTables
{
    [Fact]
    public void The_magnetic_field_agrees_with_the_100_official_values() =>
        Assert.All(PublishedTable.Read("wmm2025_test_values.csv").Rows, row =>
        {
            MagneticField field = MagneticModel.Field(new(row.Number("lat"), row.Number("lon")),
                new(row.Number("alt_km") * 1000), row.Number("decimal_year"))!.Value;
            Assert.Equal(row.Number("decl_deg"), field.DeclinationDeg, 0.00501);
            Assert.Equal(row.Number("incl_deg"), field.InclinationDeg, 0.00501);
            Assert.Equal(row.Number("H_nT"), field.HorizontalNt, 0.001);
            Assert.Equal(row.Number("X_nT"), field.NorthNt, 0.001);
            Assert.Equal(row.Number("Y_nT"), field.EastNt, 0.001);
            Assert.Equal(row.Number("Z_nT"), field.DownNt, 0.001);
            Assert.Equal(row.Number("F_nT"), field.TotalNt, 0.001);
        });

    [Fact]
    public void And_with_the_reports_table() =>
        Assert.All(PublishedTable.Read("wmm2025_report_table.csv").Rows, row =>
        {
            MagneticField field = MagneticModel.Field(new(row.Number("lat"), row.Number("lon")),
                new(row.Number("height_km") * 1000), row.Number("decimal_year"))!.Value;
            Assert.Equal(row.Number("decl"), field.DeclinationDeg, 0.00501);
            Assert.Equal(row.Number("incl"), field.InclinationDeg, 0.00501);
            Assert.Equal(row.Number("F"), field.TotalNt, 0.0501);
        });

    [Fact]
    public void The_sun_stands_where_the_ephemeris_says() =>
        Assert.All(PublishedTable.Read("sun_position.csv").Rows, row =>
        {
            SunPosition sun = Sun.Position(new(row.Number("lat"), row.Number("lon")), Time(row["utc"])!.Value);
            Assert.Equal(row.Number("altitude_deg"), sun.AltitudeDeg, 0.015);
            double azimuth = Math.IEEERemainder(row.Number("azimuth_deg") - sun.AzimuthDeg, 360);
            Assert.InRange(Math.Abs(azimuth) * Math.Cos(sun.AltitudeDeg * Math.PI / 180), 0, 0.015);
        });

    [Fact]
    public void Rise_set_and_twilight_come_within_a_minute() =>
        Assert.All(PublishedTable.Read("sun_rise_set.csv").Rows, row =>
        {
            SunDay day = Sun.Day(new(row.Number("lat"), row.Number("lon")),
                DateOnly.Parse(row["date"], CultureInfo.InvariantCulture));
            Assert.InRange(Math.Abs(day.Noon.SecondsSince(Time(row["transit_utc"])!.Value)), 0, 10);
            Near(row["sunrise_utc"], day.Rise);
            Near(row["sunset_utc"], day.Set);
            Near(row["civil_dawn_utc"], day.CivilDawn);
            Near(row["civil_dusk_utc"], day.CivilDusk);
            Assert.Equal(row["sunrise_utc"] != "never_up", day.AboveAtNoon);
            Assert.Equal(row["sunset_utc"] != "always_up", day.BelowAtMidnight);
        });

    [Fact]
    public void Meeus_example_25a_and_NRELs_example_come_out()
    {
        (double ascension, double declination, double distance) = Sun.Apparent(-0.072183436);
        Assert.Equal((13 + 13 / 60.0 + 31.4 / 3600) * 15, ascension, 0.001);
        Assert.Equal(-(7 + 47 / 60.0 + 6 / 3600.0), declination, 0.001);
        Assert.Equal(0.99766, distance, 0.00001);
        GeoPoint at = new(39.742476, -105.1786);
        SunPosition sun = Sun.Position(at, Time("2003-10-17T19:30:30Z")!.Value);
        Assert.Equal(194.340241, sun.AzimuthDeg, 0.01);
        // NREL's zenith angle has 0.016° of refraction in it.
        Assert.Equal(50.111622, 90 - sun.AltitudeDeg - 0.016, 0.01);
        Near("2003-10-17T13:12:43Z", Sun.Day(at, new(2003, 10, 17)).Rise);
        Near("2003-10-17T00:20:19Z", Sun.Day(at, new(2003, 10, 16)).Set);
    }

    private static void Near(string expected, Instant? got)
    {
        Assert.Equal(Time(expected) is null, got is null);
        if (Time(expected) is { } at) Assert.InRange(Math.Abs(got!.Value.SecondsSince(at)), 0, 30);
    }

    private static Instant? Time(string text) => DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, out var at)
        ? Instant.FromUnixMilliseconds(at.ToUnixTimeMilliseconds()) : null;
}
