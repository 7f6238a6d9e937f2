using System.Diagnostics;
using System.Net.Sockets;
using Groundstation.Core;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;
using Groundstation.Io.Sources;
using Xunit;

namespace Groundstation.Io.Tests.Sessions;

/// <summary>A live flight: what is recorded is what the station got, over stops, kills and restarts.</summary>
public sealed class LiveSessionTests : IDisposable
{
    private static readonly string[] _logs = ["fixes.csv", "winds.csv", "landing.csv", "alarms.csv", "callouts.csv"];
    private readonly TempFolder _temp = new();
    private readonly CancellationToken _limit = TestContext.Current.CancellationToken;

    public void Dispose() => _temp.Dispose();

    [Fact]
    public async Task A_replay_of_what_a_live_session_recorded_gives_its_logs_to_the_byte()
    {
        await Live("live", Sent(0, 600));
        Replay(_temp["live/received.nmea"], "again", null);
        AssertSameLogs("live", "again");
        Assert.Equal(File.ReadAllBytes(_temp["live/received.nmea"]), File.ReadAllBytes(_temp["again/received.nmea"]));
        Assert.True(File.ReadAllLines(_temp["live/fixes.csv"]).Length > 550);
    }

    [Fact]
    public void A_replay_gives_the_same_logs_at_any_rate()
    {
        string log = _temp.Write("log.nmea", string.Concat(Sent(0, 40).Take(35)) + Sent(300, 301)[0]);
        Replay(log, "max", null);
        Replay(log, "fast", 2000);
        Replay(log, "slow", 100);
        AssertSameLogs("max", "fast");
        AssertSameLogs("max", "slow");
    }

    [Fact]
    public async Task After_a_kill_at_any_byte_the_flight_goes_on_without_gap_or_duplicate()
    {
        await Live("first", Sent(0, 300));
        byte[] recording = File.ReadAllBytes(_temp["first/received.nmea"]);
        int all = recording.Length;
        foreach (int cut in new[] { all, all - 1, all - 40, all / 2 })
        {
            string name = $"cut{cut}";
            Directory.CreateDirectory(_temp[name]);
            foreach (string log in _logs)
                File.Copy(_temp["first/" + log], _temp[name + "/" + log]);
            File.WriteAllBytes(_temp[name + "/received.nmea"], recording[..cut]);

            await Live(name, Sent(300, 400));
            Replay(_temp[name + "/received.nmea"], name + "again", null);
            AssertSameLogs(name, name + "again");
            byte[] after = File.ReadAllBytes(_temp[name + "/received.nmea"]);
            Assert.Equal(recording[..cut], after[..cut]);
            string[] rows = File.ReadAllLines(_temp[name + "/fixes.csv"])[1..];
            string[] times = [.. rows.Select(row => row.Split(',')[0])];
            Assert.Equal(times.Distinct(), times);
            Assert.Equal(times.Order(StringComparer.Ordinal), times);
        }
    }

    [Fact]
    public async Task What_came_a_second_ago_is_in_the_recording_even_from_a_sender_that_ends_no_line()
    {
        using TcpFeeder server = new();
        using CancellationTokenSource stop = new();
        Task session = Run("live", server, stop, out LiveSession live);
        using TcpClient visitor = await server.Visitor(_limit);
        await visitor.GetStream().WriteAsync(Bytes.Of("no end"), _limit);
        await Task.Delay(1000, _limit);
        Assert.Contains("$PGSE,RAW,no end,0*", Recorded("live"), StringComparison.Ordinal);
        await visitor.GetStream().WriteAsync(Bytes.Of(" yet\r\n"), _limit);
        live.Act(new OperatorAct("note", "heard, at last"));
        await Task.Delay(1500, _limit);
        string recorded = Recorded("live");
        Assert.Contains(@"\ yet", recorded, StringComparison.Ordinal);
        Assert.Contains("$PGSE,ACT,note,heard^2C at last*", recorded, StringComparison.Ordinal);
        await stop.CancelAsync();
        await session.WaitAsync(TimeSpan.FromSeconds(3), _limit);
        Assert.Contains("$PGSE,END*", Recorded("live"), StringComparison.Ordinal);
        live.Dispose();
    }

    [Fact]
    public async Task In_silence_each_second_has_one_tick()
    {
        using TcpFeeder server = new();
        using CancellationTokenSource stop = new();
        Task session = Run("live", server, stop, out LiveSession live);
        using TcpClient visitor = await server.Visitor(_limit);
        await Task.Delay(4500, _limit);
        await stop.CancelAsync();
        await session.WaitAsync(TimeSpan.FromSeconds(3), _limit);
        live.Dispose();
        using RecordingReader reader = RecordingReader.Open(_temp["live/received.nmea"]);
        List<long> ticks = [], told = [];
        while (reader.Read(out RecordedEvent e))
        {
            // Room on the disk is told in one of the seconds, which needs no tick then.
            if (e.Kind is RecordedKind.Tick or RecordedKind.Act)
                (e.Kind == RecordedKind.Tick ? ticks : told).Add(e.At.UnixMilliseconds / 1000);
        }

        Assert.InRange(ticks.Count, 2, 5);
        Assert.Equal(ticks.Distinct(), ticks);
        long[] seconds = [.. ticks.Concat(told).Distinct().Order()];
        Assert.Equal(Enumerable.Range(0, seconds.Length).Select(k => seconds[0] + k), seconds);
    }

    [Fact]
    public void A_session_ends_by_itself_when_its_input_has()
    {
        using FlightFolder folder = FlightFolder.Open(_temp["live"], FolderUse.Live);
        SourcePump pump = new(new SourceId("radio1"), new StandardInputAddress(), TimeProvider.System,
            (_, _) => Task.FromResult(Openers.Standard(new MemoryStream(Bytes.Of(string.Concat(Sent(0, 20)))))));
        using LiveSession live = new(FlightPlan.Default, folder, [pump], TimeProvider.System, null);
        live.Run(_limit, untilSourcesEnd: true);
        string summary = HeadlessSummary.Text(live.Outcome());
        Assert.Contains("fixes: 20 believed, 0 refused", summary, StringComparison.Ordinal);
        Assert.Contains("lines rejected: none", summary, StringComparison.Ordinal);
        Assert.Contains("files: " + _temp["live"] + ": received.nmea, fixes.csv", summary, StringComparison.Ordinal);
    }

    [Fact]
    public void A_full_disk_is_told_and_what_it_does_not_take_waits()
    {
        if (!OperatingSystem.IsLinux())
            Assert.Skip("needs /dev/full");
        using Io.Storage.AppendFile full = new("/dev/full", fresh: false, writeThrough: true);
        full.Append("one"u8);
        full.Append("two"u8);
        Assert.Equal("no space left on the disk", full.Trouble);
        Assert.Equal(6, full.Length);
        Assert.Equal(0, full.Dropped);
    }

    [Fact]
    public void A_recording_that_somebody_deletes_comes_back_whole()
    {
        using Io.Storage.AppendFile file = new(_temp["f"], fresh: true, writeThrough: true);
        file.Append("one"u8);
        File.Delete(_temp["f"]);
        file.Append("two"u8);
        file.Look();
        file.Append("three"u8);
        Assert.Equal("onetwothree", File.ReadAllText(_temp["f"]));
    }

    private async Task Live(string folder, string[] lines)
    {
        using TcpFeeder server = new();
        using CancellationTokenSource stop = new();
        Task session = Run(folder, server, stop, out LiveSession live);
        using TcpClient visitor = await server.Visitor(_limit);
        await visitor.GetStream().WriteAsync(Bytes.Of(string.Concat(lines)), _limit);
        Stopwatch waited = Stopwatch.StartNew();
        while (!Recorded(folder).Contains(lines[^1].TrimEnd(), StringComparison.Ordinal))
        {
            Assert.True(waited.Elapsed < TimeSpan.FromSeconds(30), "the last line never came");
            await Task.Delay(20, _limit);
        }

        await stop.CancelAsync();
        await session.WaitAsync(TimeSpan.FromSeconds(3), _limit);
        live.Dispose();
    }

    private Task Run(string folder, TcpFeeder server, CancellationTokenSource stop, out LiveSession live)
    {
        SourcePump pump = new(new SourceId("radio1"), SourceAddress.Parse(server.Address), TimeProvider.System);
        LiveSession session = new(FlightPlan.Default, FlightFolder.Open(_temp[folder], FolderUse.Live), [pump],
            TimeProvider.System, TimeSpan.FromMilliseconds(100));
        live = session;
        return Task.Factory.StartNew(() => session.Run(stop.Token), _limit, TaskCreationOptions.LongRunning,
            TaskScheduler.Default);
    }

    private void Replay(string recording, string folder, double? rate)
    {
        using ReplaySession replay = new(RecordingReader.Open(recording), FlightPlan.Default,
            FlightFolder.Open(_temp[folder], FolderUse.Replay), rate, TimeProvider.System);
        replay.Run(_limit);
    }

    private void AssertSameLogs(string a, string b)
    {
        foreach (string log in _logs)
            Assert.Equal(File.ReadAllText(_temp[a + "/" + log]), File.ReadAllText(_temp[b + "/" + log]));
    }

    private string Recorded(string folder)
    {
        using FileStream file = new(_temp[folder + "/received.nmea"], FileMode.Open, FileAccess.Read,
            FileShare.ReadWrite | FileShare.Delete);
        using StreamReader text = new(file);
        return text.ReadToEnd();
    }

    /// <summary>A climb at 5 m/s with a fix a second, from second to second; 12:00:00 on the day of the test.</summary>
    private static string[] Sent(int from, int to) => [.. Enumerable.Range(from, to - from).Select(i =>
        Recordings.ForeignLogTests.Line(FormattableString.Invariant($"GPGGA,12{i / 60:00}{i % 60:00}.00,")
            + FormattableString.Invariant($"4815.{i * 3:00000},N,03030.{i * 5:00000},W,1,10,0.9,")
            + FormattableString.Invariant($"{200 + i * 5:F1},M,50.0,M,,")))];
}
