using System.Collections.Concurrent;
using Groundstation.Core;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.Faults;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;
using Groundstation.Io.Terrain;

namespace Groundstation.Io.Desk;

/// <summary>
/// A replay to practise with: it can be held, stepped, looped and moved to any moment. Wherever it stands, the
/// station is the very one that a run without a break would have brought there, with all that was done before that
/// moment; what was done after it is taken back. The station runs on the thread that calls <see cref="Run"/>;
/// everything else may be used from any thread.
/// </summary>
public sealed partial class TrainingDesk : IDisposable
{
    private static readonly TimeSpan _longestNap = TimeSpan.FromMilliseconds(50);

    private readonly TimeProvider _time;
    private readonly TimeSpan _publishEvery;
    private readonly Func<GeoPoint, double?>? _terrain;
    private readonly IReadOnlyList<string> _notes;
    private readonly ConcurrentQueue<Action<CancellationToken>> _asked = new();
    private readonly ManualResetEventSlim _wake = new();
    private readonly LookAhead _ahead = new();
    private Timeline _timeline;
    private DeskRun _run;
    private readonly List<(Instant From, Instant To)> _passedOver = [];
    private readonly AlarmsSeen _seen = new();
    private TrueLanding? _truth;
    private Instant _position;
    private long _published;
    private Snapshot _newest;
    private DeskStatus _status;

    /// <summary>A replay that stands at its beginning.</summary>
    /// <param name="reader">The recording; read whole and disposed.</param>
    /// <param name="plan">The plan. Its seed gives way to the recorded one, unless the plan file states its
    /// own.</param>
    /// <param name="rate">Times as fast as it was, above 0; null: as fast as it goes.</param>
    /// <param name="time">For the pace.</param>
    /// <param name="publishEvery">Shortest time between two snapshots.</param>
    /// <param name="withoutActs">Leaves out what the operator of that day did.</param>
    /// <param name="faults">Faults put into the recording; null: none.</param>
    /// <exception cref="UserErrorException">The recording cannot be read, or has no moment at which a fault begins.
    /// </exception>
    public TrainingDesk(RecordingReader reader, FlightPlan plan, double? rate, TimeProvider time, TimeSpan publishEvery,
        bool withoutActs = false, FaultFile? faults = null)
    {
        (_time, _publishEvery) = (time, publishEvery);
        Plan = plan with { Seed = reader.Seed is { } s && !plan.Stated.Contains("flight.seed") ? s : plan.Seed };
        using (reader)
        {
            _timeline = Timeline.Load(reader, Plan.Seed, withoutActs);
            _notes = ReplaySession.NotesOn(reader);
            _truth = TrueLanding.Beside(reader.Path);
        }

        if (faults is not null)
            _timeline = _timeline.With(faults);

        if (Plan.TerrainFolder is { } tiles)
        {
            HgtTerrain terrain = HgtTerrain.Open(tiles);
            // Copies of the station run on two threads, and the tiles read last are kept.
            _terrain = place =>
            {
                lock (terrain)
                    return terrain.HeightAt(place)?.Metres;
            };
        }

        _run = new DeskRun(Plan, _terrain, _timeline);
        _position = _timeline.Start;
        _status = new DeskStatus { Rate = rate };
        _newest = _run.Snapshot();
    }

    /// <summary>The plan in force.</summary>
    public FlightPlan Plan { get; }

    /// <summary>The newest snapshot.</summary>
    public Snapshot Newest => Volatile.Read(ref _newest);

    /// <summary>How it stands.</summary>
    public DeskStatus Status => Volatile.Read(ref _status);

    /// <summary>Told each new snapshot and each new status, on the thread of <see cref="Run"/>; null: nobody.</summary>
    public Action? Changed { get; set; }

    /// <summary>Runs until stopped; at the end of the recording it stands and still takes what is asked.</summary>
    public void Run(CancellationToken stop)
    {
        using CancellationTokenRegistration waking = stop.Register(_wake.Set);
        _ahead.From(_run, _timeline);
        long mark = _time.GetTimestamp();
        TimeSpan owed = TimeSpan.Zero;
        while (!stop.IsCancellationRequested)
        {
            _wake.Reset();
            long now = _time.GetTimestamp();
            TimeSpan passed = _time.GetElapsedTime(mark, now);
            mark = now;
            while (_asked.TryDequeue(out Action<CancellationToken>? ask))
            {
                ask(stop);
                owed = TimeSpan.Zero;
            }

            if (!_status.Paused && !_status.Ended)
                Advance(passed, ref owed);
            PublishIfDue();
            if (_status.Paused || _status.Ended || _status.Rate is not null)
                _wake.Wait(_longestNap, CancellationToken.None);
        }

        Publish();
    }

    /// <summary>As fast as it goes to the end, without a screen, or until stopped.</summary>
    public void RunToEnd(CancellationToken stop)
    {
        _run.MoveTo(_timeline, _timeline.End, () => !stop.IsCancellationRequested);
        _position = _run.At;
        Publish();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _speaker?.Dispose();
        _ahead.Dispose();
        _wake.Dispose();
    }

    private void Advance(TimeSpan passed, ref TimeSpan owed)
    {
        if (_status.Rate is { } times)
        {
            // Whole milliseconds, as stamps are; the rest is owed to the next time.
            owed += passed * times;
            TimeSpan whole = TimeSpan.FromMilliseconds(Math.Floor(owed.TotalMilliseconds));
            owed -= whole;
            PlayAloud(() => MoveTo(_position + whole), onlyAsked: times > FastestAloud);
        }
        else
        {
            long began = _time.GetTimestamp();
            _run.MoveTo(_timeline, Earlier(_timeline.End, _status.LoopTo),
                () => _time.GetElapsedTime(began) < _longestNap);
            _position = _run.At;
        }

        if (_status.LoopTo is { } to && _position >= to)
            GoTo(_status.LoopFrom!.Value);
        else if (_position >= _timeline.End)
            ReachEnd();
    }

    private void ReachEnd()
    {
        if (_status.LoopFrom is { } from && from < _timeline.End)
            GoTo(from);
        else
            Set(_status with { Ended = true });
    }

    private void MoveTo(Instant at)
    {
        _position = Earlier(at, _timeline.End);
        _run.MoveTo(_timeline, _position);
    }

    private void PublishIfDue()
    {
        if (_run.At != _newest.Arrival && _time.GetElapsedTime(_published) >= _publishEvery)
            Publish();
    }

    private void Publish()
    {
        Volatile.Write(ref _newest, _run.Snapshot());
        _published = _time.GetTimestamp();
        Changed?.Invoke();
    }

    private void Set(DeskStatus status)
    {
        Volatile.Write(ref _status, status);
        Changed?.Invoke();
    }

    private void Ask(Action<CancellationToken> what)
    {
        _asked.Enqueue(what);
        _wake.Set();
    }

    private static Instant Earlier(Instant a, Instant? b) => b is { } other && other < a ? other : a;
}
