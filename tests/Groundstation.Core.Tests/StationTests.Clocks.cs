using System.Globalization;
using System.Text;
using Groundstation.Core.Alarms;
using Groundstation.Core.Flight;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Xunit;

namespace Groundstation.Core.Tests;

/// <summary>A laptop whose date is wrong by months, and receivers that tell an impossible date or none.</summary>
public partial class StationTests
{
    private static readonly SourceId Other = new("radio2");

    private static byte[] Undated(int second) =>
        Encoding.ASCII.GetBytes(Encoding.ASCII.GetString(Sentences(second)).Split("\r\n")[0] + "\r\n");

    [Theory, InlineData(300), InlineData(-800)]
    public void A_receiver_that_fell_silent_before_its_date_was_known_does_not_stop_the_flight(int days)
    {
        Log log = new();
        Station station = new(FlightPlan.Default, log);
        for (int s = 0; s < 400; s++)
        {
            Instant at = At(s + 0.2) + TimeSpan.FromDays(days);
            station.Receive(Radio, at, Sentences(s));
            if (s < 2) station.Receive(Other, at, Sentences(s));
        }

        Assert.Equal(Phase.Ascent, station.Snapshot().Flight.Phase);
        Assert.Equal(Start.Date, station.Snapshot().Landing!.Utc.Date);
        Assert.InRange(station.Snapshot().HeardAgeS!.Value, 0, 2);
    }

    [Theory, InlineData(300), InlineData(-800)]
    public void A_receiver_that_tells_no_date_does_not_put_the_flight_of_one_that_does_into_another_year(int days)
    {
        Log log = new();
        Station station = new(FlightPlan.Default, log);
        for (int s = 0; s < 500; s++)
        {
            Instant at = At(s + 0.2) + TimeSpan.FromDays(days);
            station.Receive(Other, at, Undated(s));
            // The one that tells the date falls silent for two minutes: the other one then has the flight alone.
            if (s is < 200 or > 320) station.Receive(Radio, at, Sentences(s));
        }

        Assert.Equal(Phase.Ascent, station.Snapshot().Flight.Phase);
        Assert.Equal(Start.Date, station.Snapshot().Landing!.Utc.Date);
        Assert.Equal(["launch"], log.Callouts.Select(c => c.Occasion).Where(o => o is "launch" or "ascent"));
        Assert.DoesNotContain(log.Alarms, a => a.Alarm.Id == "no-fix");
    }

    [Theory, InlineData("080528"), InlineData("080526")]
    public void Of_two_receivers_that_tell_different_dates_the_one_that_agrees_with_the_laptop_is_gone_by(string wrong)
    {
        Log log = new();
        Station station = new(FlightPlan.Default, log);
        for (int s = 0; s < 400; s++)
        {
            string[] said = Encoding.ASCII.GetString(Sentences(s)).Replace("080527", wrong, StringComparison.Ordinal)
                .Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
            station.Receive(Other, At(s + 0.2), Encoding.ASCII.GetBytes(
                string.Concat(said.Select(x => SentenceWriter.Seal(x[1..^3]) + "\r\n"))));
            if (s is > 20 and < 300) station.Receive(Radio, At(s + 0.3), Sentences(s));
        }

        Assert.Equal(Phase.Ascent, station.Snapshot().Flight.Phase);
        Assert.Equal(Start.Date, station.Snapshot().Landing!.Utc.Date);
        Assert.InRange(station.Snapshot().HeardAgeS!.Value, 0, 2);
        Assert.Equal(["launch"], log.Callouts.Select(c => c.Occasion).Where(o => o is "launch" or "ascent"));
    }

    [Fact]
    public void An_alarm_shelved_before_the_date_was_known_comes_back_in_its_time()
    {
        Log log = new();
        Station station = new(FlightPlan.Default, log);
        TimeSpan ahead = TimeSpan.FromDays(300);
        station.Tick(At(-100) + ahead);
        station.Tick(At(-20) + ahead);
        station.Act(At(-20) + ahead, new OperatorAct("shelve", "no-bytes"));
        for (int s = 0; s < 100; s++) station.Receive(Radio, At(s + 0.2) + ahead, Sentences(s));
        double shelvedS = FlightPlan.Default.Alarms.ShelveS;
        station.Tick(At(shelvedS - 30) + ahead);
        Assert.Equal(AlarmPhase.Shelved, station.Snapshot().Alarms.Single(a => a.Id == "no-bytes").Phase);
        station.Tick(At(shelvedS + 10) + ahead);
        Assert.Equal(AlarmPhase.Unacknowledged, station.Snapshot().Alarms.Single(a => a.Id == "no-bytes").Phase);
    }

    [Theory, InlineData("31,12,9999"), InlineData("01,01,0001")]
    public void A_date_at_the_end_of_the_calendar_is_none(string date)
    {
        Station station = new(FlightPlan.Default, new Log());
        for (int s = 0; s < 40; s++)
        {
            Instant at = new Instant(Start.Date.ToDateTime(new TimeOnly(23, 59, 40)).Ticks - DateTime.UnixEpoch.Ticks)
                .PlusSeconds(s);
            string time = at.ToDateTime().ToString("HHmmss", CultureInfo.InvariantCulture);
            string[] said =
            [
                $"GPZDA,{time},{date},00,00", $"GPGGA,{time},4730.1234,N,00312.3456,E,1,09,0.9,200.0,M,47.0,M,,",
            ];
            station.Receive(Radio, at.PlusSeconds(0.2),
                Encoding.ASCII.GetBytes(string.Concat(said.Select(x => SentenceWriter.Seal(x) + "\r\n"))));
        }

        Assert.Equal(Start.Date.AddDays(1), station.Snapshot().Utc.Date);
        Assert.NotNull(station.Snapshot().Landing);
    }

    [Fact]
    public void A_car_whose_receiver_tells_no_date_is_heard_now_whatever_the_laptop_s_date()
    {
        Log log = new();
        Station station = new(FlightPlan.Default, log);
        TimeSpan ahead = TimeSpan.FromDays(-300);
        for (int s = 0; s < 200; s++)
        {
            station.Receive(Radio, At(s + 0.2) + ahead, Sentences(s));
            station.Receive(SourceId.Chase, At(s + 0.5) + ahead, Undated(20 + s / 10));
        }

        Assert.InRange(station.Snapshot().Utc.SecondsSince(station.Snapshot().Chase!.Value.Utc), 0, 12);
        Assert.DoesNotContain("last place", log.Callouts[^1].Text, StringComparison.Ordinal);
    }

    /// <summary>Marked before the tracker was heard, then a whole flight; its callouts and the station at the end.</summary>
    private static (Station Station, Log Log) MarkedBeforeHeard(TimeSpan ahead, int until)
    {
        Log log = new();
        Station station = new(WestWind with { Winds = [] }, log);
        station.Tick(At(-400) + ahead);
        station.Act(At(-300) + ahead, new OperatorAct("chase-position", "47.4 3.2"));
        station.Act(At(-20) + ahead, new OperatorAct("mark-launch", ""));
        for (int s = 0; s < until; s++) station.Receive(Radio, At(s + 0.2) + ahead, Sentences(s));
        return (station, log);
    }

    [Theory, InlineData(300), InlineData(-300), InlineData(0.25)]
    public void Callouts_and_chase_go_on_when_the_laptop_s_time_is_put_right(double days)
    {
        var ahead = TimeSpan.FromDays(days);
        (Station right, Log told) = MarkedBeforeHeard(default, 1500);
        (Station wrong, Log log) = MarkedBeforeHeard(ahead, 1500);
        Assert.Equal(told.Callouts.Select(c => c.Occasion), log.Callouts.Select(c => c.Occasion));
        Assert.Equal(right.Snapshot().Marks.Launch!.Value.SecondsSince(Start),
            wrong.Snapshot().Marks.Launch!.Value.SecondsSince(Start), 1.0);
        Assert.Equal(right.Snapshot().ChaseNow!.AgeS, wrong.Snapshot().ChaseNow!.AgeS, 1.0);
        Assert.Equal(right.Snapshot().Chase!.Value.Utc.SecondsSince(Start),
            wrong.Snapshot().Chase!.Value.Utc.SecondsSince(Start), 1.0);
    }

    [Theory, InlineData(300), InlineData(-300)]
    public void An_alarm_that_stood_before_the_date_was_known_has_stood_for_seconds_not_months(int days)
    {
        Station station = new(FlightPlan.Default, new Log());
        var ahead = TimeSpan.FromDays(days);
        station.Tick(At(-20) + ahead);
        station.Act(At(-10) + ahead, new OperatorAct("storage", "received.nmea: no space left on the disk"));
        for (int s = 0; s < 30; s++) station.Receive(Radio, At(s + 0.2) + ahead, Sentences(s));
        AlarmState alarm = station.Snapshot().Alarms.Single(a => a.Id == "storage");
        Assert.Equal(-10, alarm.Since.SecondsSince(Start), 1.5);
    }

    [Theory, InlineData(300), InlineData(-300), InlineData(0.25)]
    public void Marked_by_a_wrong_laptop_and_silent_on_the_pad_it_flies_from_the_mark(double days)
    {
        (Station station, Log log) = MarkedBeforeHeard(TimeSpan.FromDays(days), 20);
        station.Tick(At(900) + TimeSpan.FromDays(days));
        Assert.Equal(900 * WestWind.AscentRateMps, station.Snapshot().Landing!.Altitude.Metres, 400.0);
        Assert.Contains("cadence", log.Callouts.Select(c => c.Occasion));
    }

    [Fact]
    public void A_receiver_without_date_and_a_laptop_twelve_hours_off_stay_on_one_day()
    {
        Log log = new();
        Station station = new(FlightPlan.Default, log);
        for (int s = 0; s < 400; s++)
            station.Receive(Radio, At(s + (s % 2 == 0 ? 0.2 : -0.2)) + TimeSpan.FromHours(12), Undated(s));
        Assert.InRange(log.Fixes.Max(f => f.Utc).SecondsSince(log.Fixes.Min(f => f.Utc)), 390, 400);
        Assert.Equal(Phase.Ascent, station.Snapshot().Flight.Phase);
    }
}
