using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests.Quantities;

public class MeasureTests
{
    [Fact]
    public void Nought_has_no_sign()
    {
        Assert.Equal("0 m", Measure.Height(-0.3).ToString());
        Assert.Equal("0.0 m/s", Measure.VerticalRate(-0.04).ToString());
        Assert.Equal("0.0 m/s", Measure.VerticalRate(-0.04).Signed.ToString());
        Assert.Equal("0 ft", Measure.Height(-0.1).In(DisplayUnits.Customary));
        Assert.Equal("0 ft", Measure.HeightAloft(-10).In(DisplayUnits.Customary));
        Assert.Equal("-0.5 m/s", Measure.VerticalRate(-0.5).ToString());
        Assert.Equal("-10 m", Measure.Height(-10).ToString());
    }
}
