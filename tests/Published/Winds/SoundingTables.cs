using Groundstation.Core.Air;
using Groundstation.Core.Plan;
using Groundstation.Io.Winds;
using Xunit;

namespace Groundstation.Published.Winds;

/// <summary>Upper-air reports and soundings against published values.</summary>
public class SoundingTables
{
    /// <summary>temp_fm35.tsv: groups worked out in NAVEDTRA 14270 and on a public page (opened as excerpts).</summary>
    [Fact]
    public void Groups_of_upper_air_reports_are_decoded_as_published()
    {
        Assert.Equal(1457, TempGroups.HeightM(850, "457"));
        Assert.Equal(17_110, TempGroups.HeightM(100, "711"));
        Assert.Equal(1030, TempGroups.SurfaceHpa("030"));
        Assert.Equal((110, 112), Of("11112"));
        Assert.Equal((115, 112), Of("11612"));
        Assert.Equal((250, 14), Of("25014"));
        Assert.Equal((9.4, 2.1), TempGroups.Air("09421"));
        Assert.Equal(11.0, TempGroups.Air("11056").TemperatureC);

        static (int, int)? Of(string group) => TempGroups.Wind(group, knots: true) is { } w
            ? (w.FromDeg, w.Speed) : null;
    }

    /// <summary>
    /// hypsometric_real.csv: dry heights of 653 real levels, computed with R = 287.05287 and layer means from the
    /// lowest level of each sounding, to 0.1 m; and the heights that the radiosondes reported, which humidity moves by
    /// up to 1 % of the lowest 5 km, and the rounding of low pressures by 0.2 %.
    /// </summary>
    [Fact]
    public void Heights_follow_from_pressures_and_temperatures_as_computed_and_as_reported()
    {
        PublishedTable table = PublishedTable.Read("hypsometric_real.csv");
        Assert.Equal(653, table.Rows.Count);
        foreach (var sounding in table.Rows.GroupBy(r => r["sounding"]))
        {
            PublishedRow[] rows = [.. sounding];
            double z = rows[0].Number("gph_dry_hypsometric_m");
            for (int i = 1; i < rows.Length; i++)
            {
                z += Hypsometry.ThicknessM(rows[i - 1].Number("p_hPa"), rows[i - 1].Number("t_C") + 273.15,
                    rows[i].Number("p_hPa"), rows[i].Number("t_C") + 273.15);
                Assert.Equal(rows[i].Number("gph_dry_hypsometric_m"), z, 0.06 + 0.1);
                Assert.Equal(rows[i].Number("gph_reported_m"), z, 2 + 0.01 * Math.Min(z, 5000) + 0.002 * z);
            }
        }
    }

    /// <summary>
    /// igra_v2_format.tsv: the columns of the format. A real sounding written in them again must give the same winds at
    /// the same heights as its table.
    /// </summary>
    [Theory]
    [InlineData("sounding_igra_USM00070026_20100601T00Z.csv", "#USM00070026 2010 06 01 00 2303")]
    [InlineData("sounding_igra_USM00070026_20100601T12Z.csv", "#USM00070026 2010 06 01 12 1100")]
    public void A_radiosonde_file_gives_the_winds_of_its_table(string name, string head)
    {
        PublishedTable table = PublishedTable.Read(name);
        List<string> lines = [$"{head} {table.Rows.Count,4} ncdc6301 ncdc6301  712889 -1567833"];
        lines.AddRange(table.Rows.Select(r => "20 -9999 "
            + Field(r, "p_hPa", 100, 6) + " " + Field(r, "alt_gph_m", 1, 5) + " " + Field(r, "t_C", 10, 5) + " "
            + "-9999 " + "-9999 " + Field(r, "wind_dir_deg_true", 1, 5) + " " + Field(r, "wind_speed_mps", 10, 5)));
        Assert.All(lines.Skip(1), l => Assert.Equal(51, l.Length));

        WindForecast radiosonde = Assert.Single(WindFiles.Parse(string.Join('\n', lines) + "\n", "igra.txt", null));
        WindForecast csv = Assert.Single(WindFiles.Read(Path.Combine(AppContext.BaseDirectory, "data", name)));

        Assert.Equal(71.2889, radiosonde.Place!.Value.LatitudeDeg);
        Assert.Equal(csv.Valid, radiosonde.Valid);
        Assert.Equal(WindOrigin.Measured, radiosonde.Origin);
        Assert.Equal(csv.Levels.Length, radiosonde.Levels.Length);
        foreach ((ForecastLevel one, ForecastLevel other) in csv.Levels.Zip(radiosonde.Levels))
        {
            Assert.Equal(one.Height.Metres, other.Height.Metres, 0.06);
            Assert.Equal(one.Wind, other.Wind);
        }

        static string Field(PublishedRow row, string column, double scale, int width) =>
            (row.Has(column) ? $"{Math.Round(row.Number(column) * scale)}" : "-9999").PadLeft(width);
    }
}
