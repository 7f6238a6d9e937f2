using Groundstation.Console.Cells;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Console.Tests.Cells;

public class FiguresTests
{
    private static readonly Figures Metric = new(DisplayUnits.Metric, false),
        Customary = new(DisplayUnits.Customary, false);

    [Theory]
    [InlineData(0, "0 m", "0 ft")]
    [InlineData(304.8, "305 m", "1 000 ft")]
    [InlineData(30_000, "30 000 m", "98 425 ft")]
    [InlineData(-12.4, "-12 m", "-41 ft")]
    [InlineData(-0.1, "0 m", "0 ft")]
    public void Heights(double metres, string metric, string customary)
    {
        Assert.Equal(metric, Metric.Height(metres));
        Assert.Equal(customary, Customary.Height(metres));
    }

    [Theory]
    [InlineData(5.08, "+5.1 m/s", "+1 000 ft/min")]
    [InlineData(-18.4, "-18.4 m/s", "-3 622 ft/min")]
    [InlineData(0, "0.0 m/s", "0 ft/min")]
    [InlineData(0.001, "0.0 m/s", "0 ft/min")]
    [InlineData(-0.001, "0.0 m/s", "0 ft/min")]
    public void Rates(double mps, string metric, string customary)
    {
        Assert.Equal(metric, Metric.Climb(mps));
        Assert.Equal(customary, Customary.Climb(mps));
    }

    [Theory]
    [InlineData(154, "154 m²", "1 658 sq ft")]
    [InlineData(99_000, "99 000 m²", "1 065 627 sq ft")]
    [InlineData(2_589_988, "2.6 km²", "1.0 sq mi")]
    public void Areas(double m2, string metric, string customary)
    {
        Assert.Equal(metric, Metric.Area(m2));
        Assert.Equal(customary, Customary.Area(m2));
    }

    [Theory]
    [InlineData(12, "12 m", "39 ft")]
    [InlineData(999.4, "999 m", "0.6 mi")]
    [InlineData(1609.344, "1.6 km", "1.0 mi")]
    [InlineData(160_934.4, "161 km", "100 mi")]
    public void Distances(double metres, string metric, string customary)
    {
        Assert.Equal(metric, Metric.Distance(metres));
        Assert.Equal(customary, Customary.Distance(metres));
    }

    [Theory]
    [InlineData(0, "000° N")]
    [InlineData(359.7, "000° N")]
    [InlineData(-90, "270° W")]
    [InlineData(101.2, "101° E")]
    [InlineData(101.3, "101° ESE")]
    public void Bearings(double deg, string text) => Assert.Equal(text, Metric.BearingWithPoint(deg));

    [Theory]
    [InlineData(0, "0 s")]
    [InlineData(59.9, "59 s")]
    [InlineData(192, "3 min 12 s")]
    [InlineData(3_725, "1 h 02 min")]
    public void Lengths_of_time(double seconds, string text) => Assert.Equal(text, Figures.Span(seconds));

    [Theory]
    [InlineData(0, "T+00:00:00")]
    [InlineData(4_364, "T+01:12:44")]
    [InlineData(-61, "T-00:01:01")]
    public void Mission_time(double seconds, string text) => Assert.Equal(text, Figures.Mission(seconds));

    [Fact]
    public void An_arrow_points_where_the_direction_leads() =>
        Assert.Equal("↑→↓←", string.Concat(new double[] { 0, 90, 180, 270 }.Select(Figures.Arrow)));

    [Fact]
    public void Ascii_has_no_degree_sign() => Assert.Equal("078 deg",
        new Figures(DisplayUnits.Metric, true).Bearing(78));
}
