using System.Collections.Immutable;
using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;

namespace Groundstation.Io.Desk;

/// <summary>
/// Runs ahead of the replay on a thread of its own and keeps copies of the station on the way, so that any moment is
/// only a short run away. What it has seen is told to nobody before the replay comes there, except where to go on
/// request.
/// </summary>
internal sealed class LookAhead : IDisposable
{
    // A copy takes half a megabyte, from the fall on 4 at most, most of it covariances of the wind; 900 epochs take 200 ms at
    // most. Three hours at one epoch a second keep 12 copies, and however long or dense a recording is, not many more: then a
    // jump takes longer.
    private const int LeastApart = 900, MostKept = 16, EventsAnEpoch = 3, Look = 200;
    private static readonly TimeSpan LongestApart = TimeSpan.FromMinutes(20);

    private readonly Lock _gate = new();
    private ImmutableList<DeskRun> _kept = [];
    private ImmutableArray<DeskMark> _marks = [];
    private Instant? _launchUtc;
    private Instant _reached;
    private bool _done;
    private CancellationTokenSource _stop = new();
    private Thread? _thread;

    /// <summary>The newest copy not later than a moment; null before there is one.</summary>
    public DeskRun? Before(Instant at)
    {
        lock (_gate)
            return _kept.FindLast(run => run.At <= at);
    }

    /// <summary>
    /// Waits until <paramref name="find"/> finds what it looks for in what has been seen, or all has been seen.
    /// </summary>
    public T? Find<T>(Func<Seen, T?> find, CancellationToken stop) where T : struct
    {
        while (true)
        {
            bool done;
            T? found;
            lock (_gate)
                (done, found) = (_done, find(new Seen(_marks, _launchUtc, _reached)));
            if (found is not null || done || stop.WaitHandle.WaitOne(TimeSpan.FromMilliseconds(5)))
                return found;
        }
    }

    /// <summary>
    /// Begins, or begins again: the timeline is another one after where a run stands. Copies up to there stay.
    /// </summary>
    public void From(DeskRun run, Timeline along)
    {
        Stop();
        lock (_gate)
        {
            _kept = _kept.RemoveAll(kept => kept.At > run.At);
            // What was seen before by a run that had come farther is seen by this one, too.
            _marks = run.AlarmsRaised;
            _launchUtc = run.Snapshot().Flight.Launch?.Utc;
            (_reached, _done) = (run.At, false);
            if (_kept.IsEmpty || run.Fixes - _kept[^1].Fixes >= LeastApart)
                _kept = _kept.Add(run.Copy().Packed());
        }

        DeskRun ahead = run.Copy();
        CancellationToken stop = _stop.Token;
        _thread = new Thread(() => Run(ahead, along, stop))
        { Name = "look ahead", IsBackground = true, Priority = ThreadPriority.BelowNormal };
        _thread.Start();
    }

    /// <summary>Drops all copies: the timeline is another one from its beginning.</summary>
    public void Forget()
    {
        Stop();
        lock (_gate)
            _kept = [];
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Stop();
        _stop.Dispose();
    }

    private void Stop()
    {
        _stop.Cancel();
        _thread?.Join();
        _stop.Dispose();
        _stop = new CancellationTokenSource();
    }

    private void Run(DeskRun ahead, Timeline along, CancellationToken stop)
    {
        long apart = Math.Max(LeastApart, along.Count / EventsAnEpoch / MostKept);
        TimeSpan longest = TimeSpan.FromTicks(Math.Max(LongestApart.Ticks, (along.End - along.Start).Ticks / MostKept));
        (long fixes, Instant last) = (ahead.Fixes, ahead.At);
        while (!stop.IsCancellationRequested && ahead.At < along.End)
        {
            long begin = ahead.Fixes;
            Instant until = ahead.At + TimeSpan.FromMinutes(10);
            ahead.MoveTo(along, until < along.End ? until : along.End,
                () => ahead.Fixes - begin < Look && !stop.IsCancellationRequested);
            // A gap through which the station skips: the next event lies beyond it.
            if (ahead.At < until && ahead.Fixes == begin)
                ahead.MoveTo(along, along.End, () => false);
            DeskRun? kept = null;
            if (ahead.Fixes - fixes >= apart || ahead.At - last >= longest)
            {
                (kept, fixes, last) = (ahead.Copy().Packed(), ahead.Fixes, ahead.At);
                GiveBack();
            }

            Instant? launch = ahead.Snapshot().Flight is { Launch: { } at, Phase: not Phase.Pad } ? at.Utc : null;
            lock (_gate)
            {
                if (stop.IsCancellationRequested)
                    return;
                if (kept is not null)
                    _kept = _kept.Add(kept);
                (_marks, _reached) = (ahead.AlarmsRaised, ahead.At);
                _launchUtc ??= launch;
            }
        }

        lock (_gate)
            _done |= !stop.IsCancellationRequested;
        if (!stop.IsCancellationRequested)
            GiveBack();
    }

    // The collector would not soon look at large arrays of its own accord: 75 MB in place of 50. About 20 ms a time.
    private static void GiveBack() => GC.Collect(2, GCCollectionMode.Aggressive);

    /// <summary>What has been seen so far.</summary>
    /// <param name="Alarms">Alarms raised, in order.</param>
    /// <param name="LaunchUtc">UTC of the launch; null when none was seen.</param>
    /// <param name="Reached">How far it has looked, arrival time.</param>
    public readonly record struct Seen(ImmutableArray<DeskMark> Alarms, Instant? LaunchUtc, Instant Reached);
}
