using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Core;
using Groundstation.Core.Quantities;
using Groundstation.Io.Desk;

namespace Groundstation.Console.Feeds;

/// <summary>A replay as the console sees it. How much of it is still to come is told by nothing here.</summary>
/// <param name="desk">The replay.</param>
/// <param name="folder">The flight folder that is written at the end; null: none.</param>
internal sealed class ReplayFeed(TrainingDesk desk, string? folder) : ISnapshotFeed
{
    /// <summary>Rates that the keys step through, in times real time; null: as fast as it goes.</summary>
    private static readonly double?[] Rates = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, null];

    private readonly string[] _sources = [];

    /// <inheritdoc/>
    public Action? Changed { set => desk.Changed = value; }

    /// <inheritdoc/>
    public Snapshot? Newest => desk.Newest;

    /// <inheritdoc/>
    public FeedStatus Status
    {
        get
        {
            DeskStatus status = desk.Status;
            return new FeedStatus
            {
                IsReplay = true,
                Paused = status.Paused,
                Rate = status.Rate is { } rate
                    ? string.Create(CultureInfo.InvariantCulture, $"{rate:0.##}×") : "as fast as it goes",
                Loop = (status.LoopFrom, status.LoopTo) switch
                {
                    (null, _) => "",
                    ({ } from, null) => "loop from " + Clock(from),
                    ({ } from, { } to) => $"loop {Clock(from)} to {Clock(to)}",
                },
                Said = status.Said,
                Debrief = status.Debrief.IsEmpty ? _sources : (IReadOnlyList<string>)status.Debrief,
                Ended = status.Ended,
                Recording = folder ?? "",
                Sources = _sources,
            };
        }
    }

    /// <inheritdoc/>
    public void Post(OperatorAct act) => desk.Act(act);

    /// <inheritdoc/>
    public void TogglePause() => desk.TogglePause();

    /// <inheritdoc/>
    public void ChangeRate(int step)
    {
        double? now = desk.Status.Rate;
        int at = 0;
        while (at < Rates.Length - 1 && (now is null || Rates[at] < now)) at++;
        desk.SetRate(Rates[Math.Clamp(at + step, 0, Rates.Length - 1)]);
    }

    /// <inheritdoc/>
    public void StepSecond(int step) => desk.StepSecond(step);

    /// <inheritdoc/>
    public void StepFix() => desk.StepFix();

    /// <inheritdoc/>
    public void MarkLoop() => desk.MarkLoop();

    /// <inheritdoc/>
    public void AlarmsInSight(bool inSight) => desk.AlarmsInSight(inSight);

    /// <inheritdoc/>
    public void MakeDebrief() => desk.MakeDebrief();

    /// <inheritdoc/>
    public bool GoTo(string typed)
    {
        if (SeekTarget.Read(typed) is not { } target) return false;
        desk.Seek(target);
        return true;
    }

    /// <summary>An arrival time by the clock that the screens show.</summary>
    private string Clock(Instant arrival) =>
        Figures.Clock(desk.Newest is var s ? arrival + (s.Utc - s.Arrival) : arrival);
}
