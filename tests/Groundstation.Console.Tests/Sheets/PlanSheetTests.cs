using Groundstation.Console.Sheets;
using Groundstation.Core.Plan;
using Groundstation.Io.PlanFile;
using Xunit;

namespace Groundstation.Console.Tests.Sheets;

/// <summary>The plan sheet as a teacher in the field reads it.</summary>
public sealed class PlanSheetTests
{
    private const string Helium = """
        [launch]
        height_m = 420
        latitude_deg = 47.1
        longitude_deg = 2.4
        time_utc = 2026-06-21T09:30:00Z
        [balloon]
        mass_g = 800
        burst_diameter_m = 7
        [fill]
        ascent_rate_mps = 5
        [cylinder]
        size_l = 50
        pressure_bar = 180
        flow_lpm = 100
        [payload]
        boxes_kg = 0.95
        line_g = 40
        parachute_g = 110
        flags_g = 60
        line_break_n = 180
        [parachute]
        diameter_m = 1.2
        [tracker]
        altitude_limit_m = 50000
        """;

    private const string Hydrogen = """
        display.units = "customary"
        launch.height_ft = 5200
        balloon.mass_oz = 42
        balloon.burst_diameter_ft = 28
        fill.gas = "hydrogen"
        fill.burst_height_ft = 95000
        fill.site_pressure_inhg = 29.92
        cylinder.size_ft3 = 0.5
        cylinder.pressure_psi = 1000
        payload.boxes_lb = 6.5
        parachute.shape = "cross"
        parachute.descent_rate_fps = 15
        """;

    private const string Nonsense = """
        launch.height_m = 100
        balloon.mass_kg = 3
        balloon.burst_diameter_m = 2
        fill.gas_m3 = 5
        payload.mass_kg = 4
        parachute.drag_area_m2 = 0.3
        tracker.altitude_limit_m = 12000
        """;

    private static string Sheet(string plan) => PlanSheet.Text(PlanReader.Parse(plan, "p"));

    [Fact]
    public void Every_doubt_has_words_of_its_own()
    {
        FlightPlan plan = PlanReader.Parse(Helium, "p");
        string[] words = [.. Enum.GetValues<PlanDoubt>().Select(doubt => DoubtWords.Say(doubt, plan))];
        Assert.Equal(words, words.Distinct());
    }

    [Fact]
    public void A_usual_flight_tells_what_to_weigh_and_how_long_it_lasts()
    {
        string sheet = Sheet(Helium);
        // 1.16 kg under a balloon of 0.8 kg at 5 m/s: by the physics held against the reference tables.
        Assert.Matches(@"NECK LIFT +2\.2\d\d kg", sheet);
        Assert.Contains("balloon's own mass is not", sheet);
        Assert.Contains("litres of water in a jug", sheet);
        Assert.Contains("1 cylinder at 180 bar", sheet);
        Assert.Contains("lands at 11:4", sheet);
        Assert.Contains("nothing wrong or doubtful", sheet);
        Assert.Contains("light: under 4 kg", sheet);
        Assert.Contains("not subject by weight", sheet);
        Assert.Contains("Nothing has been filed", sheet);
    }

    [Fact]
    public void Customary_units_go_in_and_come_out()
    {
        string sheet = Sheet(Hydrogen);
        Assert.Contains("a burst at 95 000 ft", sheet);
        Assert.Contains("6.50 lb", sheet);
        Assert.Contains("900 ft/min at sea", sheet);
        Assert.Contains("NOT ENOUGH GAS", sheet);
        Assert.Contains("was it reduced to sea level?", sheet);
        Assert.Contains("hydrogen burns", sheet);
        Assert.Contains("SUBJECT to part 101: a package over 6 lb", sheet);
        Assert.DoesNotContain(" kg", sheet.Split("RULES")[0]);
    }

    [Fact]
    public void Nonsense_gets_clear_words_and_no_flight_that_cannot_be()
    {
        string sheet = Sheet(Nonsense);
        Assert.Contains("NOT TO BE FLOWN AS IT STANDS: 3 wrong", sheet);
        Assert.Contains("WRONG: the free lift is negative", sheet);
        Assert.Contains("it bursts while being filled", sheet.Replace("\n    ", " "));
        Assert.Contains("does not burst at 2.00 m", sheet);
        Assert.Contains("landing at 14.7 m/s is over 7.0 m/s", sheet);
        Assert.Contains("gives no fix above 12 000 m", sheet);
        Assert.Contains("the fill does not get there", sheet);
        Assert.DoesNotContain("time up", sheet);
        Assert.DoesNotContain("NaN", sheet);
        Assert.DoesNotContain("∞", sheet);
    }

    [Theory]
    [InlineData("balloon.ascent_rate_mps = 2.5", "under 3.0 m/s")]
    [InlineData("balloon.ascent_rate_mps = 8.5", "over 8.0 m/s")]
    [InlineData("balloon.burst_height_m = 3000\nlanding.ground_m = 5000", "landing ground lies above the burst")]
    [InlineData("balloon.mass_kg = 0.5\nballoon.burst_diameter_m = 30\nfill.free_lift_kg = 1", "does not burst at "
        + "30.00 m")]
    [InlineData("balloon.mass_kg = 3\nballoon.burst_diameter_m = 13\nballoon.burst_height_m = 47000", "beyond what "
        + "latex")]
    [InlineData("balloon.mass_kg = 0.6", "burst diameter assumed (5.73 m")]
    [InlineData("balloon.mass_kg = 0.6\nfill.purity = 0.8", "gas of 80 % is poor")]
    [InlineData("balloon.mass_kg = 0.6\nballoon.ascent_rate_mps = 7\nfill.free_lift_kg = 0.5", "states an ascent "
        + "rate of 7.0")]
    [InlineData("launch.latitude_deg = 60\nlaunch.longitude_deg = 10\nlaunch.time_utc = 2026-12-21T13:00Z",
        "it lands in darkness (sunrise 08:2")]
    [InlineData("launch.latitude_deg = 60\nlaunch.longitude_deg = 10\nlaunch.time_utc = 2026-12-21T06:30Z",
        "it is launched in darkness")]
    [InlineData("balloon.mass_kg = 1\nballoon.burst_diameter_m = 7.9\nfill.burst_height_m = 45000\npayload.mass_kg = 2",
        "So high a burst needs a larger balloon")]
    [InlineData("parachute.descent_rate_mps = 2", "under 3.0 m/s: it drifts far")]
    public void Doubtful_input_is_named(string plan, string words) =>
        Assert.Contains(words, Sheet(plan).Replace("\n    ", " "));

    [Fact]
    public void Sheets_stay_within_eighty_columns_and_are_printable()
    {
        foreach (string plan in (string[])[Helium, Hydrogen, Nonsense, ExamplePlan.Text, ""])
        {
            FlightPlan read = PlanReader.Parse(plan, "p");
            foreach (string line in (PlanSheet.Text(read) + NoticeSheet.Text(read)).Split('\n'))
            {
                Assert.True(line.Length <= 80, line);
                Assert.DoesNotContain(line, char.IsControl);
            }
        }
    }

    [Fact]
    public void The_notice_says_what_is_missing_and_that_nothing_was_sent()
    {
        string notice = NoticeSheet.Text(PlanReader.Parse(Helium, "p"));
        Assert.Contains("NOT FILED", notice);
        Assert.Contains("NOT STATED (notice.operator)", notice);
        Assert.Contains("(4706N00224E)", notice);
        Assert.Contains("60000 ft / 18288 m  up 10:2", notice);
        Assert.Contains("no winds were given", notice);
        Assert.DoesNotContain("NOT STATED", NoticeSheet.Text(PlanReader.Parse(ExamplePlan.Text, "p")));
        Assert.Contains("an ellipse near the lake", NoticeSheet.Text(FlightPlan.Default, "an ellipse near the lake"));
    }
}
