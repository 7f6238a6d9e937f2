using Groundstation.Core;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sources;
using Groundstation.Io.Speech;

namespace Groundstation.Io.Sessions;

/// <summary>
/// A flight as it happens: what the sources give is put in one order, recorded, and then handed to the station.
/// The station runs on the thread that calls <see cref="Run"/>; everything else here may be used from any thread.
/// </summary>
public sealed partial class LiveSession : IDisposable
{
    private static readonly TimeSpan _longestStop = TimeSpan.FromSeconds(1);

    private readonly FlightFolder _folder;
    private readonly TimeProvider _time;
    private readonly IReadOnlyList<SourcePump> _pumps;
    private readonly Dictionary<SourceId, SourceLine> _sources;
    private readonly ArrivalQueue _queue = new();
    private readonly StationRunner _runner;
    private readonly List<string> _notes = [];
    private HostClock? _clock;
    private long _lastEventSecond;
    private int _live;
    private long _events;
    private volatile string _fault = "";
    private string _unreplaced = "";

    /// <summary>A session that has not begun.</summary>
    /// <param name="plan">The plan. When the flight goes on, the seed recorded at its beginning stays in force.</param>
    /// <param name="folder">Takes recording and logs; opened for <see cref="FolderUse.Live"/>. Disposed with the
    /// session.</param>
    /// <param name="pumps">The sources, each under a name of its own.</param>
    /// <param name="time">The host's clocks.</param>
    /// <param name="publishEvery">Shortest time between two snapshots; null: only one at the end.</param>
    public LiveSession(FlightPlan plan, FlightFolder folder, IReadOnlyList<SourcePump> pumps, TimeProvider time,
        TimeSpan? publishEvery)
    {
        _folder = folder;
        _time = time;
        _pumps = pumps;
        _sources = pumps.ToDictionary(pump => pump.Id, pump => new SourceLine(pump.Id));
        _live = pumps.Count;
        _disk = new DiskWatch(folder.Path, plan.Alarms.DiskLowMb);
        Plan = plan with { Seed = RecordedSeed(folder) ?? plan.Seed };
        _runner = new StationRunner(Plan, folder, time, publishEvery);
    }

    /// <summary>The plan in force.</summary>
    public FlightPlan Plan { get; }

    /// <summary>The newest snapshot.</summary>
    public Snapshot Newest => _runner.Newest;

    /// <summary>Events recorded in this session.</summary>
    public long Recorded => Volatile.Read(ref _events);

    /// <summary>Why nothing can be written at the moment; empty when all is well.</summary>
    public string Fault => _fault;

    /// <summary>True when every source has ended for good, as standard input does.</summary>
    public bool SourcesEnded => Volatile.Read(ref _live) == 0;

    /// <summary>Told each new snapshot, on the thread of <see cref="Run"/>; null: nobody.</summary>
    public Action? Published
    {
        get => _runner.Published;
        set => _runner.Published = value;
    }

    /// <summary>Told each change of a link, on the thread of <see cref="Run"/>; null: nobody.</summary>
    public Action<LinkStatus>? LinkChanged { get; init; }

    /// <summary>Seconds since the host started, sleep included; null: as the system tells.</summary>
    internal Func<double?>? UptimeS { get; init; }

    /// <summary>Something the operator does; it joins the events now.</summary>
    public void Act(OperatorAct act) => _queue.Act(act);

    /// <summary>
    /// Runs until stopped. A flight that was in the folder is first rebuilt from its recording. Call once.
    /// </summary>
    /// <param name="stop">Ends it in good order.</param>
    /// <param name="untilSourcesEnd">Also end when every source has ended for good.</param>
    public void Run(CancellationToken stop, bool untilSourcesEnd = false)
    {
        if (_folder.Continues)
            _notes.Add(_runner.GoOn(_folder));
        using Speaker? speaker = Plan.Speech.Program is null ? null
            : new Speaker(Plan.Speech, _time, text => Act(new OperatorAct("speech", text)));
        // From here on only: what was called before a stop is not read aloud again.
        _runner.Totals.Aloud = (callout, asked) =>
        {
            speaker?.Say(callout.Number, callout.Spoken, asked);
            if (speaker is null && asked)
                Act(new OperatorAct("speech", "the plan names no program that reads aloud ([speech] program)"));
        };
        _clock = new HostClock(_time, _folder.Continues ? _runner.Last : null, UptimeS);
        _queue.Clock = _clock;
        Handle(RecordedEvent.Opened(Stamp(), Plan.Seed));
        if (_folder.Repaired.Length > 0)
            Note("recording", _folder.Repaired);
        if (_clock.StartedBehindS > 0)
            Note("clock", FormattableString.Invariant(
                $"the host clock is {_clock.StartedBehindS:F0} s behind this flight's last stamp: stamps go on there"));

        using CancellationTokenSource syncing = new();
        Task syncer = Task.Run(() => Sync(syncing.Token), CancellationToken.None);
        using CancellationTokenRegistration closing = stop.Register(_queue.Close);
        Task[] pumping = [.. _pumps.Select(pump => Task.Run(() => pump.RunAsync(_queue, _queue.Closing)))];
        try
        {
            Loop(untilSourcesEnd, stop);
        }
        finally
        {
            _queue.Close();
            try
            {
                // A pump that does not end in time is left behind: a port that hangs must not hold up the end.
                Task.WaitAll(pumping, _longestStop);
            }
            catch (AggregateException e) when (e.InnerExceptions.All(inner => inner is OperationCanceledException))
            {
                // Stopped while it waited for room in the queue.
            }

            Close();
            syncing.Cancel();
            syncer.Wait(_longestStop);
        }
    }

    /// <summary>What came of it. After <see cref="Run"/>.</summary>
    public SessionOutcome Outcome() => new(_runner.Newest, _runner.Totals, _folder, _notes);

    /// <inheritdoc/>
    public void Dispose()
    {
        _queue.Dispose();
        _folder.Dispose();
    }

    private void Loop(bool untilSourcesEnd, CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            try
            {
                if (_queue.TryTake(out Incoming next, Wait(), stop))
                    Take(next);
            }
            catch (OperationCanceledException)
            {
                return;
            }

            OnTime();
            _runner.PublishIfDue();
            if (untilSourcesEnd && SourcesEnded && _queue.IsEmpty)
                return;
        }
    }

    private void Take(in Incoming next)
    {
        Instant at = Instant.Later(next.At, _runner.Last);
        FlushDue(at);
        if (next.Act is { } act)
        {
            Handle(RecordedEvent.Acted(Stamp(), act));
        }
        else if (next.Bytes is { } bytes)
        {
            SourceLine source = _sources[next.Source];
            ReadOnlySpan<byte> rest = bytes.AsSpan(0, next.Count);
            while (!rest.IsEmpty)
            {
                rest = rest[source.Take(rest, at, out ReadOnlyMemory<byte> piece)..];
                if (!piece.IsEmpty)
                    Handle(RecordedEvent.Received(source.Id, at, piece));
            }

            ArrivalQueue.Return(bytes);
        }
        else
        {
            if (next.State is LinkState.Lost or LinkState.Ended)
                Flush(_sources[next.Source], at);
            string why = next.Why ?? "";
            Handle(RecordedEvent.Linked(next.Source, at, next.State, why));
            LinkChanged?.Invoke(new LinkStatus(next.Source, next.State, why, at));
            if (next.State == LinkState.Ended)
                Interlocked.Decrement(ref _live);
        }
    }

    private void Flush(SourceLine source, Instant at)
    {
        if (source.TryFlush(out ReadOnlyMemory<byte> piece))
            Handle(RecordedEvent.Received(source.Id, at, piece));
    }

    /// <summary>
    /// The end in good order: what has come is worked through, then the recording says that it ends here.
    /// </summary>
    private void Close()
    {
        while (_queue.TryTake(out Incoming left))
            Take(left);
        Instant now = Stamp();
        foreach (SourceLine source in _sources.Values)
            Flush(source, now);
        Handle(RecordedEvent.OfTime(RecordedKind.Ended, now));
        _folder.Flush();
        _runner.Publish();
    }

    private void Handle(in RecordedEvent e)
    {
        _runner.Handle(e);
        if (e.Kind != RecordedKind.Tick)
            _lastEventSecond = SecondOf(e.At);
        Volatile.Write(ref _events, _events + 1);
    }

    /// <summary>A stamp for now, on the station's thread: not earlier than any event.</summary>
    private Instant Stamp() => Instant.Later(_clock!.Now, _runner.Last);

    private static ulong? RecordedSeed(FlightFolder folder)
    {
        if (!folder.Continues)
            return null;
        using RecordingReader reader = RecordingReader.Open(folder.RecordingPath);
        return reader.Seed;
    }
}
