using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Groundstation.Core.Plan;
using Groundstation.Core.Receive;
using Groundstation.Io.Folders;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Sessions;
using Groundstation.Io.Sharing;
using Groundstation.Io.Sources;
using Xunit;

namespace Groundstation.Io.Tests.Sharing;

/// <summary>
/// Flights that are shared and followed. One at a time: password and certificates come from the environment.
/// </summary>
[Collection("environment of the sharing")]
public abstract class SharedFlights : IDisposable
{
    private static readonly string[] _files =
        ["received.nmea", "fixes.csv", "winds.csv", "landing.csv", "alarms.csv", "callouts.csv"];

    private protected TempFolder Temp { get; } = new();

    private protected CancellationToken Limit { get; } = TestContext.Current.CancellationToken;

    private protected int Port { get; } = FreePort();

    /// <inheritdoc/>
    public virtual void Dispose()
    {
        GC.SuppressFinalize(this);
        Temp.Dispose();
    }

    private protected FollowSession Follow(string folder, string? where = null, string? planFile = null) => new(
        (MqttAddress)SourceAddress.Parse(where ?? $"mqtt:127.0.0.1:{Port}/flight"), Temp[folder], planFile,
        TimeProvider.System, TimeSpan.FromMilliseconds(100));

    /// <summary>Follows until a text has come.</summary>
    private protected async Task Followed(FollowSession session, string folder, string text)
    {
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(Limit);
        Task running = Task.Factory.StartNew(() => session.Run(stop.Token), Limit, TaskCreationOptions.LongRunning,
            TaskScheduler.Default);
        await Until(() => Read(folder).Contains(text, StringComparison.Ordinal));
        await stop.CancelAsync();
        await running;
    }

    private protected async Task Until(Func<bool> holds, Func<string>? what = null)
    {
        Stopwatch waited = Stopwatch.StartNew();
        while (!holds())
        {
            Assert.True(waited.Elapsed < TimeSpan.FromSeconds(90), "it never came" + what?.Invoke());
            await Task.Delay(20, Limit);
        }
    }

    private protected string Read(string folder)
    {
        using FileStream file = new(Temp[folder + "/received.nmea"], FileMode.Open, FileAccess.Read,
            FileShare.ReadWrite | FileShare.Delete);
        using StreamReader text = new(file, Encoding.Latin1);
        return text.ReadToEnd();
    }

    /// <summary>Recording and logs are the same to the byte.</summary>
    private protected void AssertSame(string a, string b)
    {
        foreach (string file in _files)
            Assert.Equal(File.ReadAllText(Temp[$"{a}/{file}"]), File.ReadAllText(Temp[$"{b}/{file}"]));
    }

    private static int FreePort()
    {
        using TcpListener probe = new(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }
}

/// <summary>A live session that is shared, with its tracker.</summary>
internal sealed class Publisher : IDisposable
{
    private readonly TcpFeeder _server = new();
    private readonly CancellationTokenSource _stop = new();
    private readonly LiveSession _live;
    private readonly FlightShare _share;
    private readonly Task _running;
    private readonly CancellationToken _limit;
    private readonly List<string> _said = [];
    private TcpClient? _visitor;

    /// <summary>What became of the sharing.</summary>
    public IReadOnlyList<string> Said
    {
        get
        {
            lock (_said)
                return [.. _said];
        }
    }

    public Publisher(string folder, string where, CancellationToken limit, string? planFile = null)
    {
        _limit = limit;
        FlightFolder flight = FlightFolder.Open(folder, FolderUse.Live);
        FlightPlan plan = planFile is null ? FlightPlan.Default : PlanReader.Read(planFile);
        flight.KeepPlan(planFile, plan);
        SourcePump pump = new(new SourceId("radio1"), SourceAddress.Parse(_server.Address), TimeProvider.System);
        _live = new LiveSession(plan, flight, [pump], TimeProvider.System, null);
        _share = new FlightShare(ShareTarget.Parse(where), folder, said =>
        {
            lock (_said)
                _said.Add(said);
        });
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
