using System.Runtime.CompilerServices;
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
    private static string Folder(string name, [CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", "..", "recordings", name));

    [Theory]
    [InlineData("exercise-bad-link")]
    [InlineData("exercise-silence-and-tangle")]
    [InlineData("exercise-leak")]
    public void Simulating_the_scenario_makes_the_same_bytes_again(string name)
    {
        using TempFolder made = new();
        SimulationWriter.Write(ScenarioFile.Read(Path.Combine(Folder(name), "scenario.toml")), made.Path);
        foreach (string file in (string[])["flight.nmea", "truth.csv"])
        {
            byte[] bundled = File.ReadAllBytes(Path.Combine(Folder(name), file));
            Assert.True(bundled.AsSpan().SequenceEqual(File.ReadAllBytes(made[file])), $"{name}/{file} differs");
        }
    }

    [Theory]
    [InlineData("exercise-bad-link", "bad-link", "link-lost", "no-fix", "burst", "landed")]
    [InlineData("exercise-silence-and-tangle", "no-bytes", "no-fix", "burst", "descent-fast", "landed")]
    [InlineData("exercise-leak", "wrong-date", "outliers", "no-fix", "ascent-falling", "float", "descent-slow", "no-bytes")]
    public void What_the_notes_promise_happens(string name, params string[] alarms)
    {
        using TempFolder temp = new();
        using TrainingDesk desk = new(RecordingReader.Open(Path.Combine(Folder(name), "flight.nmea")),
            PlanReader.Read(Path.Combine(Folder(name), "plan.toml")), null, TimeProvider.System,
            TimeSpan.FromSeconds(1),
            faults: FaultFile.Read(Path.Combine(Folder(name), "faults.toml")));
        desk.RunToEnd(TestContext.Current.CancellationToken);
        using (FlightFolder folder = FlightFolder.Open(temp["drill"], FolderUse.Replay)) desk.Write(folder);
        string log = File.ReadAllText(temp["drill/alarms.csv"]);
        foreach (string alarm in alarms)
            Assert.True(log.Contains($",{alarm},", StringComparison.Ordinal), $"{name}: no {alarm}");
        Assert.Contains("It came down at", desk.DebriefText(), StringComparison.Ordinal);
    }
}
