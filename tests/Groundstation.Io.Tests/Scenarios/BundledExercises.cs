using Groundstation.Io.Desk;
using Groundstation.Io.Faults;
using Groundstation.Io.Folders;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;
using Groundstation.Io.Scenarios;
using Xunit;

namespace Groundstation.Io.Tests.Scenarios;

/// <summary>The exercises under <c>recordings/</c> go as their instructor's notes say.</summary>
public class BundledExercises
{
    [Theory]
    [InlineData("exercise-bad-link", "bad-link", "link-lost", "no-fix", "burst", "landed")]
    [InlineData("exercise-silence-and-tangle", "no-bytes", "no-fix", "burst", "descent-fast", "landed")]
    [InlineData("exercise-leak", "wrong-date", "outliers", "no-fix", "ascent-falling", "float", "descent-slow", "no-bytes")]
    public void What_the_notes_promise_happens(string name, params string[] alarms)
    {
        using TempFolder temp = new();
        using TrainingDesk desk = new(RecordingReader.Open(Bundled.Path(name, "flight.nmea")),
            PlanReader.Read(Bundled.Path(name, "plan.toml")), null, TimeProvider.System,
            TimeSpan.FromSeconds(1),
            faults: FaultFile.Read(Bundled.Path(name, "faults.toml")));
        desk.RunToEnd(TestContext.Current.CancellationToken);
        using (FlightFolder folder = FlightFolder.Open(temp["drill"], FolderUse.Replay)) desk.Write(folder);
        string log = File.ReadAllText(temp["drill/alarms.csv"]);
        foreach (string alarm in alarms)
            Assert.True(log.Contains($",{alarm},", StringComparison.Ordinal), $"{name}: no {alarm}");
        Assert.Contains("It came down at", desk.DebriefText(), StringComparison.Ordinal);
    }
}
