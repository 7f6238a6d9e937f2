using Groundstation.Core.Air;
using Groundstation.Core.Plan;
using Groundstation.Io.Winds;
using Xunit;

namespace Groundstation.Published.Winds;

/// <summary>
/// A real report of station 83779, and its standard levels decoded by hand: test data of the public Python package
/// fm35_decoder (MIT licence, opened).
/// </summary>
public class UpperAirReports
{
    private const string Report = """
        TTAA 73121 83779 99938 21224 01008 00163 ///// ///// 92843 20019 07506 85570 18650 36008 70207 08030 34004
        50591 06563 29503 40761 18364 30017 30970 33138 28015 25095 43722 28026 20241 55957 29040 15418 68957 28039
        10658 73364 28019 88999 77999 31313 42308 81131=
        TTBB 73128 83779 00938 21224 11882 16804 22870 19856 33735 11056 44712 08616 55615 01218 66569 01530 77540 03758
        88531 04546 99524 04761 11520 05356 22479 08370 33476 08760 44467 09360 55450 11557 66446 11761 77421 15358
        88410 16765 99387 19967 11355 24948 22349 25758 33340 27122 44322 30106 55302 32738 66279 37340 77228 49110
        88223 50528 99210 53558 11190 58550 22154 68556 33137 67964 44123 73356 55117 73560 66107 71366 77101 73164
        21212 00938 01008 11870 01510 22524 00000 33453 29010 44425 31510 55359 29525 66305 27014 77296 30018
        88247 28030 99200 29040 11157 27546 22150 28037 33140 25529 44128 27515 55106 26024 66101 28019 31313
        42308 81131 41414 86500=
        TTCC 73123 83779 70865 71568 15020 50064 67574 12519 30380 58383 08535 88906 77162 26018 77999 31313
        42308 81131=
        TTDD 7312/ 83779 11906 77162 22585 70370 33542 70970 44445 63978 55283 57785 21212 11935 25516 22896 26516
        33868 29513 44832 28520 55774 25010 66742 19017 77632 05515 88618 07010 99605 12508 11592 17011 22572 16516
        33537 09517 44526 09516 55500 13017 66475 10532 77421 10524 88376 11025 99357 09535 11330 09537 22308 08527
        33289 08544 44283 09041 31313 42308 81131=
        """;

    [Theory]
    [InlineData(925, 843, 20.0, 75, 6)]
    [InlineData(850, 1570, 18.6, 360, 8)]
    [InlineData(700, 3207, 8.0, 340, 4)]
    [InlineData(500, 5910, -6.5, 295, 3)]
    [InlineData(400, 7610, -18.3, 300, 17)]
    [InlineData(300, 9700, -33.1, 280, 15)]
    [InlineData(250, 10950, -43.7, 280, 26)]
    [InlineData(200, 12410, -55.9, 290, 40)]
    [InlineData(150, 14180, -68.9, 280, 39)]
    [InlineData(100, 16580, -73.3, 280, 19)]
    [InlineData(70, 18650, -71.5, 150, 20)]
    [InlineData(50, 20640, -67.5, 125, 19)]
    [InlineData(30, 23800, -58.3, 85, 35)]
    public void Standard_levels_are_those_decoded_by_hand(int hpa, double gpm, double celsius, double from,
        double knots)
    {
        ForecastLevel level = Assert.Single(Winds(Report).Levels, l =>
            l.PressurePa is { } p && Math.Abs(p - 100 * hpa) < 1);
        Assert.Equal(AtmosphereProfile.GeometricFromGeopotential(gpm), level.Height.Metres, 0.01);
        Assert.Equal(celsius, level.TemperatureC!.Value, 0.01);
        WindVector told = WindVector.FromDirection(from, knots * 1852 / 3600);
        Assert.Equal(told.EastMps, level.Wind.EastMps, 1e-9);
        Assert.Equal(told.NorthMps, level.Wind.NorthMps, 1e-9);
    }

    /// <summary>
    /// The heights that the temperatures give must be those the report tells: with the heights of a level crossed out,
    /// it comes out where it was, within the 10 m to which it is told and 0.1 %.
    /// </summary>
    [Theory]
    [InlineData("70207", 700, 3207)]
    [InlineData("50591", 500, 5910)]
    [InlineData("25095", 250, 10950)]
    [InlineData("10658", 100, 16580)]
    [InlineData("50064", 50, 20640)]
    [InlineData("30380", 30, 23800)]
    public void A_level_told_by_pressure_alone_gets_its_height_from_the_temperatures(string group, int hpa, double gpm)
    {
        WindForecast winds = Winds(Report.Replace(" " + group, " " + group[..2] + "///", StringComparison.Ordinal)
            .Replace("\n" + group, "\n" + group[..2] + "///", StringComparison.Ordinal));
        ForecastLevel level = Assert.Single(winds.Levels, l => l.PressurePa is { } p && Math.Abs(p - 100 * hpa) < 1);
        Assert.Equal(gpm, AtmosphereProfile.GeopotentialFromGeometric(level.Height.Metres), 10 + 0.001 * gpm);
    }

    [Fact]
    public void Significant_winds_reach_to_the_end_of_the_sounding()
    {
        WindForecast winds = Winds(Report);
        // 28.3 hPa, above 30 hPa at 23 800 m by the hypsometric equation at −58 °C.
        Assert.Equal(2830, winds.Levels[^1].PressurePa!.Value, 0.1);
        Assert.Equal(23_800 + 287.05 * (273.15 - 58) / 9.80665 * Math.Log(30 / 28.3),
            AtmosphereProfile.GeopotentialFromGeometric(winds.Top.Metres), 10.0);
        Assert.Equal(90, winds.Levels[^1].Wind.FromDeg, 1e-9);
        Assert.Equal(new ReportTime(null, 23, 720), winds.Valid);
        // 13 standard levels, the ground, 16 and 23 significant levels beside them, and the tropopause.
        Assert.Equal(51, winds.Levels.Length, 3.0);
        Assert.True(winds.Levels.Zip(winds.Levels.Skip(1)).All(pair =>
            pair.First.Height.Metres < pair.Second.Height.Metres));
    }

    /// <summary>
    /// Winds by height of FM 32, as seen in a public weather program's notes (Edmonton, North America: 1000 ft).
    /// </summary>
    [Fact]
    public void Winds_by_height_are_read()
    {
        WindForecast winds = Winds("""
            PPBB 56008 72694 90012 29006 27508 26008 90346 26007 28006 24509 90789 21517 20519 22522
            93017 23543 23045 23563 939// 22548 9436/ 23554 24034 950// 23040=
            """);
        Assert.Equal([1, 2, 3, 4, 6, 7, 8, 9, 30, 31, 37, 39, 43, 46, 50],
            winds.Levels.Select(l => (int)Math.Round(l.Height.Metres / 304.8)));
        Assert.Equal(235, winds.Levels[^3].Wind.FromDeg, 1e-9);
        Assert.Equal(54 * 1852 / 3600.0, winds.Levels[^3].Wind.SpeedMps, 1e-9);
    }

    private static WindForecast Winds(string report) => Assert.Single(WindFiles.Parse(report, "temp.txt", null));
}
