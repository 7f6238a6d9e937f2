using System.Text.RegularExpressions;
using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.Folders;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;
using Groundstation.Io.Scenarios;
using Groundstation.Io.Sessions;
using nietras.SeparatedValues;
using Xunit;

namespace Groundstation.Io.Tests.Alarms;

/// <summary>
/// Every alarm can be provoked by a scenario under <c>recordings/alarms</c>, simulated and replayed whole.
/// </summary>
public sealed partial class ProvocationTests : IDisposable
{
    private readonly TempFolder _temp = new();
    private Snapshot? _last;

    public void Dispose() => _temp.Dispose();

    public static TheoryData<string> Scenarios => [.. Files.Select(f => Path.GetFileNameWithoutExtension(f))];

    [Fact]
    public void Every_alarm_has_a_scenario_that_provokes_it()
    {
        string[] provoked = [.. Files.SelectMany(f => Provoked(Path.GetFileNameWithoutExtension(f)))];
        Assert.Empty(AlarmRules.All.Select(r => r.Id).Except(provoked));
        Assert.Empty(provoked.Except(AlarmRules.All.Select(r => r.Id)));
    }

    [Theory, MemberData(nameof(Scenarios))]
    public void It_provokes_what_it_says_without_chatter(string name)
    {
        List<(string Id, string Change)> changes = Replay(name);
        string[] raised = [.. changes.Where(c => c.Change == "raised").Select(c => c.Id)];
        Assert.Empty(Provoked(name).Except(raised));
        Assert.DoesNotContain(raised.GroupBy(id => id), g => g.Count() > 2);
    }

    [Fact]
    public void A_clean_flight_raises_launch_burst_approach_and_landed_and_nothing_else() =>
        Assert.Equal(["launch", "burst", "approach", "landed"],
            Replay("clean").Where(c => c.Change == "raised").Select(c => c.Id));

    [Theory, MemberData(nameof(Scenarios))]
    public void Who_reads_feet_and_miles_finds_no_metre_in_its_alarms(string name)
    {
        Replay(name);
        Assert.All(_last!.Events.Select(e => e.Text), text =>
        {
            Assert.DoesNotMatch(Metric(), text.In(DisplayUnits.Customary));
            // Where a figure has a unit it is another one.
            Assert.Equal(Metric().IsMatch(text.ToString()), Customary().IsMatch(text.In(DisplayUnits.Customary)));
        });
    }

    [GeneratedRegex(@"\d (k?m|m/s|hPa|°C|kg)\b")]
    private static partial Regex Metric();

    [GeneratedRegex(@"\d (k?ft|mi|mph|ft/min|inHg|°F|lb)\b")]
    private static partial Regex Customary();

    private List<(string Id, string Change)> Replay(string name)
    {
        string scenario = Bundled.Path("alarms", name + ".toml"), plan = Bundled.Path("alarms", name + ".plan.toml");
        SimulationWriter.Write(ScenarioFile.Read(scenario), _temp["simulated"]);
        using (ReplaySession replay = new(RecordingReader.Open(_temp["simulated/flight.nmea"]),
            File.Exists(plan) ? PlanReader.Read(plan) : FlightPlan.Default,
            FlightFolder.Open(_temp["flight"], FolderUse.Replay), null, TimeProvider.System))
        {
            replay.Run(TestContext.Current.CancellationToken);
            _last = replay.Outcome().Last;
        }

        using SepReader reader = Sep.Reader(o => o with { Unescape = true }).FromFile(_temp["flight/alarms.csv"]);
        List<(string, string)> changes = [];
        foreach (SepReader.Row row in reader)
            changes.Add((row["alarm"].ToString(), row["change"].ToString()));
        return changes;
    }

    private static IEnumerable<string> Files => Directory.EnumerateFiles(Bundled.Path("alarms"), "*.toml")
        .Where(f => !f.EndsWith(".plan.toml", StringComparison.Ordinal)).Order(StringComparer.Ordinal);

    private static string[] Provoked(string name) => File.ReadLines(Bundled.Path("alarms", name + ".toml"))
        .Single(l => l.StartsWith("# Provokes: ", StringComparison.Ordinal))["# Provokes: ".Length..].Split(", ");
}
