using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Io.PlanFile;
using Xunit;

namespace Groundstation.Io.Tests.PlanFile;

/// <summary>
/// A plan is read strictly: the first thing wrong is told in one line that names file, line, key and remedy.
/// </summary>
public sealed class PlanReaderTests
{
    [Fact]
    public void Callouts_and_speech_are_read()
    {
        FlightPlan plan = PlanReader.Parse("""
            [callouts]
            to = "Car 2"
            coordinates = "mgrs"
            bearings = "magnetic"
            [speech]
            program = "espeak-ng"
            arguments = ["-s", "140", "{text}"]
            """, "plan.toml");
        Assert.Equal(new() { To = "Car 2", Coordinates = CoordinateFormat.Mgrs, MagneticBearings = true },
            plan.Callouts);
        Assert.Equal("espeak-ng", plan.Speech.Program);
        Assert.Equal(["-s", "140", "{text}"], plan.Speech.Arguments);
    }

    [Theory]
    [InlineData("[callouts]\ncoordinates = \"grid\"", "\"mgrs\"")]
    [InlineData("[callouts]\nto = \"Chase car number two\"", "1 or 2 words")]
    [InlineData("[speech]\narguments = \"-s 140\"", "a list of texts")]
    public void A_wrong_callout_key_is_told_with_what_is_allowed(string text, string says) => Assert.Contains(says,
        Assert.Throws<UserErrorException>(() => PlanReader.Parse(text, "plan.toml")).Message, StringComparison.Ordinal);

    [Fact]
    public void The_example_plan_is_good_and_shows_every_key()
    {
        FlightPlan plan = PlanReader.Parse(ExamplePlan.Text, "example-plan.toml");
        Assert.Equal("Example flight", plan.Name);
        Assert.Equal(48.25, plan.LaunchSite!.Value.LatitudeDeg);
        Assert.Equal(-30.5, plan.LaunchSite!.Value.LongitudeDeg);
        // Cd 0.775 on a circle of 1.25 m is 0.951 m²: √(2·1.5·9.80665 / (1.225·0.951)) = 5.025
        Assert.Equal(5.025, plan.DescentRateSeaLevelMps, 0.001);
        Assert.Equal(5, plan.AscentRateMps, 1e-9);
        Assert.InRange(plan.BurstHeight.Metres, 31_000, 32_500);
        Assert.Equal(0.2, plan.DescentRateLnSigma);
        Assert.Equal([1500, 10_000, 20_000], Assert.Single(plan.Winds).Levels.Select(level => level.Height.Metres));
        Assert.Equal(90, plan.Winds[0].Levels[2].Wind.FromDeg, 1e-9);
        foreach (PlanKey key in PlanKeys.All)
        {
            // Without its unit, which may be another one.
            string name = key.Name.Split('.')[1];
            Assert.Contains(name.Contains('_') ? name[..name.LastIndexOf('_')] : name, ExamplePlan.Text);
        }

        Assert.Empty(PlanDefaults.Describe(plan));
    }

    [Theory]
    [InlineData("", 0.2)]
    [InlineData("balloon.ascent_rate_mps = 5", 0.2)]
    [InlineData("balloon.ascent_rate_ln_sigma = 0.07", 0.07)]
    [InlineData("balloon.mass_kg = 1\nfill.free_lift_kg = 1.2", 0.102)]
    [InlineData("balloon.mass_kg = 1\nfill.gas_m3 = 3.7", 0.105)]
    [InlineData("balloon.mass_kg = 1\nballoon.ascent_rate_mps = 5\nfill.free_lift_kg = 1.2", 0.2)]
    public void The_ascent_rate_is_as_sure_as_what_is_stated_of_it(string text, double sigma) =>
        Assert.Equal(sigma, PlanReader.Parse(text, "p").AscentRateLnSigma, 0.001);

    [Fact]
    public void An_empty_plan_is_all_defaults_and_they_are_told()
    {
        FlightPlan plan = PlanReader.Parse("", "p");
        Assert.Equal(FlightPlan.Default with { Winds = plan.Winds, Stated = plan.Stated }, plan);
        IReadOnlyList<string> told = PlanDefaults.Describe(plan);
        Assert.Contains("burst height: 30 km ± 5 km", told);
        Assert.Contains("descent rate at sea level until measured: 5 m/s ± 70 %", told);
    }

    [Fact]
    public void A_planned_rate_and_burst_are_surer_than_the_defaults()
    {
        FlightPlan plan = PlanReader.Parse("[balloon]\nburst_height_m=28000\n[parachute]\ndescent_rate_mps=4.5\n", "p");
        Assert.Equal((28_000, 1500, 4.5, 0.2),
            (plan.BurstHeight.Metres, plan.BurstSigmaM, plan.DescentRateSeaLevelMps, plan.DescentRateLnSigma));
        Assert.Equal(["balloon.burst_height_m", "parachute.descent_rate_mps"], plan.Stated);
    }

    [Fact]
    public void A_plan_in_customary_units_is_the_same_plan()
    {
        FlightPlan metric = PlanReader.Parse(
            "[launch]\nheight_m = 304.8\n[balloon]\nmass_kg = 0.6\n[fill]\nsite_temperature_c = 25\n"
            + "[[wind]]\nheight_m = 3048\nfrom_deg = 270\nspeed_mps = 10.288888888888888", "p");
        FlightPlan customary = PlanReader.Parse(
            "[launch]\nheight_ft = 1000\n[balloon]\nmass_lb = 1.3227735731092655\n[fill]\nsite_temperature_f = 77\n"
            + "[[wind]]\nheight_ft = 10000\nfrom_deg = 270\nspeed_kt = 20", "p");
        Assert.Equal(metric.LaunchHeight!.Value.Metres, customary.LaunchHeight!.Value.Metres, 1e-9);
        Assert.Equal(metric.BurstHeight.Metres, customary.BurstHeight.Metres, 1e-3);
        Assert.Equal(metric.Fill.SiteTemperatureC!.Value, customary.Fill.SiteTemperatureC!.Value, 1e-9);
        Assert.Equal(metric.Winds[0].Levels[0].Wind.EastMps, customary.Winds[0].Levels[0].Wind.EastMps, 1e-9);
        Assert.Equal(metric.Stated, customary.Stated);
    }

    [Fact]
    public void Ascent_rate_and_burst_follow_from_the_fill_unless_stated()
    {
        const string fill = "[balloon]\nmass_kg = 0.6\nburst_diameter_m = 6\n[fill]\nfree_lift_kg = 1\n";
        FlightPlan plan = PlanReader.Parse(fill, "p");
        Assert.InRange(plan.AscentRateMps, 4.5, 5.5);
        Assert.InRange(plan.BurstHeight.Metres, 25_000, 30_000);
        Assert.Equal(PlanDefaults.PlannedBurstSigmaM, plan.BurstSigmaM);
        Assert.Equal(6.5, PlanReader.Parse(
            "[balloon]\nmass_kg = 0.6\nascent_rate_mps = 6.5\n[fill]\nfree_lift_kg = 1", "p").AscentRateMps);
    }

    [Fact]
    public void All_ways_in_which_TOML_writes_tables_are_read_alike()
    {
        string[] ways =
        [
            "[launch]\nlatitude_deg = 1\nlongitude_deg = 2\n[[wind]]\nheight_m=10\nfrom_deg=0\nspeed_mps=3",
            "launch.latitude_deg = 1\nlaunch.longitude_deg = 2.0\nwind = [{height_m=10, from_deg=0, speed_mps=3}]",
            "launch = {latitude_deg = 1, longitude_deg = 2}\n\"wind\" = [\n {height_m=10, from_deg=0, speed_mps=3},\n]",
        ];
        Assert.Single(ways.Select(text => PlanReader.Parse(text, "p"))
            .Select(p => (p.LaunchSite, p.Winds[0].Levels[0])).Distinct());
    }

    [Theory]
    [InlineData("[launch]\nlatitude_deg = 91\nlongitude_deg = 0", 2, "launch.latitude_deg = 91", "from -90 to 90")]
    [InlineData("\n[launch]\nlatitude_deg = \"48\"", 3, "launch.latitude_deg = \"48\"", "from -90 to 90 degrees")]
    [InlineData("[launch]\nlatitude_deg = nan", 2, "launch.latitude_deg = nan", "a number")]
    [InlineData("[launch]\nlatitude_deg = 48", 2, "launch.latitude_deg", "only together with launch.longitude_deg")]
    [InlineData("[launch]\nlatitud_deg = 48", 2, "launch.latitud_deg unknown", "did you mean launch.latitude_deg?")]
    [InlineData("[lunch]\nx = 48", 1, "[lunch] unknown", "did you mean launch?")]
    [InlineData("[[launch]]\nheight_m = 4", 1, "[[launch]]", "as [launch]")]
    [InlineData("speed = 3", 1, "speed unknown", "no key of a plan")]
    [InlineData("# c\n\n[tracker]\nmin_satellites = 4.5", 4, "tracker.min_satellites = 4.5",
        "a whole number from 3 to 12")]
    [InlineData("[tracker]\nallow_no_checksum = 1", 2, "tracker.allow_no_checksum = 1", "true or false")]
    [InlineData("[display]\nunits = \"imperial\"", 2, "display.units", "\"metric\" or \"customary\"")]
    [InlineData("[flight]\nname = \"a\\u001bb\"", 2, "flight.name", "printable")]
    [InlineData("[flight]\nseed = -1", 2, "flight.seed = -1", "a whole number from 0")]
    [InlineData("[alarms]\nno_fix_s = 1e9", 2, "alarms.no_fix_s = 1e9", "from 2 to 600 s")]
    [InlineData("[alarms]\nascent_slow_mps = 5\nascent_fast_mps = 4", 3, "alarms.ascent_fast_mps", "below")]
    [InlineData("[balloon]\nmass_g = 600\nmass_lb = 1", 3, "balloon.mass_lb", "stated already in line 2")]
    [InlineData("[balloon]\nmass_lb = 90", 2, "balloon.mass_lb = 90", "a number from 0.01102 to 44.09 lb (the empty")]
    [InlineData("[balloon]\nmass_stone = 1", 2, "balloon.mass_stone unknown", "did you mean balloon.mass_kg?")]
    [InlineData("[fill]\ngas = \"helium\"", 2, "fill.gas", "only together with balloon.mass_kg")]
    [InlineData("[balloon]\nmass_g = 600\n[fill]\ngas_m3 = 3\nfree_lift_g = 900", 5, "fill.gas_m3 and fill.free_lift_kg",
        "one of the two")]
    [InlineData("[payload]\nmass_kg = 2\nline_g = 5", 3, "payload.mass_kg and payload.line_kg", "one of the two")]
    [InlineData("[launch]\ntime_utc = 2026-06-21T09:30:00", 2, "launch.time_utc", "ends with Z")]
    [InlineData("[launch]\ntime_utc = 0001-01-01T00:00:00Z", 2, "launch.time_utc", "from 1950 to 2199")]
    [InlineData("[launch]\ntime_utc = 9999-12-31T23:59:59Z", 2, "launch.time_utc", "from 1950 to 2199")]
    [InlineData("[parachute]\ndrag_area_m2 = 1\ndescent_rate_mps = 5", 3, "parachute.drag_area_m2", "one of the two")]
    [InlineData("[launch]\nheight_m = 3000\n[balloon]\nburst_height_m = 2000", 4, "balloon.burst_height_m", "below")]
    [InlineData("[[wind]]\nheight_m = 1\nfrom_deg = 361\nspeed_mps = 1", 3, "wind.from_deg = 361", "from 0 to 360")]
    [InlineData("[[wind]]\nheight_m = 1\nspeed_mps = 1", 1, "wind.from_deg missing", "from 0 to 360")]
    [InlineData("[wind]\nheight_m = 1", 1, "[wind]", "[[wind]]")]
    [InlineData("wind = 3", 1, "wind unknown", "")]
    [InlineData("[[wind]]\nheight_m=1\nfrom_deg=1\nspeed_mps=1\n[[wind]]\nheight_m=1\nfrom_deg=1\nspeed_mps=1", 5,
        "wind.height_m = 1", "another height than in line 1")]
    [InlineData("[launch]\nheight_m = 1\nheight_m = 2", 3, "not TOML", "already defined")]
    [InlineData("[launch\n", 1, "not TOML", "")]
    [InlineData("a = = 1", 1, "not TOML", "")]
    [InlineData("\n\"\\u00", 2, "not TOML", "an escape is cut off")]
    [InlineData("winds = [\"C:\\winds.csv\"]", 1, "not TOML", "write a path with / or as 'C:\\maps'")]
    [InlineData("\0\0\0", 1, "not TOML", "")]
    public void What_is_wrong_is_told_in_one_line(string text, int line, string key, string allowed)
    {
        string message = Assert.Throws<UserErrorException>(() => PlanReader.Parse(text, "plan.toml")).Message;
        Assert.StartsWith($"plan.toml:{line}: {key}", message, StringComparison.Ordinal);
        Assert.Contains(allowed, message, StringComparison.Ordinal);
        Assert.DoesNotContain(message, char.IsControl);
    }

    [Fact]
    public void A_missing_file_is_told_in_one_line() =>
        Assert.Equal("nowhere.toml: cannot be read (no such file)",
            Assert.Throws<UserErrorException>(() => PlanReader.Read("nowhere.toml")).Message);

    // Found by the fuzz: the parser quotes what it stumbled over, which behind an open quotation mark is the whole
    // rest.
    [Fact]
    public void An_error_does_not_carry_the_rest_of_the_file()
    {
        string text = "name = \"x\"\nunits = \"metric\" \"\"\"" + new string('9', 100_000) + "\"\"\"\n";
        UserErrorException wrong = Assert.Throws<UserErrorException>(() => PlanReader.Parse(text, "plan.toml"));
        Assert.StartsWith("plan.toml:2: not TOML: ", wrong.Message, StringComparison.Ordinal);
        Assert.True(wrong.Message.Length < 300, $"{wrong.Message.Length} characters");
    }

    // Found by the fuzz, too.
    [Fact]
    public void Brackets_within_brackets_without_end_are_refused()
    {
        UserErrorException wrong = Assert.Throws<UserErrorException>(
            () => PlanReader.Parse("name = " + new string('[', 5000), "plan.toml"));
        Assert.Equal("plan.toml: not TOML: The maximum depth of 64 has been exceeded", wrong.Message);
    }
}
