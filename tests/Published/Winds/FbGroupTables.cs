using System.Globalization;
using Groundstation.Io.Winds;
using Xunit;

namespace Groundstation.Published.Winds;

/// <summary>
/// fb_winds_decoded.csv: 711 groups of real FB bulletins, decoded by the rules of AC 00-45 in a script and equal to an
/// independent decoder; fb_winds_published.csv: single groups worked out on public pages.
/// </summary>
public class FbGroupTables
{
    [Fact]
    public void Every_group_of_real_bulletins_is_decoded_as_published()
    {
        PublishedTable table = PublishedTable.Read("fb_winds_decoded.csv");
        Assert.Equal(711, table.Rows.Count);
        Assert.DoesNotContain(table.Rows, row => Decoded(row) != Told(row));
    }

    [Fact]
    public void Worked_examples_are_decoded_as_published()
    {
        PublishedTable table = PublishedTable.Read("fb_winds_published.csv");
        Assert.Equal(22, table.Rows.Count);
        Assert.DoesNotContain(table.Rows, row => Decoded(row) != Told(row));
    }

    /// <summary>
    /// The bulletins again, as they were sent, made of the table: each group under its height, missing ones blank, and
    /// with all blanks but one lost.
    /// </summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Whole_bulletins_put_every_group_under_its_height(bool aligned)
    {
        PublishedTable table = PublishedTable.Read("fb_winds_decoded.csv");
        int seen = 0;
        foreach (var bulletin in table.Rows.GroupBy(r => r["bulletin"]))
        {
            int[] heights = [.. bulletin.Select(r => (int)r.Number("alt_ft")).Distinct().Order()];
            // Widths of a bulletin's columns: four figures at 3000 ft, then ddff±TT or ddffTT.
            string head = "FT" + string.Concat(heights.Select(h => $"{h}".PadLeft(Width(h))));
            List<string> lines = ["DATA BASED ON 180000Z", "VALID 180600Z   FOR USE 0500-0900Z. TEMPS NEG ABV 24000",
                "", head];
            foreach (var station in bulletin.GroupBy(r => r["station"]))
            {
                lines.Add(station.Key + string.Concat(heights.Select(h =>
                {
                    string group = station.FirstOrDefault(r => (int)r.Number("alt_ft") == h)?["group"] ?? "";
                    string cell = group.PadLeft(Width(h) - (h == heights[0] ? 1 : 0));
                    return aligned ? cell : group.Length > 0 ? " " + group : "";
                })));
            }

            foreach (FbRow row in FbBulletin.Rows(lines, "fb.txt"))
            {
                foreach ((int altitudeFt, FbGroup group) in row.Levels)
                {
                    PublishedRow told = Assert.Single(bulletin,
                        r => r["station"] == row.Station && (int)r.Number("alt_ft") == altitudeFt);
                    Assert.Equal(FbGroup.Parse(told["group"], altitudeFt), group);
                    seen++;
                }
            }
        }

        Assert.Equal(711, seen);
        static int Width(int heightFt) => heightFt <= 3000 ? 6 : 8;
    }

    private static string Decoded(PublishedRow row) =>
        FbGroup.Parse(row["group"], (int)row.Number("alt_ft")) is { } group
        ? string.Create(CultureInfo.InvariantCulture,
            $"{(group.DirectionDeg is { } d ? $"{d}" : "LV")} {group.SpeedKt}{(group.OrMore ? "+" : "")} "
            + $"{group.TemperatureC}")
        : "none";

    private static string Told(PublishedRow row) => $"{row["dir_deg_true"]} {row["speed_kt"]} {row["temp_c"]}";
}
