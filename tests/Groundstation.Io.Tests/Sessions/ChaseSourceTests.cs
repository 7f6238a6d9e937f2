using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Groundstation.Core.Plan;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;
using Groundstation.Io.Sources;
using Xunit;

namespace Groundstation.Io.Tests.Sessions;

/// <summary>
/// The chase car's own receiver over a network, as <c>--chase tcp:…</c> and <c>--chase udp:…</c> open it.
/// </summary>
public sealed class ChaseSourceTests : IDisposable
{
    private readonly TempFolder _temp = new();
    private readonly DateTime _start = DateTime.UtcNow;
    private readonly CancellationToken _limit = TestContext.Current.CancellationToken;

    public void Dispose() => _temp.Dispose();

    [Fact]
    public async Task Over_tcp_the_car_is_known_and_known_again_after_the_link_was_lost()
    {
        using TcpFeeder server = new();
        await WithChase(server.Address, async live =>
        {
            using (TcpClient first = await server.Visitor(_limit))
            {
                await Drive(piece => first.Client.Send(piece), () => live.Newest.ChaseNow is { Typed: false });
                Assert.Equal(47.1, live.Newest.Chase!.Value.Position.LatitudeDeg, 0.01);
            }

            await Drive(_ => 0, () => live.Newest.Links.Any(l => l is { Source.Name: "chase", State: LinkState.Lost }));
            Core.Quantities.Instant before = live.Newest.Chase!.Value.Utc;
            using TcpClient again = await server.Visitor(_limit);
            await Drive(piece => again.Client.Send(piece), () => live.Newest.Chase!.Value.Utc > before);
        });
        AssertReplaysAlike();
    }

    [Fact]
    public async Task Over_udp_the_car_is_known()
    {
        using UdpClient car = new(0);
        int port = FreePort();
        await WithChase($"udp:{port}", live => Drive(
            piece => car.Send(piece, new IPEndPoint(IPAddress.Loopback, port)), () => live.Newest.Chase is not null));
        AssertReplaysAlike();
    }

    private async Task WithChase(string address, Func<LiveSession, Task> meanwhile)
    {
        SourcePump pump = new(SourceId.Chase, SourceAddress.Parse(address), TimeProvider.System);
        using FlightFolder folder = FlightFolder.Open(_temp["live"], FolderUse.Live);
        using LiveSession live = new(FlightPlan.Default, folder, [pump], TimeProvider.System,
            TimeSpan.FromMilliseconds(50));
        using CancellationTokenSource stop = new();
        Task session = Task.Factory.StartNew(() => live.Run(stop.Token), _limit, TaskCreationOptions.LongRunning,
            TaskScheduler.Default);
        await meanwhile(live);
        await stop.CancelAsync();
        await session.WaitAsync(TimeSpan.FromSeconds(5), _limit);
    }

    /// <summary>A car at 5 m/s to the north sends where it is, four times a second, until something is so.</summary>
    private async Task Drive(Func<byte[], int> send, Func<bool> done)
    {
        for (int i = 0; !done(); i++)
        {
            Assert.True(i < 120, "it did not come about within 30 s");
            DateTime now = DateTime.UtcNow;
            string place = string.Create(CultureInfo.InvariantCulture,
                $"47{6 + (now - _start).TotalSeconds * 5 / 1852:00.00000},N,00230.00000,E");
            string rmc = string.Create(CultureInfo.InvariantCulture,
                $"GPRMC,{now:HHmmss.ff},A,{place},9.7,0.0,{now:ddMMyy},,,A");
            send(Encoding.ASCII.GetBytes(SentenceWriter.Seal(rmc) + "\r\n"));
            await Task.Delay(250, _limit);
        }
    }

    private void AssertReplaysAlike()
    {
        using (FlightFolder again = FlightFolder.Open(_temp["again"], FolderUse.Replay))
        using (ReplaySession replay = new(RecordingReader.Open(_temp["live/received.nmea"]), FlightPlan.Default, again,
            null, TimeProvider.System))
            replay.Run(_limit);
        Assert.Equal(File.ReadAllText(_temp["live/fixes.csv"]), File.ReadAllText(_temp["again/fixes.csv"]));
        Assert.Contains(",chase,", File.ReadAllText(_temp["again/fixes.csv"]), StringComparison.Ordinal);
    }

    private static int FreePort()
    {
        using UdpClient any = new(0);
        return ((IPEndPoint)any.Client.LocalEndPoint!).Port;
    }
}
