using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.Winds;
using Xunit;

namespace Groundstation.Io.Tests.Winds;

public class WindFileTests
{
    private const string Bulletin = """
        FBUS31 KWNO 180158
        FD1US1
        DATA BASED ON 180000Z
        VALID 180600Z   FOR USE 0500-0900Z. TEMPS NEG ABV 24000

        FT  3000    6000    9000   12000   18000   24000  30000  34000  39000
        AAA      9900+02 3219+02 3122+00 2930-12 2837-25 286839 279847 770455
        BBB 3513 3314+03 3219+02 3122+00 2930-12 2837-25 286839 279847 7799
        """;

    [Fact]
    public void A_bulletin_gives_the_named_station_and_its_time()
    {
        WindForecast winds = Assert.Single(WindFiles.Parse(Bulletin, "fb.txt", "AAA"));
        Assert.Equal(8, winds.Levels.Length);
        Assert.Equal(6000 * 0.3048, winds.Bottom.Metres, 0.1);
        Assert.Equal(0, winds.Levels[0].Wind.SpeedMps);
        Assert.Equal(104 * 1852 / 3600.0, winds.Levels[^1].Wind.SpeedMps, 1e-9);
        Assert.Equal(-55, winds.Levels[^1].TemperatureC);
        // The air is 9 K warmer than the standard at 12 000 ft and 5 K at 30 000 ft: pressures lie about 3 % higher.
        Assert.InRange(winds.Top.Metres, 39_000 * 0.3048 + 200, 39_000 * 0.3048 + 450);
        // A day and an hour become the moment nearest to the flight.
        Instant flight = Instant.FromUtc(new(2026, 3, 1), TimeSpan.FromHours(12));
        Assert.Equal(Instant.FromUtc(new(2026, 2, 18), TimeSpan.FromHours(6)), winds.Valid!.Value.Near(flight));
        Assert.Equal(WindOrigin.Forecast, winds.Origin);
        Assert.Contains(Assert.Single(WindFiles.Parse(Bulletin, "fb.txt", "BBB")).Notes,
            n => n.Contains("199 kt", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("valid 2026-06-21T12:00Z\n", "height_ft,from_deg,speed_kt\n1000,270,10\n", 304.8, 5.144)]
    [InlineData("", "Height (km);Direction (°);Speed (m/s)\n1.5;270;10\n", 1500, 10)]
    [InlineData("", "speed_kmh\tdir\talt_m\n36\t270\t1500\n", 1500, 10)]
    public void A_table_tells_its_units_in_its_header(string comment, string table, double metres, double mps)
    {
        string text = comment.Length > 0 ? "# " + comment + table : table;
        WindForecast winds = Assert.Single(WindFiles.Parse(text, "w.csv", null));
        ForecastLevel level = Assert.Single(winds.Levels);
        Assert.Equal(metres, level.Height.Metres, 0.01);
        Assert.Equal(mps, level.Wind.EastMps, 0.001);
        Assert.Equal(comment.Length > 0, winds.Valid is not null);
    }

    [Theory]
    [InlineData("", "w: empty; get the file again")]
    [InlineData("\u0000\u0001\u0002", "w: not a text;")]
    [InlineData("hello", "w: no wind file; known are")]
    [InlineData("height,from_deg,speed_mps\n1,2,3",
        "w:1: column height: its unit is not told; name it such as height_m")]
    [InlineData("height_m,from_deg,speed\n1,2,3", "w:1: column speed: its unit is not told; name it such as speed_mps")]
    [InlineData("height_agl_m,from_deg,speed_mps\n1,2,3",
        "w:1: column height_agl_m: heights must be above mean sea level")]
    [InlineData("height_m,to_deg_from,speed_mps\n1,2,3", "w:1: column to_deg_from: degrees true from which")]
    [InlineData("# x\nheight_m,from_deg,speed_mps\n100,2,3\n200,400,3",
        "w:4: from_deg = 400: 400 degrees is not within 0 and 360")]
    [InlineData("height_m,from_deg,speed_mps\n100,2,abc",
        "w:2: speed_mps = abc: a number with a decimal point is needed")]
    [InlineData("height_m,from_deg,speed_mps\n100,2", "w:2: 2 columns, speed_mps is number 3")]
    [InlineData("height_m,from_deg,speed_mps\n1,2,3\n30,2,3",
        "w:1: column height_m: the highest level is 30 m; are these kilom")]
    [InlineData("height_m,from_deg,speed_mps,p_hPa\n39000,2,3,196", "w:2: height_m: 39000 m has usually not 196 hPa")]
    [InlineData("height_m,from_deg,speed_mps\n,2,3", "w: no row with height, direction and speed")]
    [InlineData("TTAA 73121 83779 99938 21224", "w:1: TTAA of station 83779: it ends where dddff should follow")]
    [InlineData("TTAA 73121 83779 99938 21224 45008", "w:1: TTAA of station 83779: 45008: a wind dddff expected")]
    [InlineData("TTAA 73121 83779 99938 2x224 01008", "w:1: TTAA of station 83779: 2x224: TTTDD expected")]
    [InlineData("TTAA 40121 83779", "w:1: TTAA 40121 83779: day, hour and station YYGGI IIiii expected")]
    [InlineData("TTAA 73121 NIL=", "w: all parts are NIL, nothing was observed")]
    [InlineData("#USM00070026 2010 06 01 00 2303  158 ncdc6301 ncdc6301  712889 -1567833\n",
        "w:1: 158 levels announced, 1 follow")]
    [InlineData("#USM00070026 2010 06 01 00 2303    1 ncdc6301 ncdc6301  712889 -1567833\nabc",
        "w:2: 3 characters, PRESS")]
    public void What_is_wrong_is_told_in_one_line(string text, string error)
    {
        string message = Assert.Throws<UserErrorException>(() => WindFiles.Parse(text, "w", null)).Message;
        Assert.StartsWith(error, message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("3122+00 2930-12", "3122+00", "w:7: AAA: 2837-25 cannot stand under 30000 ft")]
    [InlineData("3219+02", "32X9+02", "w:7: AAA: 32X9+02 is no group ddff±TT")]
    [InlineData("180600Z", "990600Z", "w:4: VALID 990600Z: no day, hour and minute ddhhmmZ")]
    public void A_bad_row_of_a_bulletin_is_told(string good, string bad, string error)
    {
        string text = Bulletin.Replace(good, bad, StringComparison.Ordinal).Replace("AAA      ", "AAA ",
            StringComparison.Ordinal);
        if (bad.Length < good.Length) text = text.Replace("770455", "", StringComparison.Ordinal);
        string message = Assert.Throws<UserErrorException>(() => WindFiles.Parse(text, "w", "AAA")).Message;
        Assert.StartsWith(error, message, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_several_stations_one_must_be_named()
    {
        Assert.StartsWith("fb.txt: 2 stations; name one after the file, \"fb.txt#AAA\": AAA BBB",
            Assert.Throws<UserErrorException>(() =>
                WindFiles.Parse(Bulletin, "fb.txt", null)).Message, StringComparison.Ordinal);
        Assert.StartsWith("fb.txt: no station CCC in it; there are AAA BBB",
            Assert.Throws<UserErrorException>(() =>
                WindFiles.Parse(Bulletin, "fb.txt", "CCC")).Message, StringComparison.Ordinal);
    }

    /// <summary>Files cut short or with characters exchanged give winds or one line of error, nothing else.</summary>
    [Theory]
    [InlineData(Bulletin)]
    [InlineData("# x\nheight_m,from_deg,speed_mps,p_hPa\n100,2,3,1000\n1000,20,30,900\n5000,,4,540\n")]
    [InlineData("TTAA 73121 83779 99938 21224 01008 00163 ///// ///// 92843 20019 07506 85570 18650 36008 77999=\n"
        + "TTBB 73128 83779 00938 21224 11882 16804 21212 00938 01008 11870 01510=\n"
        + "PPBB 73120 83779 90123 01008 01510 00000=")]
    [InlineData("#USM00070026 2010 06 01 00 2303    2 ncdc6301 ncdc6301  712889 -1567833\n"
        + "21 -9999 100980A   12B    0   900    10    20    51\n"
        + "20  0100  97290   309    -24   900    10    40    60\n")]
    public void Damaged_files_give_winds_or_one_line_of_error(string text)
    {
        SeededRandom random = new(7);
        const string Signs = "0129/#,-+.= \nAZ\u0000é";
        for (int i = 0; i < 2000; i++)
        {
            char[] damaged = text[..(i % 3 == 0 ? random.NextBelow(text.Length) : text.Length)].ToCharArray();
            for (int k = random.NextBelow(4); k > 0 && damaged.Length > 0; k--)
                damaged[random.NextBelow(damaged.Length)] = Signs[random.NextBelow(Signs.Length)];
            try
            {
                foreach (WindForecast winds in WindFiles.Parse(new string(damaged), "w", i % 2 == 0 ? "AAA" : null))
                    Assert.All(winds.Levels, l => Assert.True(double.IsFinite(l.Height.Metres + l.Wind.SpeedMps)));
            }
            catch (UserErrorException e)
            {
                Assert.StartsWith("w:", e.Message, StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public void Files_that_cannot_be_winds_are_refused_before_they_are_read()
    {
        using TempFolder temp = new();
        string large = temp["large.txt"];
        using (FileStream file = File.Create(large)) file.SetLength(100 << 20);
        Assert.StartsWith($"{large}: wind files have 16 MiB at most",
            Assert.Throws<UserErrorException>(() => WindFiles.Read(large)).Message, StringComparison.Ordinal);
        Assert.Contains("no such file", Assert.Throws<UserErrorException>(() => WindFiles.Read(temp["none"])).Message,
            StringComparison.Ordinal);
    }
}
