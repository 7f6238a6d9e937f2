using Groundstation.Console.Commands;
using Xunit;

namespace Groundstation.Console.Tests.Commands;

/// <summary><c>plan</c>: its sheet, its notice and the path before launch.</summary>
public sealed class PlanCommandTests : CommandTest
{
    [Theory]
    [InlineData("0001-01-01T00:00Z")]
    [InlineData("9999-12-31T23:59Z")]
    public void A_launch_in_a_year_that_no_calendar_holds_is_refused_in_one_line(string utc)
    {
        (int code, _, string error) = Run("plan", BundledFlights.File("clean", "plan.toml"), "--launch", utc);
        Assert.Equal(2, code);
        Assert.Contains("--launch takes a time in UTC", error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_wrong_plan_names_file_line_and_key()
    {
        string plan = FileWith("plan.toml", "[balloon]\nburst_height = 3\n");
        (int code, _, string error) = Run("plan", plan);
        Assert.Equal(1, code);
        OneLine(error);
        Assert.Contains(plan + ":2", error);
        Assert.Contains("burst_height", error);
    }

    [Fact]
    public void A_plan_is_told_as_the_station_will_use_it_with_cautions()
    {
        (int code, string output, string error) = Run("plan",
            FileWith("plan.toml", "[balloon]\nburst_height_m = 27500\n"));
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("at 27 500 m", output);
        Assert.Contains("assumed", output);
        Assert.Contains("Hydrogen burns", output);
        Assert.Contains("power lines", output);
    }

    [Fact]
    public void A_plan_with_winds_tells_the_path_before_launch_and_writes_it_for_maps()
    {
        FileWith("w.csv", "# sounding 2026-06-21T06:00Z\nheight_m,from_deg,speed_mps\n200,270,5\n18000,270,15\n");
        string plan = FileWith("path.toml", "winds = [\"w.csv\"]\n[launch]\nlatitude_deg = 48\nlongitude_deg = -30\n"
            + "height_m = 200\n");
        string maps = Path.Combine(Path.GetDirectoryName(plan)!, "maps");
        (int code, string output, string error) = Run("plan", plan, "--launch", "2026-06-21T09:00Z", "--launch",
            "2026-06-22T09:00Z", "--out", maps);
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("measured 2026-06-21 06:00Z, 3 h 00 min before the first launch", output);
        Assert.Contains("above 18 000 m the wind is unknown up to the burst at 30 000 m", Unwrapped(output));
        Assert.Contains("2026-06-22 09:00Z", output);
        Assert.Contains("27 h 00 min outside the times told", output);
        Assert.Contains("landing", output);
        Assert.All((string[])["path.geojson", "path.gpx", "path.kml"],
            name => Assert.True(new FileInfo(Path.Combine(maps, name)).Length > 1000));
        // To the millisecond: the burst falls between two of them.
        Assert.DoesNotMatch(@"\.\d{4,}Z", File.ReadAllText(Path.Combine(maps, "path.gpx")));

        (code, output, _) = Run("plan", FileWith("calm.toml", "[launch]\nlatitude_deg = 48\nlongitude_deg = -30\n"));
        Assert.Equal(0, code);
        Assert.Contains("  not worked out, the plan has no winds", output);
    }

    [Fact]
    public void The_plan_s_own_levels_end_where_they_end_and_the_sheet_says_so()
    {
        string Levels(double topM) => "[launch]\nlatitude_deg = 48\nlongitude_deg = -30\nheight_m = 100\n"
            + string.Concat(((double[])[0, topM / 2, topM]).Select(z =>
                $"[[wind]]\nheight_m = {z}\nfrom_deg = 270\nspeed_mps = 8\n"));
        (int code, string output, _) = Run("plan", FileWith("low.toml", Levels(4000)), "--launch", "2026-06-21T07:00Z");
        Assert.Equal(0, code);
        Assert.Contains("the plan's own levels", output);
        Assert.Contains("above 4 000 m the wind is unknown up to the burst at 30 000 m: the area allows for it",
            Unwrapped(output));
        Assert.Contains("wind above 20 km", output);
    }

    [Fact]
    public void The_planned_landing_lies_on_the_terrain_where_there_are_tiles()
    {
        // Flat at 400 m up to 29.5° W, then a ramp of 1200 m a degree to the east, whither the wind blows; no tile
        // beyond.
        string plan = FileWith("hills.toml", "winds = [\"west.csv\"]\n[launch]\nlatitude_deg = 48.5\nlongitude_deg = -29.9\n"
            + "height_m = 400\n[landing]\nterrain_folder = \"tiles\"\nground_m = 77\n");
        FileWith("west.csv", "height_m,from_deg,speed_mps\n" + string.Concat(Enumerable.Range(0, 36).Select(k =>
            $"{k * 1000},270,10\n")));
        DirectoryInfo tiles = Directory.CreateDirectory(Path.Combine(Path.GetDirectoryName(plan)!, "tiles"));
        foreach (int west in (int[])[30, 29])
        {
            byte[] tile = new byte[1201 * 1201 * 2];
            for (int i = 0; i < tile.Length; i += 2)
            {
                double lon = -west + i / 2 % 1201 / 1200.0;
                System.Buffers.Binary.BinaryPrimitives.WriteInt16BigEndian(tile.AsSpan(i),
                    (short)(400 + 1200 * Math.Max(0, lon + 29.5)));
            }
            File.WriteAllBytes(Path.Combine(tiles.FullName, $"N48W0{west}.hgt"), tile);
        }

        (_, string output, string error) = Run("plan", plan, "--launch", "2026-06-21T09:00Z");
        Assert.Equal("", error);
        System.Text.RegularExpressions.Match landing = System.Text.RegularExpressions.Regex.Match(Unwrapped(output),
            @"ground at (\d) (\d+) m \(terrain tiles\), [\d.]+N (28\.\d+)W");
        Assert.True(landing.Success, output);
        double west28 = double.Parse(landing.Groups[3].Value, System.Globalization.CultureInfo.InvariantCulture);
        Assert.Equal(400 + 1200 * (29.5 - west28), double.Parse(landing.Groups[1].Value + landing.Groups[2].Value,
            System.Globalization.CultureInfo.InvariantCulture), 3.0);

        (_, output, _) = Run("plan", FileWith("beyond.toml",
            File.ReadAllText(plan).Replace("-29.9", "-28.6", StringComparison.Ordinal)), "--launch", "2026-06-21T09:00Z");
        Assert.Contains("ground at 77 m (no tile there, as planned)", output);
    }

    [Fact]
    public void A_launch_time_asked_for_goes_before_the_plan_s_in_sheet_and_notice()
    {
        (_, string notice, _) = Run("plan", BundledFlights.File("clean", "plan.toml"), "--launch", "2027-05-08T09:00Z",
            "--notice", "-");
        Assert.Contains("2027-05-08 09:00 UTC", notice);
        Assert.DoesNotContain("NOT STATED", notice);
        Assert.DoesNotContain("08:30", notice);
    }

    [Fact]
    public void A_notice_that_cannot_be_written_names_the_file_and_what_to_do()
    {
        string there = Path.Combine(_folder, "no", "notice.txt");
        (int code, string output, string error) = Run("plan", BundledFlights.File("clean", "plan.toml"), "--notice", there);
        Assert.Equal((1, ""), (code, output));
        Assert.Contains(there + ": cannot be written; name another file", error);
    }

    [Fact]
    public void A_plan_sheet_without_winds_keeps_to_80_columns()
    {
        string plan = FileWith("no-winds.toml", "[launch]\nlatitude_deg = 48\nlongitude_deg = -30\nheight_m = 200\n");
        string output = Run("plan", plan).Output;
        Assert.Contains("not worked out, the plan has no winds", output);
        Assert.DoesNotContain(output.Split('\n'), line => line.Length > 80);
    }

    [Fact]
    public void The_bundled_plan_shows_a_newcomer_the_whole_sheet()
    {
        (int code, string output, _) = Run("plan", BundledFlights.File("clean", "plan.toml"));
        Assert.Equal(0, code);
        foreach (string words in (string[])["NECK LIFT           2.664 kg", "5.0 m/s at launch ±20 %, from the fill",
            "burst               at 29 647 m", "left after the fill", "time up", "Path before launch", "◆ landing"])
            Assert.Contains(words, output);
        Assert.DoesNotContain("No balloon in the plan", output);
        Assert.DoesNotContain(output.Split('\n'), line => line.Length > 80);
    }

    [Fact]
    public void A_plan_tells_in_how_many_of_100_landings_a_keep_out_is_met()
    {
        FileWith("calm.csv", "# sounding 2026-06-21T06:00Z\nheight_m,from_deg,speed_mps\n200,270,5\n34000,270,5\n");
        FileWith("lake.geojson", """
            {"type":"Feature","properties":{"name":"Long Lake","kind":"water"},"geometry":{"type":"Polygon",
             "coordinates":[[[-45,40],[-15,40],[-15,56],[-45,56],[-45,40]]]}}
            """);
        string plan = FileWith("lake.toml", "winds = [\"calm.csv\"]\n[launch]\nlatitude_deg = 48\nlongitude_deg = -30\n"
            + "height_m = 200\n[landing]\nkeep_out = [\"lake.geojson\"]\n");
        (int code, string output, string error) = Run("plan", plan, "--launch", "2026-06-21T07:00Z");
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("! 100 of 100 landings in Long Lake (water)", output);
    }
}
