using System.Globalization;
using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Quantities;
using Groundstation.Io.Faults;

namespace Groundstation.Io.Desk;

/// <summary>What an instructor does behind the trainee's back.</summary>
public sealed partial class TrainingDesk
{
    /// <summary>All faults put in so far, by file or live, as a file that repeats them.</summary>
    public FaultFile Faults => Volatile.Read(ref _timeline).Faults;

    /// <summary>
    /// Puts a fault in; one that begins by itself (<see cref="FaultBegin.Recording"/> at 0) begins now. Gives what
    /// was done, or why not, in one line, when it is done.
    /// </summary>
    public Task<string> Inject(Fault fault)
    {
        TaskCompletionSource<string> told = new(TaskCreationOptions.RunContinuationsAsynchronously);
        Ask(_ =>
        {
            if (fault is { Begin: FaultBegin.Recording, From: 0 })
                fault = fault with { From = SinceStart() };
            told.SetResult(Change(Faults with { Faults = Faults.Faults.Add(fault) }, fault)
                ?? $"{FaultFile.Word(fault.Kind)}: in force, {FaultKeys.Beginning(fault)}");
        });
        return told.Task;
    }

    /// <summary>Ends every fault that is at work, and takes back those still to come.</summary>
    public Task<string> EndFaults()
    {
        TaskCompletionSource<string> told = new(TaskCreationOptions.RunContinuationsAsynchronously);
        Ask(_ =>
        {
            FaultFile now = Faults;
            FaultTimes times = new(_timeline.Clean);
            Instant end = _timeline.Start.PlusSeconds(SinceStart());
            string said = Change(now with
            {
                Faults = [.. now.Faults.Select(f => (Fault: f, Timed: times.Of(f))).Where(f => f.Timed.From < end)
                    .Select(f => f.Timed.To <= end ? f.Fault : f.Fault with { ForS = end.SecondsSince(f.Timed.From) })],
            }, null) ?? "all faults ended";
            told.SetResult(said);
        });
        return told.Task;
    }

    /// <summary>How the exercise stands, in two lines.</summary>
    public string Standing()
    {
        (Snapshot s, DeskStatus status) = (Newest, Status);
        string mission = s.Flight.Launch is { } launch
            ? (s.Utc - launch.Utc).ToString(@"\T\+h\:mm\:ss", CultureInfo.InvariantCulture) : "before launch";
        string height = s.Flight.Newest?.Height is { } h
            ? ", last heard at " + Measure.Height(h.Metres).In(s.Units ?? s.Plan.Units) : "";
        string pace = status.Ended ? "ended" : status.Paused ? "held"
            : status.Rate is { } rate ? string.Create(CultureInfo.InvariantCulture, $"{rate:0.##} times")
            : "as fast as it goes";
        string open = string.Join(", ", s.Alarms.Where(a => a.Phase == AlarmPhase.Unacknowledged)
            .Select(a => a.Id));
        string phase = s.Flight.Phase.ToString().ToLowerInvariant();
        return $"{s.Utc.ToDateTime():HH:mm:ss}Z {mission}, {phase}{height}; replay {pace}\n"
            + $"alarms not acknowledged: {(open.Length > 0 ? open : "none")}";
    }

    // A millisecond on, so that all that the trainee has seen stays as it was.
    private double SinceStart() => (_position - _timeline.Start).TotalSeconds + 0.001;

    /// <summary>Puts other faults into force; says why not when that cannot be.</summary>
    /// <param name="faults">All faults.</param>
    /// <param name="added">The one of them that is new; null: some end now.</param>
    private string? Change(FaultFile faults, Fault? added)
    {
        bool past;
        try
        {
            past = added is not null && new FaultTimes(_timeline.Clean).Of(added).From <= _position;
            Volatile.Write(ref _timeline, _timeline.With(faults));
        }
        catch (UserErrorException e)
        {
            return "not put in: " + e.Message;
        }

        // A fault that began earlier makes another flight of it: the station comes here again through it. Otherwise
        // it stays as it is, and the trainee sees no pause that would tell him of a fault.
        if (past)
        {
            _ahead.Forget();
            _run = new DeskRun(Plan, _terrain, _timeline);
            _run.MoveTo(_timeline, _position);
        }

        _ahead.From(_run, _timeline);
        Publish();
        return null;
    }
}
