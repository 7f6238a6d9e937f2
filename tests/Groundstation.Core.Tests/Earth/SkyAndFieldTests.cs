using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests.Earth;

/// <summary>The magnetic model at its edges, and the Sun over a year.</summary>
public class SkyAndFieldTests
{
    [Fact]
    public void Outside_its_years_the_magnetic_model_says_nothing()
    {
        GeoPoint at = new(47, 3);
        static Instant On(int year, int month, int day) => Instant.FromUtc(new(year, month, day), default);
        Assert.Null(MagneticModel.DeclinationDeg(at, On(2024, 12, 31)));
        Assert.NotNull(MagneticModel.DeclinationDeg(at, On(2025, 1, 1)));
        Assert.NotNull(MagneticModel.DeclinationDeg(at, On(2030, 1, 1)));
        Assert.Null(MagneticModel.DeclinationDeg(at, On(2030, 1, 2)));
        Assert.Null(MagneticModel.Field(at, default, double.NaN));
    }

    [Theory, InlineData(90), InlineData(-90)]
    public void At_the_poles_the_field_is_that_beside_them(double lat)
    {
        MagneticField pole = MagneticModel.Field(new(lat, 30), default, 2027)!.Value;
        MagneticField beside = MagneticModel.Field(new(lat - Math.Sign(lat) * 1e-5, 30), default, 2027)!.Value;
        Assert.Equal(beside.DeclinationDeg, pole.DeclinationDeg, 0.001);
        Assert.Equal(beside.InclinationDeg, pole.InclinationDeg, 0.001);
    }

    [Theory, InlineData(0, 0), InlineData(47, 3), InlineData(-60, 179.9), InlineData(65, -179.9), InlineData(80, 20)]
    public void Every_day_of_a_year_rises_before_noon_and_sets_after_it(double lat, double lon)
    {
        GeoPoint at = new(lat, lon);
        for (DateOnly date = new(2026, 1, 1); date.Year == 2026; date = date.AddDays(1))
        {
            SunDay day = Sun.Day(at, date);
            Assert.Equal(date, day.Noon.PlusSeconds(lon * 240).Date);
            Assert.Equal(day, Sun.DayOf(at, day.Noon));
            if (day.Rise is { } rise) Assert.InRange(day.Noon.SecondsSince(rise), 0, 43_200);
            if (day.Set is { } set) Assert.InRange(set.SecondsSince(day.Noon), 0, 43_200);
            if (day is { CivilDawn: { } dawn, Rise: { } later }) Assert.True(dawn < later);
            if (day.Set is null) Assert.True(!day.AboveAtNoon || !day.BelowAtMidnight);
        }
    }
}
