using System.Text;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Sentences;
using Xunit;

namespace Groundstation.Core.Tests;

/// <summary>What the station makes of silence, of half epochs, and of what the operator tells meanwhile.</summary>
public partial class StationTests
{
    [Fact]
    public void In_silence_the_estimate_is_the_model_s_within_25_seconds_and_shows_every_ten_how_the_area_grows()
    {
        (Station station, Log log) = Fly(900);
        int heard = log.Landings.Count;
        station.Tick(At(960));
        LandingEstimate[] silent = [.. log.Landings.Skip(heard).Where(l => l.Method == LandingMethod.Silent)];
        Assert.InRange(silent[0].HeardAgeS, 15, 25);
        Assert.InRange(silent.Length, 4, 5);
        Assert.All(silent.Zip(silent[1..]), pair => Assert.Equal(10, pair.Second.Utc.SecondsSince(pair.First.Utc), 0.5));
    }

    [Fact]
    public void A_tracker_that_sends_every_half_minute_is_not_silent_between_two_epochs()
    {
        Log log = new();
        Station station = new(FlightPlan.Default, log);
        for (int s = 0; s < 600; s += 30) station.Receive(Radio, At(s + 0.2), Sentences(s));
        // The first gap is a silence: how often it sends is not known yet.
        Assert.DoesNotContain(log.Landings, l => l.Method == LandingMethod.Silent && l.Utc > At(60));
        Assert.DoesNotContain(log.Alarms, a => a.Alarm.Id is "no-fix" or "no-bytes" && a.Alarm.Since > At(60));
    }

    [Theory]
    [InlineData(true)] // it says itself that it has no fix
    [InlineData(false)] // the half of each epoch that has the height is lost on the way
    public void What_the_receiver_does_not_claim_is_no_outlier(bool noFix)
    {
        (Station station, Log log) = Fly(100);
        for (int s = 100; s < 115; s++)
        {
            string time = (Start + TimeSpan.FromSeconds(s)).ToDateTime().ToString("HHmmss", null);
            string half = Encoding.ASCII.GetString(Sentences(s)).Split("\r\n")[1];
            string line = noFix ? SentenceWriter.Seal($"GPGGA,{time},,,,,0,00,99.9,,M,,M,,") : half;
            station.Receive(Radio, At(s + 0.2), Encoding.ASCII.GetBytes(line + "\r\n"));
        }

        Assert.True(log.Fixes.Count(f => !f.Believed) > 10);
        Assert.DoesNotContain(log.Alarms, a => a.Alarm.Id == "outliers");
    }

    [Theory]
    [InlineData("-500", true)]
    [InlineData("-501", false)]
    [InlineData("9000", true)]
    [InlineData("9001", false)]
    public void The_ground_s_height_is_one_that_there_is(string metres, bool taken)
    {
        (Station station, _) = Fly(100);
        station.Act(At(100), new OperatorAct("ground-height", metres));
        Assert.Equal(taken, station.Snapshot().GroundFrom == GroundOrigin.Operator);
        Assert.Equal(!taken, station.Snapshot().Events[^1].Text.ToString()
            .EndsWith("(could not be carried out)", StringComparison.Ordinal));
    }

    [Fact]
    public void A_gap_as_long_as_the_alarm_s_limit_begins_the_time_a_fix_was_held_anew()
    {
        (Station station, _) = Fly(50);
        for (int s = 60; s < 70; s++) station.Receive(Radio, At(s + 0.2), Sentences(s));
        Assert.InRange(station.Snapshot().FixHeldS!.Value, 65, 70);
        for (int s = 110; s < 120; s++) station.Receive(Radio, At(s + 0.2), Sentences(s));
        Assert.InRange(station.Snapshot().FixHeldS!.Value, 7, 10);
    }

    [Fact]
    public void A_history_that_is_full_keeps_its_whole_shape()
    {
        Thinned<int> history = new(8);
        for (int i = 0; i < 100; i++) history.Add(i);
        Assert.InRange(history.View.Length, 4, 8);
        Assert.Equal(0, history.View[0]);
        Assert.True(history.View[^1] >= 80);
        Assert.Single(history.View.Zip(history.View[1..], (a, b) => b - a).Distinct());
    }
}
