using Groundstation.Core.Plan;
using Groundstation.Io.Folders;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;
using Xunit;

namespace Groundstation.Io.Tests.Winds;

public sealed class KeptWindsTests : IDisposable
{
    private readonly TempFolder _temp = new();

    public void Dispose() => _temp.Dispose();

    [Theory]
    [InlineData("[a]\nwinds = [\"w.csv\"]",
        "p:2: a.winds: it stands at the top of the file, before the first [section]")]
    [InlineData("winds = \"w.csv\"", "p:1: winds = \"w.csv\": a list of 1 to 100 files")]
    [InlineData("winds = []", "p:1: winds = []: a list of 1 to 100 files")]
    [InlineData("winds = [\"w\"]\n[[wind]]\nheight_m = 1\nfrom_deg = 2\nspeed_mps = 3",
        "p:2: winds and [[wind]]: one of the two")]
    public void A_wrong_list_of_wind_files_is_told(string text, string error)
    {
        if (text.StartsWith("[a]", StringComparison.Ordinal)) text = text.Replace("[a]", "[flight]",
            StringComparison.Ordinal);
        string message = Assert.Throws<UserErrorException>(() => PlanReader.Parse(text, "p")).Message;
        Assert.StartsWith(error.Replace("a.winds", "flight.winds", StringComparison.Ordinal), message,
            StringComparison.Ordinal);
    }

    [Fact]
    public void A_flight_keeps_its_wind_files_and_its_replay_gives_the_same_logs()
    {
        string winds = _temp.Write("my winds.csv",
            "# sounding 2026-06-21T06:00Z\nheight_m,from_deg,speed_mps\n200,240,5\n"
            + "12000,260,30\n20000,90,6\n32000,90,12\n");
        string planFile = _temp.Write("mine.toml", "winds = [ # from the evening before ]\n  \"my winds.csv\",\n]\n"
            + File.ReadAllText(Bundled.Path("clean", "plan.toml")).Split("[[wind]]")[0]);
        FlightPlan plan = PlanReader.Read(planFile);
        Assert.Equal(4, Assert.Single(plan.Winds).Levels.Length);
        Assert.Contains("winds", plan.Stated);

        Replay(Bundled.Path("clean", "flight.nmea"), planFile, "first");
        File.Delete(winds);
        Replay(_temp["first/received.nmea"], _temp["first/plan.toml"], "again");

        foreach (string log in (string[])["landing.csv", "winds.csv", "fixes.csv", "alarms.csv", "callouts.csv"])
            Assert.Equal(File.ReadAllBytes(_temp["first/" + log]), File.ReadAllBytes(_temp["again/" + log]));
        Assert.StartsWith("winds = [\"winds/1-my winds.csv\"]\n", File.ReadAllText(_temp["again/plan.toml"]),
            StringComparison.Ordinal);
    }

    private void Replay(string recording, string planFile, string folder)
    {
        FlightPlan plan = PlanReader.Read(planFile);
        FlightFolder flight = FlightFolder.Open(_temp[folder], FolderUse.Replay);
        flight.KeepPlan(planFile, plan);
        using ReplaySession replay = new(RecordingReader.Open(recording), plan, flight, null, TimeProvider.System);
        replay.Run(TestContext.Current.CancellationToken);
    }
}
