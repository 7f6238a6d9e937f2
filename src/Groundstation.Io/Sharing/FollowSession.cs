using System.Collections.Concurrent;
using System.Globalization;
using System.Text;
using Groundstation.Core;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;

namespace Groundstation.Io.Sharing;

/// <summary>
/// Follows a flight that another station shares: its folder becomes a copy of the other's recording, and the logs
/// follow from it as they do there, to the byte. What was missed is asked for. While nothing comes, a second station,
/// made from the copy, carries time on for the screen alone; nothing of it is written, so that the logs stay the
/// other's.
/// </summary>
public sealed partial class FollowSession : IDisposable
{
    private static readonly TimeSpan _longestStart = TimeSpan.FromSeconds(15), _longestStop = TimeSpan.FromSeconds(1);

    // A plan names a hundred wind files at most, and a few maps.
    private const int MostFiles = 200;

    // The other station records at least a tick a second.
    private static readonly TimeSpan _quiet = TimeSpan.FromSeconds(5), _askAgain = TimeSpan.FromSeconds(1);

    private static readonly SourceId _share = new("share");

    private readonly MqttAddress _address;
    private readonly TimeProvider _time;
    private readonly TimeSpan? _publishEvery;
    private readonly FlightFolder _folder;
    private readonly string _client = "follower-" + Guid.NewGuid().ToString("N")[..12];
    private readonly MqttLink _link;
    private readonly BlockingCollection<SharedBytes> _queue = new(256);
    private readonly CancellationTokenSource _stop = new();
    private readonly TaskCompletionSource<byte[]> _plan = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly ConcurrentDictionary<string, byte[]> _files = new(StringComparer.Ordinal);
    private readonly Task _linking;
    private readonly StationRunner _runner;
    private readonly OwnLines _lines = new();
    private readonly List<string> _notes = [];
    private readonly string _flight;
    private volatile string _state = "connecting";
    private StationRunner? _alone;
    private long _heard, _asked, _looked;
    private long _events;
    private bool _another;
    private volatile string _fault = "";

    /// <summary>Connects, and waits until the flight's plan and its beginning have come.</summary>
    /// <param name="address">The shared flight.</param>
    /// <param name="folder">The own flight folder; a flight followed before goes on in it.</param>
    /// <param name="planFile">A plan of one's own; null: the shared one.</param>
    /// <param name="time">The host's clocks.</param>
    /// <param name="publishEvery">Shortest time between two snapshots; null: only one at the end.</param>
    /// <exception cref="UserErrorException">No flight is shared there, or the folder cannot be used.</exception>
    public FollowSession(MqttAddress address, string folder, string? planFile, TimeProvider time,
        TimeSpan? publishEvery)
    {
        (_address, _time, _publishEvery) = (address, time, publishEvery);
        string recording = System.IO.Path.Combine(folder, FlightFolder.RecordingName);
        string? own = FlightIn(recording);
        _link = new MqttLink(address, _client, new BrokerTrust(address), address.Topic + "/recording",
            $"{address.Topic}/catch-up/{_client}", address.Topic + "/plan", address.Topic + "/file/+")
        {
            Heard = Take,
            State = why => _state = why,
        };
        _linking = _link.RunAsync(_stop.Token);
        try
        {
            // All that can fail comes first: a flight that is not there leaves no folder behind.
            string kept = System.IO.Path.Combine(folder, FlightFolder.PlanName);
            (FlightPlan plan, string? text) = Prepared(planFile, kept);
            SharedBytes first = own is null ? First() : default;
            _flight = own ?? first.Flight;
            _folder = FlightFolder.Open(folder, FolderUse.Copy);
            if (text is not null)
                plan = Keep(text, plan, kept);
            else if (planFile is not null)
                _folder.KeepPlan(planFile, plan);
            Plan = WithTerrainHere(plan, planFile) with { Seed = SharedBytes.SeedOf(_flight) ?? plan.Seed };
            _runner = new StationRunner(Plan, _folder, time, publishEvery);
            if (own is null)
                Copy(first);
            else
                _notes.Add(_runner.GoOn(_folder));
        }
        catch
        {
            Dispose();
            throw;
        }

        _heard = time.GetTimestamp();
    }

    /// <summary>The plan in force.</summary>
    public FlightPlan Plan { get; }

    /// <summary>The newest snapshot.</summary>
    public Snapshot Newest => (Volatile.Read(ref _alone) ?? _runner).Newest;

    /// <summary>Events taken over in this session.</summary>
    public long Recorded => Volatile.Read(ref _events);

    /// <summary>Why nothing can be written, or nothing of this flight comes any more; empty when all is well.</summary>
    public string Fault => _fault;

    /// <summary>Follows until stopped.</summary>
    public void Run(CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            try
            {
                if (_queue.TryTake(out SharedBytes next, 100, stop))
                    Take(next);
            }
            catch (OperationCanceledException)
            {
                break;
            }

            OnTime();
            (_alone ?? _runner).PublishIfDue();
        }

        _folder.Flush();
        _runner.Publish();
    }

    /// <summary>What came of it. After <see cref="Run"/>.</summary>
    public SessionOutcome Outcome() => new(_runner.Newest, _runner.Totals, _folder, _notes);

    /// <inheritdoc/>
    public void Dispose()
    {
        _stop.Cancel();
        _linking.ContinueWith(static _ => { }, TaskScheduler.Default).Wait(_longestStop);
        _link.Dispose();
        // Null when it could not begin.
        _folder?.Dispose();
    }

    private void Take(string topic, byte[] message)
    {
        if (topic == _address.Topic + "/plan")
        {
            _plan.TrySetResult(message);
            return;
        }

        if (topic.StartsWith(_address.Topic + "/file/", StringComparison.Ordinal))
        {
            if (_files.Count < MostFiles && SharedFiles.Read(message) is { } file)
                _files[file.Name] = file.Content;
            return;
        }

        if (SharedBytes.Read(message) is not { } bytes)
            return;
        try
        {
            _queue.Add(bytes, _stop.Token);
        }
        catch (OperationCanceledException)
        {
            // At the end nobody takes it.
        }
    }

    private void Take(in SharedBytes next)
    {
        if (next.Flight != _flight)
        {
            _another = true;
            _fault = "another flight is shared there now; follow it in another folder";
            return;
        }

        long have = _folder.RecordingLength;
        if (next.Offset > have)
        {
            Ask(have);
            return;
        }

        _another = false;
        _heard = _time.GetTimestamp();
        Volatile.Write(ref _alone, null);
        long known = have - next.Offset;
        if (known < next.Lines.Length)
            Copy(next with { Lines = next.Lines[(int)known..] });
    }

    private void Copy(in SharedBytes lines)
    {
        _folder.RecordCopy(lines.Lines.Span);
        ReadOnlySpan<byte> rest = lines.Lines.Span;
        while (!rest.IsEmpty)
        {
            int end = rest.IndexOf((byte)'\n');
            _lines.Take(rest[..end].TrimEnd((byte)'\r'), e =>
            {
                _runner.Apply(e.At < _runner.Last ? e with { At = _runner.Last } : e);
                Volatile.Write(ref _events, _events + 1);
            });
            rest = rest[(end + 1)..];
        }
    }

    private void Ask(long from)
    {
        if (_asked != 0 && _time.GetElapsedTime(_asked) < _askAgain)
            return;
        _asked = _time.GetTimestamp();
        byte[] want = Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{_client} {from}"));
        if (_link.IsUp)
            _ = _link.PublishAsync(_address.Topic + "/want", want, false, _stop.Token);
    }
}
