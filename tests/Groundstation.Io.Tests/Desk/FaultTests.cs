using System.Text;
using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Flight;
using Groundstation.Core.Plan;
using Groundstation.Io.Desk;
using Groundstation.Io.Faults;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;
using Xunit;

namespace Groundstation.Io.Tests.Desk;

/// <summary>
/// Each fault in the log of some receiver with no TAG blocks: what arrives, and what the station says of it.
/// </summary>
public sealed class FaultTests
{
    private static string Piece(string kind, string more = "") =>
        $"[[fault]]\nkind = \"{kind}\"\nfrom = \"+120\"\nfor_s = 120\n{more}";

    private static (string[] Before, string[] During, string[] After) Lines(DeskFlight flight, string faults)
    {
        using RecordingReader reader = RecordingReader.Open(flight.Recording);
        Timeline timeline = Timeline.Load(reader, 1);
        timeline = timeline.With(FaultFile.Parse(faults, "faults.toml"));
        List<string>[] parts = [[], [], []];
        foreach (RecordedEvent e in timeline.Events)
        {
            if (e.Kind != RecordedKind.Received) continue;
            double at = e.At.SecondsSince(timeline.Start);
            parts[at < 120 ? 0 : at < 240 ? 1 : 2].Add(Encoding.ASCII.GetString(e.Bytes.Span).TrimEnd());
        }

        return ([.. parts[0]], [.. parts[1]], [.. parts[2]]);
    }

    private static string[] Fields(IEnumerable<string> lines, string type, int field) =>
        [.. lines.Select(l => SentenceEdit.Of(Encoding.ASCII.GetBytes(l))).OfType<SentenceEdit>()
            .Where(s => s.Type == type).Select(s => s[field])];

    [Fact]
    public void A_silence_takes_all_lines_of_its_time_and_no_other()
    {
        using DeskFlight flight = new();
        var (before, during, after) = Lines(flight, Piece("silence"));
        Assert.Empty(during);
        var clean = Lines(flight, "");
        Assert.Equal(clean.Before, before);
        Assert.Equal(clean.After, after);
    }

    [Fact]
    public void A_frozen_altitude_stays_while_the_place_goes_on()
    {
        using DeskFlight flight = new();
        string[] during = Lines(flight, Piece("frozen-altitude")).During;
        Assert.Single(Fields(during, "GGA", 9).Distinct());
        Assert.True(Fields(during, "GGA", 1).Distinct().Count() > 100);
    }

    [Fact]
    public void A_stalled_fix_tells_the_same_moment_over_and_over()
    {
        using DeskFlight flight = new();
        string[] during = Lines(flight, Piece("stalled-fix")).During;
        Assert.True(Fields(during, "GGA", 1).Length > 100);
        Assert.Single(Fields(during, "GGA", 1).Distinct());
        Assert.Single(Fields(during, "RMC", 1).Distinct());
    }

    [Fact]
    public void Above_its_limit_a_receiver_has_no_fix_and_its_sentences_stay_whole()
    {
        using DeskFlight flight = new();
        string[] during = Lines(flight, Piece("altitude-limit", "limit_m = 900\n")).During;
        string[] quality = Fields(during, "GGA", 6);
        Assert.Equal("0", quality[^1]);
        Assert.Equal("1", quality[0]);
        Assert.Equal("V", Fields(during, "RMC", 2)[^1]);
        Assert.Equal("", Fields(during, "GGA", 2)[^1]);
    }

    [Fact]
    public void A_wrong_date_is_the_same_day_of_an_earlier_rollover()
    {
        using DeskFlight flight = new();
        string[] during = Lines(flight, Piece("wrong-date")).During;
        Assert.All(Fields(during, "RMC", 9), date => Assert.Equal("220907", date));
    }

    [Fact]
    public void Jumps_come_and_go()
    {
        using DeskFlight flight = new();
        var clean = Lines(flight, "").During;
        string[] during = Lines(flight, Piece("jumps", "every_s = 30\nby_m = 8000\n")).During;
        int moved = Fields(during, "GGA", 2).Zip(Fields(clean, "GGA", 2)).Count(p => p.First != p.Second);
        Assert.InRange(moved, 4, 12);
    }

    [Fact]
    public void Damage_has_its_share()
    {
        using DeskFlight flight = new();
        string[] clean = Lines(flight, "").During, during = Lines(flight, Piece("damaged", "share = 0.3\n")).During;
        Assert.InRange(during.Zip(clean).Count(p => p.First != p.Second) / (double)clean.Length, 0.2, 0.4);
        Assert.Equal(during, Lines(flight, Piece("damaged", "share = 0.3\n")).During);
    }

    [Fact]
    public async Task A_plug_pulled_is_a_link_lost_and_the_alarm_says_so()
    {
        using DeskFlight flight = new();
        await flight.Desk.Inject(new Fault(FaultKind.Unplug, FaultBegin.Mission, 120) { ForS = 60 });
        Assert.Contains(flight.GoTo("T+2:30").Alarms, a => a is { Id: "link-lost", Phase: AlarmPhase.Unacknowledged });
        Assert.Contains(flight.GoTo("T+3:30").Alarms,
            a => a is { Id: "link-lost", Phase: AlarmPhase.ReturnedUnacknowledged });
    }

    [Theory]
    [InlineData("unplug", "source=radio9", "not put in: unplug: the recording has no source radio9; it has radio1")]
    [InlineData("chase-lost", "5", "not put in: chase-lost: the recording has no source chase; it has radio1")]
    public async Task A_fault_in_a_source_that_is_not_there_is_refused(string kind, string key, string told)
    {
        using DeskFlight flight = new();
        Assert.Equal(told, await flight.Desk.Inject(InstructorWords.Read([kind, key]).Fault!));
    }

    [Fact]
    public async Task A_fault_put_in_live_leaves_the_past_alone_and_its_file_repeats_the_exercise()
    {
        using DeskFlight flight = new();
        string before = DeskFlight.Text(flight.GoTo("T+2:00"));
        Assert.Contains("in force", await flight.Desk.Inject(InstructorWords.Read(["silence", "40"]).Fault!),
            StringComparison.Ordinal);
        Assert.Equal(before, DeskFlight.Text(flight.Desk.Newest));
        Assert.Contains(flight.GoTo("T+2:35").Alarms, a => a.Id == "no-fix");
        flight.GoTo("+9999");
        string file = flight["faults.toml"];
        flight.Desk.Faults.Write(file);
        flight.Stop();
        using (FlightFolder live = FlightFolder.Open(flight["live"], FolderUse.Replay)) flight.Desk.Write(live);

        using (TrainingDesk again = new(RecordingReader.Open(flight.Recording), FlightPlan.Default, null,
            TimeProvider.System, TimeSpan.FromSeconds(1), faults: FaultFile.Read(file)))
        {
            again.RunToEnd(TestContext.Current.CancellationToken);
            using FlightFolder repeated = FlightFolder.Open(flight["again"], FolderUse.Replay);
            again.Write(repeated);
        }

        // The folder's recording holds what was received: it needs the faults no more.
        using (ReplaySession plain = new(RecordingReader.Open(flight["live/received.nmea"]), FlightPlan.Default,
            FlightFolder.Open(flight["plain"], FolderUse.Replay), null, TimeProvider.System))
            plain.Run(TestContext.Current.CancellationToken);
        foreach (string log in new[] { "received.nmea", "fixes.csv", "alarms.csv", "landing.csv", "callouts.csv" })
        {
            Assert.Equal(File.ReadAllText(flight["live/" + log]), File.ReadAllText(flight["again/" + log]));
            Assert.Equal(File.ReadAllText(flight["live/" + log]), File.ReadAllText(flight["plain/" + log]));
        }
    }

    [Theory]
    [InlineData("days = -7168", "7168 days behind (its week number has run over)")]
    [InlineData("days = 30", "30 days ahead")]
    public async Task A_wrong_date_in_flight_rings_and_moves_nothing(string days, string told)
    {
        using DeskFlight flight = new();
        flight.GoTo("T+1:30");
        await flight.Desk.Inject(FaultFile.Parse("[[fault]]\nkind = \"wrong-date\"\nfrom = \"T+1:31\"\nfor_s = 120\n"
            + days, "f").Faults[0]);
        Snapshot within = flight.GoTo("T+2:30");
        Assert.Contains(within.Alarms, a => a.Id == "wrong-date" && a.Cause.ToString().Contains(told));
        Assert.Equal(DeskFlight.Launch.Date, within.Utc.Date);
        Assert.Equal(Phase.Landed, flight.GoTo("+9999").Flight.Phase);
        Assert.Equal(AlarmPhase.ReturnedUnacknowledged, flight.Desk.Newest.Alarms.Single(a => a.Id == "wrong-date").Phase);
        Assert.DoesNotContain(flight.Desk.Newest.Alarms, a => a.Id == "host-clock");
    }

    [Fact]
    public async Task All_faults_end_when_the_instructor_says_so()
    {
        using DeskFlight flight = new();
        flight.GoTo("T+2:00");
        await flight.Desk.Inject(InstructorWords.Read(["silence"]).Fault!);
        Assert.True(flight.GoTo("+60").HeardAgeS > 55);
        Assert.Equal("all faults ended", await flight.Desk.EndFaults());
        Assert.True(flight.GoTo("+20").HeardAgeS < 3);
    }

    [Theory]
    [InlineData("[[fault]]\nkind = \"silense\"\nfrom = \"+1\"", "faults.toml:2: fault.kind")]
    [InlineData("[[fault]]\nkind = \"silence\"", "when it begins is missing")]
    [InlineData("[[fault]]\nkind = \"silence\"\nfrom = \"soon\"", "faults.toml:3: fault.from")]
    [InlineData("[[fault]]\nkind = \"damaged\"\nshare = 3", "faults.toml:3: fault.share = 3: a number from 0 to 1")]
    [InlineData("[[fault]]\nkind = \"silence\"\nfor = 3", "fault.for unknown")]
    [InlineData("[[fault]]\nkind = \"silence\"\nfor_s = \"NaN\"", "fault.for_s")]
    public void A_wrong_file_is_told_in_one_line(string text, string told) => Assert.Contains(told,
        Assert.Throws<UserErrorException>(() => FaultFile.Parse(text, "faults.toml")).Message,
        StringComparison.Ordinal);

    [Theory]
    [InlineData("from = \"T+30:00:00.250\"")]
    [InlineData("from = \"T-0:00:30.000\"")]
    [InlineData("from = \"23:59:59.000\"")]
    [InlineData("from = \"+90.5\"")]
    public void When_a_fault_begins_is_written_so_that_it_begins_there_again(string begins) => Assert.Contains(begins,
        FaultFile.Parse("[[fault]]\nkind = \"silence\"\n" + begins, "f").ToText(), StringComparison.Ordinal);

    [Fact]
    public void The_debrief_tells_how_long_alarms_waited_and_hides_the_landing_until_the_end()
    {
        using DeskFlight flight = new();
        flight.GoTo("burst");
        flight.GoTo("+11");
        flight.Desk.AlarmsInSight(true);
        flight.GoTo("+1");
        flight.Desk.Act(new Groundstation.Core.OperatorAct("acknowledge", "burst"));
        flight.Wait();
        flight.Desk.MakeDebrief();
        flight.Wait();
        string early = string.Join('\n', flight.Desk.Status.Debrief);
        Assert.Contains("looked at after 1 s, acknowledged after 2 s", early, StringComparison.Ordinal);
        Assert.DoesNotContain("came down", early, StringComparison.Ordinal);
        // Back behind it the answer is taken back; the screen is still open when it comes again.
        flight.GoTo("burst");
        for (int i = 0; i < 12; i++) flight.Desk.StepSecond(1);
        flight.Desk.MakeDebrief();
        flight.Wait();
        Assert.Contains("screen 7 stood open, not acknowledged", string.Join('\n', flight.Desk.Status.Debrief),
            StringComparison.Ordinal);
        flight.GoTo("+9999");
        flight.Stop();
        Assert.Contains("It came down at", flight.Desk.DebriefText(), StringComparison.Ordinal);
        Assert.Contains("km off", flight.Desk.DebriefText(), StringComparison.Ordinal);
    }
}
