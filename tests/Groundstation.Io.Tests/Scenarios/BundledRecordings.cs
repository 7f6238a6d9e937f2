using Groundstation.Core.Fixes;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Simulation;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;
using Groundstation.Io.Scenarios;
using Xunit;

namespace Groundstation.Io.Tests.Scenarios;

/// <summary>The flights under <c>recordings/</c>: what their scenarios make, showing what their READMEs say.</summary>
public class BundledRecordings
{
    [Theory]
    [InlineData("clean")]
    [InlineData("silent-descent")]
    [InlineData("altitude-limit")]
    [InlineData("exercise-bad-link")]
    [InlineData("exercise-silence-and-tangle")]
    [InlineData("exercise-leak")]
    public void Simulating_the_scenario_makes_the_same_bytes_again(string name)
    {
        using TempFolder made = new();
        SimulationWriter.Write(ScenarioFile.Read(Bundled.Path(name, "scenario.toml")), made.Path);
        foreach (string file in (string[])["flight.nmea", "truth.csv"])
        {
            byte[] bundled = File.ReadAllBytes(Bundled.Path(name, file));
            Assert.True(bundled.AsSpan().SequenceEqual(File.ReadAllBytes(made[file])), $"{name}/{file} differs");
        }
    }

    [Theory]
    [InlineData("clean")]
    [InlineData("silent-descent")]
    [InlineData("altitude-limit")]
    public void Each_says_that_it_is_invented_and_its_plan_is_near_its_scenario(string name)
    {
        foreach (string file in (string[])["README.md", "scenario.toml", "plan.toml"])
            Assert.Contains("invented", File.ReadAllText(Bundled.Path(name, file)), StringComparison.Ordinal);
        FlightPlan plan = PlanReader.Read(Bundled.Path(name, "plan.toml"));
        Scenario scenario = ScenarioFile.Read(Bundled.Path(name, "scenario.toml"));
        Assert.Equal(scenario.LaunchSite, plan.LaunchSite);
        Assert.Equal(scenario.Name, plan.Name);
        Assert.Equal(scenario.Receiver.AltitudeLimit, plan.TrackerAltitudeLimit);
    }

    [Theory]
    [InlineData("clean")]
    [InlineData("silent-descent")]
    [InlineData("altitude-limit")]
    [InlineData("exercise-bad-link")]
    [InlineData("exercise-silence-and-tangle")]
    [InlineData("exercise-leak")]
    public void Each_plan_states_a_fill_that_leads_to_the_flight_as_it_was(string name)
    {
        FlightPlan plan = PlanReader.Read(Bundled.Path(name, "plan.toml"));
        Scenario scenario = ScenarioFile.Read(Bundled.Path(name, "scenario.toml"));
        FillResult fill = FillResult.Of(plan)!;
        Assert.DoesNotContain(PlanDoubts.Of(plan), PlanDoubts.IsWrong);
        Assert.Equal(plan.BurstHeight, fill.Burst);
        Assert.Equal(scenario.Balloon.BurstHeight.Metres, plan.BurstHeight.Metres, plan.BurstSigmaM);
        Assert.Equal(scenario.Balloon.AscentRateMps, plan.AscentRateMps,
            2 * plan.AscentRateLnSigma * plan.AscentRateMps);
        Assert.Equal(scenario.Parachute.MassKg, plan.DescentMassKg, 1e-9);
        Assert.InRange(plan.AscentRateLnSigma, 0.1, 0.11);
    }

    [Fact]
    public void The_clean_one_is_believed_from_the_pad_to_five_minutes_after_landing()
    {
        List<Fix> fixes = Fixes("clean");
        Assert.Equal(8385, fixes.Count);
        Assert.All(fixes, f => Assert.True(f.Believed, $"{f.Utc}: {f.Refused}"));
        Assert.Equal("2027-05-08T10:47:44.000Z", fixes[^1].Utc.ToString());
    }

    [Fact]
    public void The_silent_one_is_not_heard_below_9_km_and_goes_on_for_half_an_hour_after_landing()
    {
        Fix last = Fixes("silent-descent").Last(f => f.Believed);
        Assert.Equal("2027-05-22T10:58:18.000Z", last.Utc.ToString());
        Assert.Equal(9000, last.Height!.Value.Metres, 30.0);
        string[] lines = File.ReadAllLines(Bundled.Path("silent-descent", "flight.nmea"));
        Assert.Equal(3040, lines.Count(l => l.Contains("$PGSE,TICK*", StringComparison.Ordinal)));
    }

    [Fact]
    public void The_limited_one_says_above_18_km_that_it_has_no_fix_and_gets_one_again()
    {
        List<Fix> fixes = Fixes("altitude-limit");
        Fix[] believed = [.. fixes.Where(f => f.Believed)];
        Assert.InRange(fixes.Count(f => f.Refused.HasFlag(RefusalReasons.NoFix)), 2100, 2140);
        Assert.InRange(believed.Max(f => f.Height!.Value.Metres), 17_970, 18_030);
        Assert.InRange(believed[^1].Height!.Value.Metres, 350, 500);
        Assert.True(fixes.Count - believed.Length < 2200, "fixes with a position are believed, but for damaged ones");
    }

    // As the station's own stages see it.
    private static List<Fix> Fixes(string name)
    {
        using RecordingReader reader = RecordingReader.Open(Bundled.Path(name, "flight.nmea"));
        List<Fix> fixes = [];
        FlightPlan plan = PlanReader.Read(Bundled.Path(name, "plan.toml"));
        SourceFixes source = new(new SourceId("radio1"), plan, fixes.Add);
        Instant at = default;
        while (reader.Read(out RecordedEvent e))
        {
            at = e.At;
            if (e.Kind == RecordedKind.Received)
                source.Push(at, e.Bytes.Span);
            else
                source.Tick(at);
        }

        source.Flush(at);
        return fixes;
    }
}
