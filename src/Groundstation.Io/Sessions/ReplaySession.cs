using System.Collections.Concurrent;
using Groundstation.Core;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;

namespace Groundstation.Io.Sessions;

/// <summary>
/// Replays a recording through a station at any pace: the pace decides when the station is called, never with what, so
/// all paces give the same rows. The station runs on the thread that calls <see cref="Run"/>; everything else here may
/// be used from any thread.
/// </summary>
public sealed class ReplaySession : IDisposable
{
    private static readonly TimeSpan _longestNap = TimeSpan.FromMilliseconds(50);

    private readonly RecordingReader _reader;
    private readonly FlightFolder? _folder;
    private readonly TimeProvider _time;
    private readonly StationRunner _runner;
    private readonly ulong _seed;
    private readonly ConcurrentQueue<OperatorAct> _acts = new();
    private readonly ManualResetEventSlim _wake = new();
    private Pace _pace;
    private volatile bool _paused;
    private volatile bool _ended;
    private long _position;

    /// <summary>A replay that has not begun.</summary>
    /// <param name="reader">The recording; disposed with the session.</param>
    /// <param name="plan">The plan. Its seed gives way to the recorded one, unless the plan file states its own.
    /// </param>
    /// <param name="folder">Takes a copy of the recording and the logs; null: nothing is written. Disposed with the
    /// session.</param>
    /// <param name="rate">Times as fast as it was, above 0; null: as fast as it goes.</param>
    /// <param name="time">For the pace.</param>
    /// <param name="publishEvery">Shortest time between two snapshots; null: only one at the end.</param>
    public ReplaySession(RecordingReader reader, FlightPlan plan, FlightFolder? folder, double? rate, TimeProvider time,
        TimeSpan? publishEvery)
    {
        _reader = reader;
        _folder = folder;
        _time = time;
        _pace = new Pace(rate);
        _seed = reader.Seed is { } recorded && !plan.Stated.Contains("flight.seed") ? recorded : plan.Seed;
        Plan = plan with { Seed = _seed };
        _runner = new StationRunner(Plan, folder, time, publishEvery);
    }

    /// <summary>The plan in force.</summary>
    public FlightPlan Plan { get; }

    /// <summary>The newest snapshot.</summary>
    public Snapshot Newest => _runner.Newest;

    /// <summary>Times as fast as it was; null: as fast as it goes. May change while it runs.</summary>
    public double? Rate
    {
        get => Volatile.Read(ref _pace).Rate;
        set
        {
            if (value is not null && !(value > 0 && double.IsFinite(value.Value)))
                throw new ArgumentOutOfRangeException(nameof(value), "a rate is above 0");
            Volatile.Write(ref _pace, new Pace(value));
            _wake.Set();
        }
    }

    /// <summary>Stands still.</summary>
    public bool Paused
    {
        get => _paused;
        set
        {
            _paused = value;
            _wake.Set();
        }
    }

    /// <summary>True when the last event has been worked through.</summary>
    public bool Ended => _ended;

    /// <summary>How much of the recording is behind, 0 to 1.</summary>
    public double Progress => _ended ? 1 : Math.Clamp(Volatile.Read(ref _position) / (double)_reader.Length, 0, 1);

    /// <summary>Something the operator does while it runs; it joins the events at the replay's own time.</summary>
    public void Act(OperatorAct act)
    {
        _acts.Enqueue(act);
        _wake.Set();
    }

    /// <summary>Replays to the end, or until stopped. Call once.</summary>
    /// <exception cref="UserErrorException">The recording can no longer be read.</exception>
    public void Run(CancellationToken stop)
    {
        using CancellationTokenRegistration waking = stop.Register(_wake.Set);
        bool begun = false;
        Instant position = default;
        long mark = _time.GetTimestamp();
        while (!stop.IsCancellationRequested && _reader.Read(out RecordedEvent e))
        {
            Volatile.Write(ref _position, _reader.Position);
            if (!begun)
            {
                begun = true;
                position = e.At;
                mark = _time.GetTimestamp();
                if (!_reader.IsOwn)
                    _runner.Handle(RecordedEvent.Opened(e.At, _seed));
            }

            WaitFor(e.At, ref position, ref mark, stop);
            if (stop.IsCancellationRequested)
                break;
            // An act may have carried the station past this event by less than a nap.
            _runner.Handle(e.At < _runner.Last ? e with { At = _runner.Last } : e);
            _runner.PublishIfDue();
        }

        _ended = !stop.IsCancellationRequested;
        if (begun && !_reader.IsOwn)
            _runner.Handle(RecordedEvent.OfTime(RecordedKind.Ended, _runner.Last));
        _folder?.Flush();
        _runner.Publish();
    }

    /// <summary>
    /// After the end, for a screen that stays: takes what the operator does. Returns when stopped.
    /// </summary>
    public void Linger(CancellationToken stop)
    {
        using CancellationTokenRegistration waking = stop.Register(_wake.Set);
        while (!stop.IsCancellationRequested)
        {
            _wake.Reset();
            TakeActs(_runner.Last);
            if (_runner.PublishDue() is { } due)
            {
                Nap(due);
                _runner.PublishIfDue();
            }
            else
            {
                Nap(TimeSpan.FromSeconds(1));
            }
        }

        _folder?.Flush();
    }

    /// <summary>What came of it. After <see cref="Run"/>.</summary>
    public SessionOutcome Outcome() => new(_runner.Newest, _runner.Totals, _folder, NotesOn(_reader));

    /// <summary>What is to be said of a recording that has been read to its end.</summary>
    internal static List<string> NotesOn(RecordingReader reader)
    {
        List<string> notes = [$"{reader.Path}: {reader.TimeBasis}"];
        if (reader.Comments > 0)
            notes.Add($"{reader.Path}: {reader.Comments} comment lines passed over");
        if (reader.Damaged > 0)
            notes.Add($"{reader.Path}: {reader.Damaged} damaged lines of the station's own");
        if (reader.TornEnd)
            notes.Add($"{reader.Path}: its last line is torn");
        return notes;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _reader.Dispose();
        _folder?.Dispose();
        _wake.Dispose();
    }

    /// <summary>Lets replay time come to an event, with ticks on the way so that a silence is seen to last.</summary>
    private void WaitFor(Instant at, ref Instant position, ref long mark, CancellationToken stop)
    {
        // Over a longer gap the station skips; ticking through it would give other rows than a faster replay.
        bool ticking = at - _runner.Last <= Station.LongestTicking;
        while (!stop.IsCancellationRequested)
        {
            _wake.Reset();
            long now = _time.GetTimestamp();
            TimeSpan passed = _time.GetElapsedTime(mark, now);
            mark = now;
            double? rate = Rate;
            if (!_paused)
                position = rate is { } times ? position + passed * times : Instant.Later(position, at);
            TakeActs(position < at ? position : at);
            if (position >= at && !_paused)
                return;
            if (ticking)
                _runner.TickTo(Instant.Later(_runner.Last, position < at ? position : at).ToWholeSecond());
            _runner.PublishIfDue();
            TimeSpan nap = _paused || rate is null ? _longestNap : (at - position) / rate.Value;
            Nap(nap < _longestNap ? nap : _longestNap);
        }
    }

    private void TakeActs(Instant at)
    {
        while (_acts.TryDequeue(out OperatorAct? act))
        {
            Instant ms = Instant.FromUnixMilliseconds(at.UnixMilliseconds);
            _runner.Handle(RecordedEvent.Acted(Instant.Later(ms, _runner.Last), act));
        }
    }

    private void Nap(TimeSpan time)
    {
        // Below a millisecond a wait is a yield; a replay at 10 000 times its pace has many of them.
        _wake.Wait(time < TimeSpan.FromMilliseconds(1) ? TimeSpan.FromMilliseconds(1) : time);
    }

    private sealed record Pace(double? Rate);
}
