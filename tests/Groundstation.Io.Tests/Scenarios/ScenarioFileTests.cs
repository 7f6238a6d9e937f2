using System.Globalization;
using Groundstation.Core.Simulation;
using Groundstation.Io.Scenarios;
using Xunit;

namespace Groundstation.Io.Tests.Scenarios;

public class ScenarioFileTests
{
    private const string Least = """
        [flight]
        launch_utc = 2027-05-08T08:30:00Z
        [launch]
        latitude_deg = 47
        longitude_deg = 2.5
        height_m = 150

        """;

    [Fact]
    public void The_least_file_flies_with_defaults_and_lands_as_high_as_it_started()
    {
        Scenario scenario = ScenarioFile.Parse(Least, "s.toml");
        Assert.Equal("2027-05-08T08:30:00.000Z", scenario.LaunchUtc.ToString());
        Assert.Equal(150, scenario.LandingGround.Metres);
        Assert.Equal(30_000, scenario.Balloon.BurstHeight.Metres);
        Assert.Empty(scenario.Air.Winds);
    }

    [Fact]
    public void Values_reach_the_scenario()
    {
        Scenario scenario = ScenarioFile.Parse(Least + """
            [parachute]
            descent_rate_mps = 6
            mass_kg = 2
            tangled_height_m = 12000
            [receiver]
            talker = "GP"
            sentences = ["RMC", "GGA"]
            beyond_limit = "held"
            altitude_limit_m = 18000
            [radio]
            damaged_share = 0.01
            [[silence]]
            descent_below_m = 9000
            [[silence]]
            from_s = 60
            for_s = 30
            [[link_gap]]
            from_s = 100
            for_s = 20
            [[wind]]
            height_m = 0
            from_deg = 270
            speed_mps = 10
            """, "s.toml");
        Assert.Equal(6, scenario.Parachute.SeaLevelRateMps, 1e-9);
        Assert.Equal(2, scenario.Parachute.MassKg);
        Assert.Equal(["RMC", "GGA"], scenario.Receiver.Sentences);
        Assert.Equal(BeyondLimit.Held, scenario.Receiver.Beyond);
        Assert.Equal([new Silence(DescentBelowM: 9000), new Silence(FromS: 60, ForS: 30)], scenario.Radio.Silences);
        Assert.Equal([new LinkGap(100, 20)], scenario.Radio.LinkGaps);
        Assert.Equal(10, scenario.Air.Winds[0].Wind.EastMps, 1e-9);
    }

    [Theory]
    [InlineData("[balloon]\nascent_rate = 5", 8, "balloon.ascent_rate unknown: did you mean balloon.ascent_rate_mps?")]
    [InlineData("[baloon]\nx = 5", 7, "[baloon] unknown: did you mean balloon?")]
    [InlineData("[balloon]\nascent_rate_mps = 50", 8, "balloon.ascent_rate_mps = 50: a number from 0.5 to 15 m/s")]
    [InlineData("[receiver]\ntalker = \"XX\"", 8, "receiver.talker = \"XX\": \"GP\" or \"GN\"")]
    [InlineData("[receiver]\nsentences = [\"GSV\"]", 8, "each once, with GGA or RMC")]
    [InlineData("[receiver]\nrate_hz = nan", 8, "receiver.rate_hz = nan: a number from 0.1 to 20 Hz")]
    [InlineData("[radio]\nsource = \"station\"", 8, "not \"station\"")]
    [InlineData("[[wind]]\nheight_m = 0\nfrom_deg = 9", 7, "wind.speed_mps missing: a number from 0 to 150 m/s")]
    [InlineData("[wind]\nheight_m = 0", 7, "[wind]: written [[wind]], as often as needed")]
    [InlineData("[[silence]]\nfrom_s = 1\ndescent_below_m = 3", 7, "one of from_s, ascent_above_m and descent_below_m")]
    [InlineData("[balloon]\nburst_height_m = 120", 8, "balloon.burst_height_m: a height above launch.height_m")]
    [InlineData("[parachute]\ndrag_area_m2 = 1\ndescent_rate_mps = 5", 9, "one of the two, not both")]
    [InlineData("[air]\nchange_mps = ", 8, "not TOML")]
    public void What_is_wrong_is_said_in_one_line_with_file_line_and_remedy(string more, int line, string says)
    {
        UserErrorException e = Assert.Throws<UserErrorException>(() => ScenarioFile.Parse(Least + more, "s.toml"));
        Assert.StartsWith($"s.toml:{line}: ", e.Message, StringComparison.Ordinal);
        Assert.Contains(says, e.Message, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', e.Message);
    }

    [Theory]
    [InlineData("2027-05-08T08:30:00", "a local time")]
    [InlineData("2027-05-08T08:30:00+02:00", "another zone")]
    [InlineData("\"soon\"", "a word")]
    [InlineData("1979-01-01T00:00:00Z", "before satellites")]
    public void Only_a_moment_in_utc_is_a_launch_time(string value, string why)
    {
        string text = Least.Replace("2027-05-08T08:30:00Z", value, StringComparison.Ordinal);
        UserErrorException e = Assert.Throws<UserErrorException>(() => ScenarioFile.Parse(text, "s.toml"));
        bool named = e.Message.StartsWith("s.toml:2: flight.launch_utc = ", StringComparison.Ordinal);
        Assert.True(named, $"{why}: {e.Message}");
        Assert.Contains("as 2027-05-08T09:30:00Z", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_needed_key_or_a_missing_file_is_named()
    {
        UserErrorException key = Assert.Throws<UserErrorException>(() => ScenarioFile.Parse("", "s.toml"));
        Assert.StartsWith("s.toml: flight.launch_utc missing: ", key.Message, StringComparison.Ordinal);
        UserErrorException file = Assert.Throws<UserErrorException>(() => ScenarioFile.Read("/nowhere/s.toml"));
        Assert.StartsWith("/nowhere/s.toml: cannot be read (", file.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_example_reads_and_shows_every_key()
    {
        string text = ExampleScenario.Text;
        Scenario scenario = ScenarioFile.Parse(text, "example");
        Assert.Equal(600, Assert.Single(scenario.Radio.Silences).ForS);
        foreach (string name in ScenarioKeys.All.Select(k => k.Name)
            .Concat(EquipmentKeys.Rows.SelectMany(r => r.Keys.Select(k => $"{r.Name}.{k.Key}"))))
            Assert.Contains(name.Split('.')[1], text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_defaults_that_the_example_names_are_those_that_hold()
    {
        Scenario least = ScenarioFile.Parse(Least, "s.toml");
        int checkedCount = 0;
        string section = "";
        foreach (string line in ExampleScenario.Text.Split('\n'))
        {
            if (line.StartsWith('['))
                section = line.Trim('[', ']');
            // "key = value   # words; default": setting the default must change nothing.
            int hash = line.IndexOf('#', StringComparison.Ordinal), semicolon = line.LastIndexOf(';');
            string said = hash < 0 ? "" : line[Math.Max(hash + 1, semicolon + 1)..].Trim();
            if (!line.Contains(" = ", StringComparison.Ordinal) || hash <= 0
                || !(said.StartsWith('"') || double.TryParse(said, CultureInfo.InvariantCulture, out _)))
                continue;
            string head = $"[{section}]";
            string entry = $"{head}\n{line[..line.IndexOf('=', StringComparison.Ordinal)]}= {said}";
            string text = Least.Contains(head, StringComparison.Ordinal)
                ? Least.Replace(head, entry, StringComparison.Ordinal)
                : Least + entry;
            // Lists compare by reference.
            Assert.Equal(Plain(least), Plain(ScenarioFile.Parse(text, "s.toml")));
            checkedCount++;
        }

        Assert.InRange(checkedCount, 35, 60);

        static string Plain(Scenario s) => $"{s with { Receiver = s.Receiver with { Sentences = [] } }}";
    }
}
