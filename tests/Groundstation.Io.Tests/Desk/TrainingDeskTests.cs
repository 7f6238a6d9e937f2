using Groundstation.Core;
using Groundstation.Core.Flight;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.Desk;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;
using Xunit;

namespace Groundstation.Io.Tests.Desk;

public sealed class TrainingDeskTests
{
    [Fact]
    public void Wherever_it_jumps_it_stands_as_if_it_had_run_there()
    {
        using DeskFlight flight = new();
        string[] way = ["T+0:10:00", "T+2:00", "-30.25", "T+6:00", "+1:23", "T-0:20", "landed", "start", "burst",
            "silence"];
        foreach (string where in way)
        {
            Snapshot there = flight.GoTo(where);
            Assert.Equal(DeskFlight.Text(flight.Uninterrupted(there.Arrival)), DeskFlight.Text(there));
        }
    }

    [Fact]
    public void A_time_that_was_typed_is_the_time_that_is_shown()
    {
        using DeskFlight flight = new();
        foreach (string clock in new[] { "09:05:30", "9:02:00z", "09:11:07" })
        {
            Snapshot there = flight.GoTo(clock);
            TimeSpan off = there.Utc.TimeOfDay - TimeSpan.Parse(clock.TrimEnd('z'), null);
            Assert.InRange(off.TotalSeconds, 0, 0.9);
        }

        Snapshot mission = flight.GoTo("T+3:20");
        Assert.InRange(mission.Utc.SecondsSince(mission.Flight.Launch!.Value.Utc), 200, 200.9);
    }

    [Fact]
    public void A_jump_to_an_event_ends_shortly_before_it_and_no_later_moment_shows()
    {
        using DeskFlight flight = new();
        Snapshot before = flight.GoTo("burst");
        Assert.Equal(Phase.Ascent, before.Flight.Phase);
        Assert.DoesNotContain(before.Alarms, a => a.Id == "burst");
        Assert.Contains(flight.GoTo("+11").Alarms, a => a.Id == "burst");
        // The next alarm from the beginning is the launch, the one after it another one.
        flight.GoTo("start");
        Instant first = flight.GoTo("alarm").Arrival;
        Assert.True(flight.GoTo("alarm").Arrival > first);
    }

    [Fact]
    public void What_the_trainee_does_stays_until_he_goes_back_behind_it()
    {
        using DeskFlight flight = new();
        flight.GoTo("T+4:00");
        flight.Desk.Act(new OperatorAct("note", "drill"));
        flight.Wait();
        Assert.Contains(flight.Desk.Newest.Events, e => e.Text.ToString().Contains("drill"));
        RecordedEvent act = RecordedEvent.Acted(flight.Desk.Newest.Arrival, new OperatorAct("note", "drill"));
        Snapshot later = flight.GoTo("T+9:00");
        Assert.Equal(DeskFlight.Text(flight.Uninterrupted(later.Arrival, act)), DeskFlight.Text(later));
        flight.GoTo("T+3:50");
        Snapshot again = flight.GoTo("T+9:00");
        Assert.Equal(DeskFlight.Text(flight.Uninterrupted(again.Arrival)), DeskFlight.Text(again));
    }

    [Fact]
    public void The_folder_is_that_of_a_run_without_jumps_to_the_byte()
    {
        using DeskFlight flight = new();
        flight.GoTo("T+8:00");
        flight.GoTo("T+1:00");
        flight.GoTo("+9999");
        Assert.True(flight.Desk.Status.Ended);
        flight.Stop();
        using (FlightFolder folder = FlightFolder.Open(flight["desk"], FolderUse.Replay)) flight.Desk.Write(folder);
        using (ReplaySession plain = new(RecordingReader.Open(flight.Recording), FlightPlan.Default,
            FlightFolder.Open(flight["plain"], FolderUse.Replay), null, TimeProvider.System))
            plain.Run(TestContext.Current.CancellationToken);
        foreach (string file in Directory.GetFiles(flight["plain"], "*.*").Select(f => Path.GetFileName(f)!))
            Assert.Equal(File.ReadAllBytes(flight["plain/" + file]), File.ReadAllBytes(flight["desk/" + file]));
    }

    [Fact]
    public void It_steps_by_seconds_and_by_fixes_and_loops()
    {
        using DeskFlight flight = new(rate: 100);
        Snapshot at = flight.GoTo("T+2:00");
        flight.Desk.StepSecond(1);
        flight.Wait();
        Assert.Equal(1, flight.Desk.Newest.Arrival.SecondsSince(at.Arrival), 3);
        flight.Desk.StepSecond(-1);
        flight.Wait();
        Assert.Equal(DeskFlight.Text(at), DeskFlight.Text(flight.Desk.Newest));
        flight.Desk.StepFix();
        flight.Wait();
        Assert.Equal(at.FixCounts.Believed + at.FixCounts.Refused + 1,
            flight.Desk.Newest.FixCounts.Believed + flight.Desk.Newest.FixCounts.Refused);

        Instant from = flight.Desk.Newest.Arrival;
        flight.Desk.MarkLoop();
        flight.GoTo("+20");
        Instant to = flight.Desk.Newest.Arrival;
        flight.Desk.MarkLoop();
        flight.Desk.TogglePause();
        Instant last = to;
        bool back = false;
        DeskFlight.Until(() =>
        {
            Instant now = flight.Desk.Newest.Arrival;
            Assert.True(now >= from && now <= to);
            back |= now < last;
            last = now;
            return back;
        });
        flight.Desk.MarkLoop();
        DeskFlight.Until(() => flight.Desk.Newest.Arrival > to);
        flight.Desk.TogglePause();
    }

    [Theory]
    [InlineData("T+1:10:00", SeekKind.Mission, 4200)]
    [InlineData("t-30", SeekKind.Mission, -30)]
    [InlineData("+90", SeekKind.By, 90)]
    [InlineData("-1:30", SeekKind.By, -90)]
    [InlineData("10:58:18", SeekKind.TimeOfDay, 39498)]
    [InlineData("BURST", SeekKind.Alarm, 0)]
    [InlineData("alarm", SeekKind.NextAlarm, 0)]
    public void What_is_typed_is_understood(string typed, SeekKind kind, double seconds)
    {
        SeekTarget? target = SeekTarget.Read(typed);
        Assert.Equal((kind, seconds), (target!.Kind, target.Time.TotalSeconds));
    }

    [Theory]
    [InlineData("")]
    [InlineData("T+")]
    [InlineData("25:00:00")]
    [InlineData("+1:75")]
    [InlineData("12")]
    [InlineData("moon")]
    [InlineData("-1e9")]
    public void What_is_not_meant_is_not_understood(string typed) => Assert.Null(SeekTarget.Read(typed));
}
