using Groundstation.Core;
using Groundstation.Core.Quantities;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;

namespace Groundstation.Io.Desk;

/// <summary>What is asked of the desk: acts, pace, steps, jumps, the loop; and the flight folder at the end.</summary>
public sealed partial class TrainingDesk
{
    // A jump to an alarm ends so long before it that it is seen to come; a silence begins before its alarm.
    private static readonly TimeSpan _lead = TimeSpan.FromSeconds(10), _silenceLead = TimeSpan.FromSeconds(30);

    /// <summary>Something the trainee does; it joins the events at the replay's own time.</summary>
    public void Act(OperatorAct act) => Ask(_ =>
    {
        _timeline = _timeline.With(RecordedEvent.Acted(_position, act));
        PlayAloud(() => _run.MoveTo(_timeline, _position), onlyAsked: true);
        if (act.Verb == "speak" && _speaker is null)
            Set(_status with { Said = "to hear it, start with --speak" });
        _ahead.From(_run, _timeline);
        Publish();
    });

    /// <summary>The trainee has opened the screen with the alarms, or left it.</summary>
    public void AlarmsInSight(bool inSight) => Ask(_ => _seen.Turn(_position, inSight));

    /// <summary>Holds, or goes on.</summary>
    public void TogglePause() => Ask(_ => Set(_status with { Paused = !_status.Paused, Said = "" }));

    /// <summary>Another pace: times as fast as it was; null: as fast as it goes.</summary>
    public void SetRate(double? rate)
    {
        if (rate is not null && !(rate > 0 && double.IsFinite(rate.Value)))
            throw new ArgumentOutOfRangeException(nameof(rate), "a rate is above 0");
        Ask(_ => Set(_status with { Rate = rate, Said = "" }));
    }

    /// <summary>Holds, then goes one second on (+1) or back (−1).</summary>
    public void StepSecond(int step) => Ask(_ =>
    {
        Set(_status with { Paused = true, Said = "" });
        GoTo(_position + TimeSpan.FromSeconds(step));
    });

    /// <summary>Holds, then goes on until the next epoch is complete, believed or not.</summary>
    public void StepFix() => Ask(stop =>
    {
        Set(_status with { Paused = true, Said = "" });
        long fixes = _run.Fixes;
        // In a silence it must not run on to the end: a minute, and it says so.
        Instant latest = Earlier(_position + TimeSpan.FromMinutes(1), _timeline.End);
        while (_run.Fixes == fixes && _position < latest && !stop.IsCancellationRequested)
            MoveTo(Earlier(_run.NextMoment(_timeline) is var next && next > _position ? next : latest, latest));
        if (_run.Fixes == fixes)
            Set(_status with { Said = "HELD, no fix came within a minute" });
        Set(_status with { Ended = _position >= _timeline.End });
        Publish();
    });

    /// <summary>Marks the loop's begin, then its end, then lets it go.</summary>
    public void MarkLoop() => Ask(_ => Set((_status.LoopFrom, _status.LoopTo) switch
    {
        (null, _) => _status with { LoopFrom = _position, Said = "" },
        ({ } from, null) when _position - from >= TimeSpan.FromSeconds(1) =>
            _status with { LoopTo = _position, Said = "" },
        _ => _status with { LoopFrom = null, LoopTo = null, Said = "" },
    }));

    /// <summary>Goes to a moment, earlier or later. What was done after it is taken back.</summary>
    public void Seek(SeekTarget target) => Ask(stop =>
    {
        // Looking for it and going there take seconds on a slow machine, and what is asked meanwhile waits.
        Set(_status with { Said = "going to the moment …" });
        Instant? utc = UtcOf(target, stop);
        if ((utc ?? Find(target, stop)) is { } at)
        {
            // A jump out of the loop ends it.
            if (at < _status.LoopFrom || at > _status.LoopTo)
                Set(_status with { LoopFrom = null, LoopTo = null });
            Set(_status with { Jumps = _status.Jumps + 1 });
            Instant before = _position;
            GoTo(utc is null ? at : NearUtc(at));
            if (utc is not null)
                OnTo(at);
            if (_position > before)
                _passedOver.Add((before, _position));
            Set(_status with { Said = "" });
        }
        else if (!stop.IsCancellationRequested)
        {
            Set(_status with { Said = "no such moment in this recording" });
        }
    });

    /// <summary>
    /// Writes a flight folder as a run without a break up to where the desk stands would have written it. After
    /// <see cref="Run"/>.
    /// </summary>
    public void Write(FlightFolder folder)
    {
        StationRunner runner = new(Plan, folder, _time, null);
        foreach (RecordedEvent e in _timeline.Events)
        {
            if (e.At > _position)
                break;
            runner.Handle(e);
        }

        if (_run.At > runner.Last)
            runner.Handle(RecordedEvent.OfTime(RecordedKind.Ended, _run.At));
        folder.Flush();
    }

    /// <summary>What to talk about, a line each.</summary>
    private IReadOnlyList<string> DebriefHere(TrueLanding? truth)
    {
        Snapshot s = _run.Snapshot();
        return Debrief.Lines(Plan.Name, _run.Notes, _timeline.Acts, _status.Jumps, _passedOver, _seen, s.Utc,
            s.Units ?? Plan.Units, truth);
    }

    /// <summary>The debrief's text, lines ended by LF: whoever leaves may know. After <see cref="Run"/>.</summary>
    public string DebriefText() => string.Join('\n', DebriefHere(_truth ?? Heard())) + "\n";

    /// <summary>True when there is something to talk about: faults, or something the trainee did.</summary>
    public bool WasExercise => !_timeline.Acts.IsEmpty || !Faults.Faults.IsEmpty;

    /// <summary>
    /// Makes the debrief anew for the screen: see <see cref="DeskStatus.Debrief"/>. Where it came down is told only
    /// when the replay has ended: before that it would give the flight away.
    /// </summary>
    public void MakeDebrief() => Ask(_ => Set(_status with
    {
        Debrief = [.. DebriefHere(_position < _timeline.End ? null : _truth ?? Heard())],
    }));

    /// <summary>Where the recording itself, without faults, was heard to land; null before the end.</summary>
    private TrueLanding? Heard()
    {
        if (_position < _timeline.End)
            return null;
        Timeline clean = Timeline.Of(_timeline.Clean);
        DeskRun run = new(Plan, _terrain, clean);
        run.MoveTo(clean, clean.End);
        return run.Snapshot().Flight.Landed is { } at ? new(at.Position, at.Utc, "the recording's own landing") : null;
    }

    /// <summary>What came of it, where the desk stands. After <see cref="Run"/>.</summary>
    /// <param name="folder">The folder that was written; null: none.</param>
    public SessionOutcome Outcome(FlightFolder? folder) => new(_newest, _run.Totals, folder, _notes);

    private void GoTo(Instant at)
    {
        at = Instant.FromUnixMilliseconds(at.UnixMilliseconds);
        at = at < _timeline.Start ? _timeline.Start : Earlier(at, _timeline.End);
        _passedOver.RemoveAll(p => p.From >= at);
        _seen.BackTo(at);
        Timeline kept = at < _position ? _timeline.WithoutActsAfter(at) : _timeline;
        DeskRun? from = _ahead.Before(at);
        if (at < _position || from?.At > _run.At)
            _run = from?.Copy() ?? new DeskRun(Plan, _terrain, kept);
        bool changed = !ReferenceEquals(kept, _timeline);
        _timeline = kept;
        MoveTo(at);
        if (changed)
            _ahead.From(_run, _timeline);
        Set(_status with { Ended = _position >= _timeline.End });
        Publish();
    }

    /// <summary>The UTC that a target names; null when it names none, or no launch is found to count from.</summary>
    private Instant? UtcOf(SeekTarget target, CancellationToken stop)
    {
        if (target.Kind == SeekKind.Mission)
            return _ahead.Find(seen => seen.LaunchUtc, stop) + target.Time;
        if (target.Kind != SeekKind.TimeOfDay)
            return null;
        Instant utc = Instant.FromUtc(_newest.Utc.Date, target.Time);
        // The nearest one: a flight may run over midnight.
        double off = utc.SecondsSince(_newest.Utc);
        return utc.PlusSeconds(off > 43_200 ? -86_400 : off < -43_200 ? 86_400 : 0);
    }

    private Instant? Find(SeekTarget target, CancellationToken stop) => target.Kind switch
    {
        SeekKind.Start => _timeline.Start,
        SeekKind.By => _position + target.Time,
        SeekKind.Mission => null,
        _ => _ahead.Find(seen => Before(seen, target), stop),
    };

    /// <summary>
    /// A little before an alarm: the first of its kind, or the next that is raised from here on. Of several kinds the
    /// first one counts, so nothing is told before all up to it has been seen.
    /// </summary>
    private Instant? Before(LookAhead.Seen seen, SeekTarget target)
    {
        foreach (DeskMark mark in seen.Alarms)
        {
            TimeSpan lead = target.Alarms.Length > 1 ? _silenceLead : _lead;
            Instant at = mark.At - lead;
            if (target.Kind == SeekKind.NextAlarm ? at > _position : target.Alarms.Contains(mark.Alarm))
                return at;
        }

        return null;
    }

    /// <summary>
    /// Arrival time at which the station's clock shows a UTC, or a little before: how far the laptop's clock is off
    /// is as seen nearby, and differs from fix to fix by what the radio takes.
    /// </summary>
    private Instant NearUtc(Instant utc)
    {
        return utc + (_ahead.Before(utc)?.Lag ?? _newest.Arrival - _newest.Utc) - TimeSpan.FromMilliseconds(500);
    }

    /// <summary>On to the moment at which the station's clock shows a UTC.</summary>
    private void OnTo(Instant utc)
    {
        for (int i = 0; i < 5 && utc - _run.Snapshot().Utc is var left && left > TimeSpan.Zero; i++)
            MoveTo(_position + TimeSpan.FromMilliseconds(Math.Ceiling(left.TotalMilliseconds)));
        Publish();
    }
}
