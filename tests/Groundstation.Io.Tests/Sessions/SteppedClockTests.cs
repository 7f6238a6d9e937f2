using System.Diagnostics;
using System.Globalization;
using System.Net.Sockets;
using Groundstation.Core.Plan;
using Groundstation.Core.Receive;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;
using Groundstation.Io.Sources;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace Groundstation.Io.Tests.Sessions;

/// <summary>
/// A live flight on a host whose clock is set by hours, whose time zone changes and which is put to sleep: stamps and
/// ages go on evenly, each is told in words, and a replay gives the same logs.
/// </summary>
public sealed class SteppedClockTests : IDisposable
{
    private static readonly string[] _logs = ["fixes.csv", "winds.csv", "landing.csv", "alarms.csv", "callouts.csv"];
    private readonly TempFolder _temp = new();
    private readonly SteppedTime _time = new();
    private readonly CancellationToken _limit = TestContext.Current.CancellationToken;
    private double _utcS;

    public void Dispose() => _temp.Dispose();

    [Fact]
    public async Task Steps_zones_and_sleep_are_told_and_move_no_duration()
    {
        using TcpFeeder server = new();
        using CancellationTokenSource stop = new();
        SourcePump pump = new(new SourceId("radio1"), SourceAddress.Parse(server.Address), _time);
        FlightFolder folder = FlightFolder.Open(_temp["live"], FolderUse.Live);
        using LiveSession live = new(FlightPlan.Default, folder, [pump], _time, null)
        { UptimeS = () => _time.UptimeS };
        Task running = Task.Factory.StartNew(() => live.Run(stop.Token), _limit, TaskCreationOptions.LongRunning,
            TaskScheduler.Default);
        using TcpClient visitor = await server.Visitor(_limit);

        await Fly(visitor, 20);
        _time.Step += TimeSpan.FromHours(3);
        _time.SetLocalTimeZone(TimeZoneInfo.CreateCustomTimeZone("east", TimeSpan.FromHours(9), "east", "east"));
        await Fly(visitor, 40);
        Assert.Contains("Host clock 3 h 0 min ahead of the receiver's UTC", Read("alarms.csv"),
            StringComparison.Ordinal);
        _time.Step -= TimeSpan.FromHours(3);
        await Fly(visitor, 40);
        Assert.Equal(["host-clock,advisory,raised", "host-clock,advisory,returned"], Rows("alarms.csv")
            .Select(row => string.Join(',', row.Split(',')[1..4]))
            .Where(row => !row.StartsWith("launch", StringComparison.Ordinal)));

        // The lid is closed for ten minutes: the monotonic clock stands, wall clock and uptime do not.
        (_time.Step, _time.SleptS, _utcS) = (_time.Step + TimeSpan.FromMinutes(10), 600, _utcS + 600);
        _time.Advance(TimeSpan.FromSeconds(1));
        await Recorded("this computer slept for 600 s");
        await Until(() => Read("alarms.csv").Contains(",no-fix,warning,raised", StringComparison.Ordinal));
        await Fly(visitor, 20);
        await stop.CancelAsync();
        await running.WaitAsync(TimeSpan.FromSeconds(10), _limit);

        string recording = await File.ReadAllTextAsync(_temp["live/received.nmea"], _limit);
        Assert.Contains("the host clock was set forward by 10800 s: stamps go on unchanged", Told(recording),
            StringComparison.Ordinal);
        Assert.Contains("the host clock was set back by 10800 s: stamps go on unchanged", Told(recording),
            StringComparison.Ordinal);
        long[] stamps = [.. Stamps(recording)];
        Assert.Equal(stamps.Order(), stamps);
        Assert.Equal(_time.UptimeS, (stamps[^1] - stamps[0]) / 1000.0, 2.0);
        Assert.Equal(120, Rows("fixes.csv").Length);

        using ReplaySession replay = new(RecordingReader.Open(_temp["live/received.nmea"]), FlightPlan.Default,
            FlightFolder.Open(_temp["again"], FolderUse.Replay), null, TimeProvider.System);
        replay.Run(_limit);
        replay.Dispose();
        foreach (string log in _logs)
            Assert.Equal(File.ReadAllText(_temp["live/" + log]), File.ReadAllText(_temp["again/" + log]));
    }

    /// <summary>An epoch a second, with the receiver's own time.</summary>
    private async Task Fly(TcpClient visitor, int seconds)
    {
        for (int i = 0; i < seconds; i++)
        {
            string time = (TimeSpan.FromHours(9) + TimeSpan.FromSeconds(_utcS++))
                .ToString("hhmmss", CultureInfo.InvariantCulture);
            string place = FormattableString.Invariant($"4815.{_utcS * 3:00000},N,03030.{_utcS * 5:00000},W"),
                gga = Recordings.ForeignLogTests.Line(FormattableString.Invariant(
                    $"GPGGA,{time}.00,{place},1,10,0.9,{200 + _utcS * 5:F1},M,50.0,M,,")),
                rmc = Recordings.ForeignLogTests.Line($"GPRMC,{time}.00,A,{place},10.0,300.0,210626,,,A");
            await visitor.GetStream().WriteAsync(Bytes.Of(gga + rmc), _limit);
            await Recorded(rmc.TrimEnd());
            _time.Advance(TimeSpan.FromSeconds(1));
        }
    }

    private Task Recorded(string text) =>
        Until(() => Told(Read("received.nmea")).Contains(text, StringComparison.Ordinal));

    /// <summary>The recording with what it escapes.</summary>
    private static string Told(string recording) => recording.Replace("^2C", ",", StringComparison.Ordinal);

    private static IEnumerable<long> Stamps(string recording) => recording.Split("\r\n")
        .Select(line => (Line: line, At: line.IndexOf(",c:", StringComparison.Ordinal)))
        .Where(l => l.At >= 0).Select(l => long.Parse(l.Line[(l.At + 3)..l.Line.IndexOf('*', StringComparison.Ordinal)],
            CultureInfo.InvariantCulture));

    private string[] Rows(string log) => Read(log).Split("\r\n", StringSplitOptions.RemoveEmptyEntries)[1..];

    private string Read(string file)
    {
        using FileStream stream = new(_temp["live/" + file], FileMode.Open, FileAccess.Read,
            FileShare.ReadWrite | FileShare.Delete);
        using StreamReader text = new(stream);
        return text.ReadToEnd();
    }

    private async Task Until(Func<bool> holds)
    {
        Stopwatch waited = Stopwatch.StartNew();
        while (!holds())
        {
            Assert.True(waited.Elapsed < TimeSpan.FromSeconds(40), "it never came:\n" + Read("received.nmea"));
            await Task.Delay(10, _limit);
        }
    }

    /// <summary>A host whose wall clock can be set without its monotonic clock, and which can sleep.</summary>
    private sealed class SteppedTime() : FakeTimeProvider(new DateTimeOffset(2026, 6, 21, 9, 0, 0, TimeSpan.Zero))
    {
        public TimeSpan Step { get; set; }

        public double SleptS { get; set; }

        public double UptimeS => (base.GetUtcNow() - Start).TotalSeconds + SleptS;

        public override DateTimeOffset GetUtcNow() => base.GetUtcNow() + Step;

        public override long GetTimestamp() => base.GetUtcNow().Ticks;
    }
}
