using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;

namespace Groundstation.Io.Sessions;

/// <summary>
/// Replays a recording through a station, from its beginning to its end, with nobody at the screen: at any pace the
/// station is called with the same events, so that all paces give the same rows.
/// </summary>
public sealed class ReplaySession : IDisposable
{
    private static readonly TimeSpan _longestNap = TimeSpan.FromHours(1);

    private readonly RecordingReader _reader;
    private readonly FlightFolder? _folder;
    private readonly TimeProvider _time;
    private readonly StationRunner _runner;
    private readonly double? _rate;

    /// <summary>A replay that has not begun.</summary>
    /// <param name="reader">The recording; disposed with the session.</param>
    /// <param name="plan">The plan. Its seed gives way to the recorded one, unless the plan file states its own.
    /// </param>
    /// <param name="folder">Takes a copy of the recording and the logs; null: nothing is written. Disposed with the
    /// session.</param>
    /// <param name="rate">Times as fast as it was, above 0; null: as fast as it goes.</param>
    /// <param name="time">For the pace.</param>
    public ReplaySession(RecordingReader reader, FlightPlan plan, FlightFolder? folder, double? rate, TimeProvider time)
    {
        (_reader, _folder, _rate, _time) = (reader, folder, rate, time);
        Plan = reader.Seed is { } recorded && !plan.Stated.Contains("flight.seed")
            ? plan with { Seed = recorded } : plan;
        _runner = new StationRunner(Plan, folder, time, null);
    }

    /// <summary>The plan in force.</summary>
    public FlightPlan Plan { get; }

    /// <summary>Replays to the end, or until stopped. Call once.</summary>
    /// <exception cref="UserErrorException">The recording can no longer be read.</exception>
    public void Run(CancellationToken stop)
    {
        Instant? begin = null;
        long mark = _time.GetTimestamp();
        while (!stop.IsCancellationRequested && _reader.Read(out RecordedEvent e))
        {
            if (begin is null && !_reader.IsOwn)
                _runner.Handle(RecordedEvent.Opened(e.At, Plan.Seed));
            begin ??= e.At;
            if (Waited(e.At - begin.Value, mark, stop))
                _runner.Handle(e);
        }

        bool whole = !stop.IsCancellationRequested;
        if (begin is not null && !_reader.IsOwn)
            _runner.Handle(RecordedEvent.OfTime(RecordedKind.Ended, _runner.Last));
        _folder?.Flush();
        // A folder of a replay that was stopped is left with its note, as after a kill.
        if (whole)
            _folder?.Finish();
        _runner.Publish();
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
    }

    /// <summary>Waits until so much of the recording's time has passed; false when stopped before.</summary>
    private bool Waited(TimeSpan into, long mark, CancellationToken stop)
    {
        while (_rate is { } times && into / times - _time.GetElapsedTime(mark) is var left && left > TimeSpan.Zero)
        {
            if (stop.WaitHandle.WaitOne(left < _longestNap ? left : _longestNap))
                return false;
        }

        return true;
    }
}
