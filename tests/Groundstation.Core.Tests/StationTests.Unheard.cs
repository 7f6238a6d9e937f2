using System.Text;
using Groundstation.Core.Callouts;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Xunit;

namespace Groundstation.Core.Tests;

/// <summary>Heard without a fix, silent, never heard: what each is called, also when only the operator saw the launch.</summary>
public partial class StationTests
{
    private static byte[] NoFix(int second)
    {
        string time = (Start + TimeSpan.FromSeconds(second)).ToDateTime().ToString("HHmmss", null);
        return Encoding.ASCII.GetBytes(SentenceWriter.Seal($"GPGGA,{time},,,,,0,00,99.9,,M,,M,,") + "\r\n");
    }

    private static void Say(Station station, int from, int to, Func<int, byte[]> sentences)
    {
        for (int s = from; s < to; s++) station.Receive(Radio, At(s + 0.2), sentences(s));
    }

    [Fact]
    public void A_tracker_heard_without_a_fix_is_not_called_silent_and_one_that_falls_silent_then_is()
    {
        (Station station, Log log) = Fly(400);
        Say(station, 400, 900, NoFix);
        Assert.Equal(Contact.Alive, station.Snapshot().Contact);
        Callout told = log.Callouts.Single(c => c.Occasion == "silence");
        Assert.Contains("Tracker heard, no good fix for 30 s.", told.Text, StringComparison.Ordinal);
        Assert.Contains(log.Alarms, a => a is { Change: "raised", Alarm: { Id: "no-fix", Cause: var c } }
            && c.ToString().Contains("sentences come", StringComparison.Ordinal));

        station.Tick(At(930));
        Assert.Equal(Contact.Silent, station.Snapshot().Contact);
        Assert.Contains("Tracker silent 20 s.", log.Callouts[^1].Text, StringComparison.Ordinal);
        // Said since when the place is as old as it is, where words are left.
        station.Act(At(931), new OperatorAct("full-callout", ""));
        Assert.Contains("Last fix 9 min ago.", log.Callouts[^1].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Sentences_that_repeat_one_moment_and_a_receiver_unplugged_here_are_told_apart_from_silence()
    {
        (Station station, Log log) = Fly(400);
        Say(station, 400, 500, _ => Sentences(399));
        Assert.Equal(Contact.Stalled, station.Snapshot().Contact);
        Assert.Contains("Tracker repeats a fix 30 s old.", log.Callouts[^1].Text, StringComparison.Ordinal);

        (station, log) = Fly(400);
        station.Link(new LinkStatus(Radio, LinkState.Lost, "the device is gone", At(400)));
        station.Tick(At(450));
        Assert.Equal(Contact.LinkLost, station.Snapshot().Contact);
        Assert.Contains("Our receiver is lost, last fix 30 s ago.", log.Callouts[^1].Text, StringComparison.Ordinal);
        // Mended, and the tracker still not heard: no further call before the cadence's time.
        station.Link(new LinkStatus(Radio, LinkState.Up, "", At(460)));
        station.Tick(At(500));
        Assert.Equal(Contact.Silent, station.Snapshot().Contact);
        Assert.Contains("Our receiver is lost", log.Callouts[^1].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Above_the_receiver_s_limit_it_is_said_when_the_fix_should_be_back_until_that_is_long_over()
    {
        Log log = new();
        Station station = new(FlightPlan.Default with { TrackerAltitudeLimit = new HeightMsl(2000) }, log);
        Say(station, 0, 420, Sentences);
        Say(station, 420, 480, NoFix);
        Assert.Contains("Tracker heard, too high for a fix.", log.Callouts[^1].Text, StringComparison.Ordinal);
        Assert.Matches(@"Fix in \d+ min\.", log.Callouts[^1].Text);
        Assert.DoesNotContain(log.Alarms, a => a.Alarm.Id == "no-fix");
        Assert.Contains(log.Alarms, a => a is { Change: "raised", Alarm.Id: "altitude-limit" });

        // Long after it must have fallen through the limit there is still none: now it is an alarm.
        Say(station, 480, 15_000, NoFix);
        Assert.Contains(log.Alarms, a => a is { Change: "raised", Alarm.Id: "no-fix" });
        Assert.Contains("no good fix for", log.Callouts[^1].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_a_launch_that_only_the_operator_saw_the_plan_s_landing_is_called_at_the_cadence()
    {
        Log log = new();
        Station station = new(WestWind, log);
        station.Tick(At(0));
        station.Act(At(100), new OperatorAct("mark-launch", ""));
        station.Tick(At(102));
        Assert.Contains("Balloon launched, tracker never heard. Landing by plan 47.", log.Callouts[0].Text,
            StringComparison.Ordinal);
        station.Tick(At(1400));
        Assert.Equal(["launch", "cadence", "cadence"], log.Callouts.Select(c => c.Occasion));
        Assert.Contains("Launched 10 min ago, tracker never heard.", log.Callouts[1].Text, StringComparison.Ordinal);
        Assert.All(log.Callouts, c => Assert.InRange(CalloutText.Words(c.Spoken), 30, CalloutText.MostWords));
        Assert.Contains(log.Alarms, a => a is { Change: "raised", Alarm.Id: "no-fix" });
        Assert.Empty(log.Landings);

        Snapshot shown = station.Snapshot();
        Assert.Equal((Phase.Ascent, false), (shown.Flight.Phase, shown.Flight.PhaseHeard));
        Assert.Equal(WestWind.LaunchHeight!.Value.Metres + 1300 * WestWind.AscentRateMps, shown.Landing!.Altitude.Metres, 200.0);
        // Past the planned landing there is a sheet to take along.
        station.Tick(At(12_000));
        Assert.Contains("Never heard: place and area are the planned flight's.",
            SearchSheet.Compose(station.Snapshot().Sheet!), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(false, "No landing estimate: there is no plan.")]
    [InlineData(true, "No landing estimate: the plan has no launch site.")]
    public void With_nothing_to_go_by_that_is_said(bool plan, string words)
    {
        Log log = new();
        Station station = new(FlightPlan.Default with { Stated = plan ? ["name"] : [] }, log);
        station.Tick(At(-700));
        station.Act(At(-690), new OperatorAct("mark-launch", ""));
        station.Tick(At(-10));
        Assert.Equal(["launch", "cadence"], log.Callouts.Select(c => c.Occasion));
        Assert.EndsWith("UTC. Launched 10 min ago, tracker never heard. " + words, log.Callouts[1].Text,
            StringComparison.Ordinal);
        station.Act(At(-9), new OperatorAct("full-callout", ""));
        Assert.Equal("full", log.Callouts[^1].Occasion);
        // Heard at last.
        Say(station, 100, 190, Sentences);
        Assert.Contains("Heard again", log.Callouts[^1].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Silent_on_the_pad_and_marked_as_launched_the_estimate_goes_from_the_mark()
    {
        (Station station, Log log) = Fly(50);
        station.Tick(At(200));
        Assert.Empty(log.Callouts);
        Instant waits = station.Snapshot().Landing!.LandingUtc;
        station.Act(At(240), new OperatorAct("mark-launch", ""));
        station.Tick(At(900));
        Assert.Equal(["launch", "cadence"], log.Callouts.Select(c => c.Occasion));
        Assert.Contains("Balloon launched, tracker silent 3 min. Landing estimate", log.Callouts[0].Text, StringComparison.Ordinal);
        Assert.Contains("Launched 10 min ago, tracker silent 13 min.", log.Callouts[1].Text, StringComparison.Ordinal);
        Snapshot shown = station.Snapshot();
        Assert.Equal((Phase.Ascent, false), (shown.Flight.Phase, shown.Flight.PhaseHeard));
        Assert.Equal(200 + 5 * 660, shown.Landing!.Altitude.Metres, 100.0);
        Assert.Equal(LandingMethod.Silent, shown.Landing.Method);
        Assert.InRange(shown.Landing.LandingUtc.SecondsSince(waits), 30, 60);
    }

    [Fact]
    public void Marked_and_then_heard_on_the_pad_it_was_not_launched()
    {
        (Station station, Log log) = Fly(50);
        station.Act(At(100), new OperatorAct("mark-launch", ""));
        station.Tick(At(400));
        Say(station, 400, 600, s => Encoding.ASCII.GetBytes(SentenceWriter.Seal(
            $"GPGGA,{(Start + TimeSpan.FromSeconds(s)).ToDateTime():HHmmss}.00,4730.1235,N,00300.00000,E,1,09,0.9,200.{s % 2 * 4},M,47.0,M,,")
                + "\r\n"));
        Assert.Contains("Heard again, on the pad.", log.Callouts[^1].Text, StringComparison.Ordinal);
        station.Tick(At(3000));
        Assert.Contains("Heard again, on the pad.", log.Callouts[^1].Text, StringComparison.Ordinal);
        Assert.Equal(Phase.Pad, station.Snapshot().Flight.Phase);
    }

    [Fact]
    public void A_car_s_receiver_that_tells_no_altitude_is_believed_and_counted_so()
    {
        Station station = new(FlightPlan.Default, new Log());
        for (int s = 0; s < 10; s++)
        {
            string rmc = Encoding.ASCII.GetString(Sentences(s)).Split("\r\n")[1];
            station.Receive(SourceId.Chase, At(s + 0.2), Encoding.ASCII.GetBytes(rmc + "\r\n"));
        }
        ReceiverHealth car = Assert.Single(station.Snapshot().Receivers);
        Assert.True(car.Believed > 5);
        Assert.Equal(0, car.Refused);
    }
}
