using System.Globalization;
using System.Text;
using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Xunit;

namespace Groundstation.Core.Tests;

/// <summary>The whole way through the station, on a short invented flight: 5 m/s up to 3 km, then down, 8 m/s of west wind.</summary>
public partial class StationTests
{
    private static readonly SourceId Radio = new("radio1");
    private static readonly Instant Start = Instant.FromUtc(new DateOnly(2027, 5, 8), new TimeSpan(9, 0, 0));

    private sealed class Log : IFlightLog
    {
        public StringBuilder Rows { get; } = new();
        public List<Fix> Fixes { get; } = [];
        public List<LandingEstimate> Landings { get; } = [];
        public List<(string Change, AlarmState Alarm)> Alarms { get; } = [];
        public List<Callout> Callouts { get; } = [];

        public void Fix(Fix fix) => Row(Fixes, fix, fix.ToString());

        public void Wind(Instant utc, in WindLayer layer) => Rows.AppendLine(CultureInfo.InvariantCulture, $"{utc} {layer}");

        public void Landing(LandingEstimate estimate) => Row(Landings, estimate,
            string.Create(CultureInfo.InvariantCulture, $"{estimate.Utc} {estimate.Method} {estimate.Position} {estimate.LandingUtc} {estimate.Area95}"));

        public void Alarm(Instant utc, string change, AlarmState alarm) => Row(Alarms, (change, alarm), $"{utc} {change} {alarm}");

        public void Callout(Callout callout) => Row(Callouts, callout, callout.ToString());

        private void Row<T>(List<T> list, T item, string text)
        {
            list.Add(item);
            Rows.AppendLine(text);
        }
    }

    private static double HeightM(int second) => second switch
    {
        < 60 => 200,
        < 620 => 200 + 5 * (second - 60),
        _ => Math.Max(200, 3000 - 6 * (second - 620)),
    };

    private static byte[] Sentences(int second)
    {
        double height = HeightM(second);
        double lon = 3 + (second < 60 ? 0 : 8 * Math.Min(second - 60, 1027) / 75_000.0);
        string position = string.Create(CultureInfo.InvariantCulture, $"4730.{1234 + second % 3:0000},N,00{(int)lon}{lon % 1 * 60:00.00000},E");
        string time = (Start + TimeSpan.FromSeconds(second)).ToDateTime().ToString("HHmmss", CultureInfo.InvariantCulture);
        string gga = string.Create(CultureInfo.InvariantCulture, $"GPGGA,{time}.00,{position},1,09,0.9,{height + second % 2 * 0.4:F1},M,47.0,M,,");
        string rmc = string.Create(CultureInfo.InvariantCulture, $"GPRMC,{time}.00,A,{position},15.5,90.0,080527,,,A");
        return Encoding.ASCII.GetBytes(SentenceWriter.Seal(gga) + "\r\n" + SentenceWriter.Seal(rmc) + "\r\n");
    }

    private static Instant At(double second) => Start.PlusSeconds(second);

    private static (Station Station, Log Log) Fly(int seconds, int piece = int.MaxValue)
    {
        Log log = new();
        Station station = new(FlightPlan.Default, log);
        for (int s = 0; s < seconds; s++)
        {
            byte[] bytes = Sentences(s);
            for (int i = 0; i < bytes.Length; i += piece)
                station.Receive(Radio, At(s + 0.2), bytes.AsSpan(i, Math.Min(piece, bytes.Length - i)));
        }
        return (station, log);
    }

    [Fact]
    public void A_flight_goes_from_pad_to_landed_and_every_believed_fix_gets_an_estimate()
    {
        (Station station, Log log) = Fly(1300);
        Assert.All(log.Fixes, f => Assert.True(f.Believed, f.Detail.ToString()));
        Assert.True(log.Fixes.Count is >= 1298 and <= 1300);
        Assert.Equal(log.Fixes.Count, log.Landings.Count);
        Assert.Equal(Phase.Landed, station.Snapshot().Flight.Phase);
        Assert.Equal(["launch", "burst", "approach", "landed"],
            log.Alarms.Where(a => a.Change == "raised").Select(a => a.Alarm.Id));
        Assert.Equal(["launch", "burst", "landed"],
            log.Callouts.Where(c => c.Occasion is not ("cadence" or "moved")).Select(c => c.Occasion));
    }

    [Fact]
    public void Switched_on_in_flight_it_does_not_take_the_air_for_the_ground()
    {
        Log log = new();
        Station station = new(FlightPlan.Default, log);
        // The climb from 2100 m on.
        for (int s = 440; s < 600; s++) station.Receive(Radio, At(s + 0.2), Sentences(s));
        Assert.Equal(Phase.Ascent, station.Snapshot().Flight.Phase);
        Assert.Null(station.Snapshot().Flight.Launch);
        Assert.True(log.Landings[^1].Ground.Metres < 500);
    }

    [Theory, InlineData(-800), InlineData(300)]
    public void A_flight_of_another_year_than_the_hosts_clock_is_followed_once_its_date_is_known(int days)
    {
        Log log = new();
        Station station = new(FlightPlan.Default, log);
        for (int s = 0; s < 400; s++) station.Receive(Radio, At(s + 0.2) + TimeSpan.FromDays(days), Sentences(s));
        Snapshot shown = station.Snapshot();
        Assert.Equal(Phase.Ascent, shown.Flight.Phase);
        Assert.Equal(Start.Date, shown.Landing!.Utc.Date);
        Assert.All(shown.Track, w => Assert.Equal(Start.Date, w.Utc.Date));
        Assert.InRange(log.Fixes.Count(f => f.DateFrom == DateOrigin.NearestToArrival), 1, 5);
    }

    [Fact]
    public void A_car_whose_receiver_tells_no_height_is_known()
    {
        Log log = new();
        Station station = new(FlightPlan.Default, log);
        for (int s = 0; s < 5; s++)
        {
            string rmc = Encoding.ASCII.GetString(Sentences(s)).Split("\r\n").Single(l => l.Contains("RMC", StringComparison.Ordinal));
            station.Receive(SourceId.Chase, At(s + 0.2), Encoding.ASCII.GetBytes(rmc + "\r\n"));
        }

        station.Tick(At(8));
        Assert.Equal(47.502, station.Snapshot().Chase!.Value.Position.LatitudeDeg, 0.001);
        Assert.All(log.Fixes, f => Assert.True(f.Believed, f.Detail.ToString()));
    }

    [Theory, InlineData(1), InlineData(7), InlineData(100)]
    public void How_the_bytes_are_cut_changes_no_row(int piece) =>
        Assert.Equal(Fly(800).Log.Rows.ToString(), Fly(800, piece).Log.Rows.ToString());

    [Fact]
    public void One_late_event_ticks_through_a_silence_exactly_as_a_tick_a_second_does()
    {
        (Station often, Log a) = Fly(700);
        for (int s = 700; s <= 1000; s++) often.Tick(At(s));
        (Station once, Log b) = Fly(700);
        once.Tick(At(1000));
        Assert.Equal(a.Rows.ToString(), b.Rows.ToString());
    }

    [Fact]
    public void In_silence_the_estimate_goes_on_from_the_model()
    {
        (Station station, Log log) = Fly(900);
        LandingEstimate heard = log.Landings[^1];
        Assert.Equal(LandingMethod.Descent, heard.Method);
        station.Tick(At(1000));
        LandingEstimate silent = log.Landings[^1];
        Assert.Equal(LandingMethod.Silent, silent.Method);
        Assert.Equal(Phase.Descent, silent.Phase);
        Assert.True(silent.HeardAgeS is > 90 and < 105);
        Assert.Equal(heard.Position, silent.Position);
        Assert.Equal(heard.Altitude.Metres - 6 * silent.HeardAgeS, silent.Altitude.Metres, 60.0);
        Snapshot shown = station.Snapshot();
        Assert.False(shown.Flight.PhaseHeard);
        Assert.Contains(shown.Alarms, x => x.Id == "no-bytes");
        Assert.Equal("silence", log.Callouts[^1].Occasion is "cadence" ? log.Callouts[^2].Occasion : log.Callouts[^1].Occasion);

        station.Tick(At(1400));
        Assert.Equal(Phase.Landed, station.Snapshot().Flight.Phase);
        Assert.False(station.Snapshot().Flight.PhaseHeard);
    }

    [Fact]
    public void A_lost_link_raises_its_alarm_and_not_those_that_follow_from_it()
    {
        (Station station, Log log) = Fly(300);
        station.Link(new LinkStatus(Radio, LinkState.Lost, "device node gone", At(300)));
        station.Tick(At(420));
        Assert.Equal(["launch", "link-lost", "no-fix"], log.Alarms.Where(a => a.Change == "raised").Select(a => a.Alarm.Id));
        station.Link(new LinkStatus(Radio, LinkState.Up, "", At(420)));
        for (int s = 421; s < 440; s++) station.Receive(Radio, At(s + 0.2), Sentences(s));
        Assert.Contains(log.Alarms, a => a is { Change: "returned", Alarm.Id: "link-lost" });
        Assert.Contains(log.Callouts, c => c.Occasion == "heard-again");
    }

    [Fact]
    public void The_operators_acts_are_carried_out_or_said_to_be_impossible()
    {
        (Station station, Log log) = Fly(700);
        station.Act(At(700), new OperatorAct("acknowledge", "burst"));
        Assert.Contains(log.Alarms, a => a is { Change: "acknowledged", Alarm.Id: "burst" });
        station.Act(At(700), new OperatorAct("read-back", "1 correct"));
        Assert.Equal("correct", station.Snapshot().Callouts[0].ReadBack);
        station.Act(At(700), new OperatorAct("chase-position", "47°06.000′N 3°12.000′E"));
        Assert.Equal(47.1, station.Snapshot().Chase!.Value.Position.LatitudeDeg, 9);
        LandingEstimate before = station.Snapshot().Landing!;
        station.Act(At(700), new OperatorAct("ground-height", "900"));
        LandingEstimate after = station.Snapshot().Landing!;
        Assert.Equal(900, after.Ground.Metres);
        Assert.True(after.LandingUtc < before.LandingUtc);
        station.Act(At(700), new OperatorAct("ground-height", "1e9"));
        Assert.EndsWith("(could not be carried out)", station.Snapshot().Events[^1].Text.ToString());
    }

    [Fact]
    public void The_chase_cars_receiver_gives_its_place_and_no_part_of_the_flight()
    {
        (Station station, Log log) = Fly(120);
        int estimates = log.Landings.Count;
        for (int s = 120; s < 126; s++) station.Receive(SourceId.Chase, At(s + 0.5), Sentences(20));
        Assert.NotNull(station.Snapshot().Chase);
        Assert.Equal(estimates, log.Landings.Count(l => l.Method != LandingMethod.Silent));
        Assert.Equal("radio1", station.Snapshot().NewestFix!.Source.Name);
    }

    [Fact]
    public void Two_receivers_of_one_flight_give_one_row_an_epoch_and_the_loss_of_one_is_no_loss()
    {
        var (one, two) = (new Log(), new Log());
        var (alone, both) = (new Station(FlightPlan.Default, one), new Station(FlightPlan.Default, two));
        SourceId other = new("radio2");
        for (int s = 0; s < 400; s++)
        {
            alone.Receive(Radio, At(s + 0.2), Sentences(s));
            // Each is lost for a while, and the other then has the epochs alone.
            if (s is < 100 or > 150) both.Receive(Radio, At(s + 0.2), Sentences(s));
            if (s is < 250 or > 300) both.Receive(other, At(s + 0.3), Sentences(s));
        }

        alone.Tick(At(402));
        both.Tick(At(402));
        Assert.Equal(one.Fixes.Select(f => (f.Utc, f.Position, f.Height)), two.Fixes.Select(f => (f.Utc, f.Position, f.Height)));
        Assert.All(two.Fixes, f => Assert.True(f.Believed, f.Detail.ToString()));
        Assert.Equal(other, two.Fixes[120].Source);
        Assert.Equal(Radio, two.Fixes[270].Source);
        Assert.Equal(other, Assert.Single(two.Fixes[50].Also).Source);
        Assert.Equal(one.Landings.Select(l => l.Position), two.Landings.Select(l => l.Position));
        Assert.Equal([349, 349], both.Snapshot().Receivers.Select(r => (int)r.Believed));
    }
}
