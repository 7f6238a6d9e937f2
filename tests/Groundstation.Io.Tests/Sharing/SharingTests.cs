using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Groundstation.Core.Plan;
using Groundstation.Core.Receive;
using Groundstation.Io.Folders;
using Groundstation.Io.Sessions;
using Groundstation.Io.Sharing;
using Groundstation.Io.Sources;
using MQTTnet;
using Xunit;

namespace Groundstation.Io.Tests.Sharing;

/// <summary>A flight shared over the station's own broker: who follows gets the same files, also after a gap.</summary>
public sealed class SharingTests : IDisposable
{
    private static readonly string[] _files =
        ["received.nmea", "fixes.csv", "winds.csv", "landing.csv", "alarms.csv", "callouts.csv"];

    private readonly TempFolder _temp = new();
    private readonly CancellationToken _limit = TestContext.Current.CancellationToken;
    private readonly int _port = FreePort();

    private string Where => $"127.0.0.1:{_port}/flight";

    public void Dispose() => _temp.Dispose();

    [Fact]
    public async Task A_follower_has_the_same_recording_and_logs_to_the_byte_also_when_it_comes_late_and_after_a_gap()
    {
        using Publisher publisher = new(_temp["shared"], $"listen:{_port}", _limit);
        await publisher.Send(0, 120);

        using (FollowSession late = Follow("copy"))
        {
            await Followed(late, "copy", "GPGGA,120159.00");
            await publisher.Send(120, 140);
            await Followed(late, "copy", "GPGGA,120219.00");
        }

        // Cut off, and killed in the middle of a line.
        await publisher.Send(140, 160);
        byte[] copy = File.ReadAllBytes(_temp["copy/received.nmea"]);
        File.WriteAllBytes(_temp["copy/received.nmea"], copy[..^7]);
        using (FollowSession again = Follow("copy"))
        {
            await Followed(again, "copy", "GPGGA,120239.00");
            await publisher.Stop();
            await Followed(again, "copy", "$PGSE,END");
        }

        foreach (string file in _files)
            Assert.Equal(File.ReadAllText(_temp["shared/" + file]), File.ReadAllText(_temp["copy/" + file]));
        Assert.True(File.ReadAllLines(_temp["copy/fixes.csv"]).Length > 150);
    }

    [Fact]
    public async Task Other_programs_get_each_line_and_the_newest_landing_estimate_and_may_not_publish()
    {
        using Publisher publisher = new(_temp["shared"], $"listen:{_port}", _limit);
        using IMqttClient other = new MqttClientFactory().CreateMqttClient();
        List<(string Topic, string Text)> heard = [];
        other.ApplicationMessageReceivedAsync += m =>
        {
            lock (heard)
                heard.Add((m.ApplicationMessage.Topic, m.ApplicationMessage.ConvertPayloadToString()));
            return Task.CompletedTask;
        };
        await other.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", _port).Build(), _limit);
        await other.SubscribeAsync("flight/received/radio1", cancellationToken: _limit);
        await other.SubscribeAsync("flight/landing", cancellationToken: _limit);
        await publisher.Send(0, 100);
        await Until(() => Any("flight/received/radio1", "$GPGGA,120139.00") && Any("flight/landing", ",ascent,"));
        await other.PublishStringAsync("flight/received/radio1", "forged", cancellationToken: _limit);
        await Task.Delay(300, _limit);
        Assert.False(Any("flight/received/radio1", "forged"));

        bool Any(string topic, string text)
        {
            lock (heard)
                return heard.Any(m => m.Topic == topic && m.Text.Contains(text, StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Where_nothing_is_shared_it_says_so()
    {
        UserErrorException none = Assert.Throws<UserErrorException>(() => Follow("none"));
        Assert.Contains("no flight is shared there (refused (nothing listens there))", none.Message,
            StringComparison.Ordinal);
        Assert.False(Directory.Exists(_temp["none"]));
    }

    [Theory]
    [InlineData("mqtt:radio.local/flight", "mqtt:radio.local:1883/flight")]
    [InlineData("mqtts:team@[::1]:9000/a/b-1", "mqtts:team@[::1]:9000/a/b-1")]
    public void Addresses_are_read(string typed, string meant) =>
        Assert.Equal(meant, SourceAddress.Parse(typed).ToString());

    [Theory]
    [InlineData("mqtt:host")]
    [InlineData("mqtt:host/")]
    [InlineData("mqtt:host/a/#")]
    [InlineData("mqtt:host/../x")]
    [InlineData("mqtt:/flight")]
    [InlineData("listen:70000/x")]
    [InlineData("listen:1883/+")]
    public void Addresses_that_cannot_be_meant_are_refused(string typed) =>
        Assert.Throws<UserErrorException>(() => ShareTarget.Parse(typed));

    [Fact]
    public void Sharing_keeps_to_this_computer_unless_told_otherwise()
    {
        Assert.Equal(IPAddress.Loopback, ShareTarget.Parse("").Listen);
        Assert.Equal(IPAddress.Loopback, ShareTarget.Parse("listen:9000/x").Listen);
        Assert.Equal(IPAddress.Any, ShareTarget.Parse("listen:0.0.0.0:9000/x").Listen);
    }

    private static int FreePort()
    {
        using TcpListener probe = new(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }

    private FollowSession Follow(string folder) => new((MqttAddress)SourceAddress.Parse("mqtt:" + Where), _temp[folder],
        null, TimeProvider.System, TimeSpan.FromMilliseconds(100));

    private async Task Followed(FollowSession session, string folder, string text)
    {
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(_limit);
        Task running = Task.Factory.StartNew(() => session.Run(stop.Token), _limit, TaskCreationOptions.LongRunning,
            TaskScheduler.Default);
        await Until(() => Read(folder).Contains(text, StringComparison.Ordinal));
        await stop.CancelAsync();
        await running;
    }

    private async Task Until(Func<bool> holds)
    {
        Stopwatch waited = Stopwatch.StartNew();
        while (!holds())
        {
            Assert.True(waited.Elapsed < TimeSpan.FromSeconds(90), "it never came");
            await Task.Delay(20, _limit);
        }
    }

    private string Read(string folder)
    {
        using FileStream file = new(_temp[folder + "/received.nmea"], FileMode.Open, FileAccess.Read,
            FileShare.ReadWrite | FileShare.Delete);
        using StreamReader text = new(file, Encoding.Latin1);
        return text.ReadToEnd();
    }

    /// <summary>A live session that is shared, with its tracker.</summary>
    private sealed class Publisher : IDisposable
    {
        private readonly TcpFeeder _server = new();
        private readonly CancellationTokenSource _stop = new();
        private readonly LiveSession _live;
        private readonly FlightShare _share;
        private readonly Task _running;
        private readonly CancellationToken _limit;
        private TcpClient? _visitor;

        public Publisher(string folder, string where, CancellationToken limit)
        {
            _limit = limit;
            FlightFolder flight = FlightFolder.Open(folder, FolderUse.Live);
            flight.KeepPlan(null, FlightPlan.Default);
            SourcePump pump = new(new SourceId("radio1"), SourceAddress.Parse(_server.Address), TimeProvider.System);
            _live = new LiveSession(FlightPlan.Default, flight, [pump], TimeProvider.System, null);
            _share = new FlightShare(ShareTarget.Parse(where), folder, _ => { });
            _running = Task.Factory.StartNew(() => _live.Run(_stop.Token), limit, TaskCreationOptions.LongRunning,
                TaskScheduler.Default);
        }

        public async Task Send(int from, int to)
        {
            _visitor ??= await _server.Visitor(_limit);
            await _visitor.GetStream().WriteAsync(Bytes.Of(string.Concat(Enumerable.Range(from, to - from).Select(i =>
                Recordings.ForeignLogTests.Line(FormattableString.Invariant($"GPGGA,12{i / 60:00}{i % 60:00}.00,")
                    + FormattableString.Invariant($"4815.{i * 3:00000},N,03030.{i * 5:00000},W,1,10,0.9,")
                    + FormattableString.Invariant($"{200 + i * 5:F1},M,50.0,M,,"))))), _limit);
        }

        public async Task Stop()
        {
            await _stop.CancelAsync();
            await _running;
        }

        public void Dispose()
        {
            _stop.Cancel();
            _running.Wait(TimeSpan.FromSeconds(3));
            _share.Dispose();
            _live.Dispose();
            _visitor?.Dispose();
            _server.Dispose();
            _stop.Dispose();
        }
    }
}
