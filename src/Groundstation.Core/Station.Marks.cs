using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core;

/// <summary>
/// What the operator told that no stage takes: marks and the screens' units. They are in the recording, so that a replay
/// shows them; the phase follows from the fixes alone.
/// </summary>
public sealed partial class Station
{
    private OperatorMarks _marks;
    private DisplayUnits? _units;
    private double? _groundToldM;

    private bool Mark(OperatorMarks marks)
    {
        _marks = marks;
        return true;
    }

    private bool MarkLaunch()
    {
        Mark(_marks with { Launch = _clock.Utc });
        // The estimate of a tracker silent on the pad waited for this.
        if (_landing is not null && UnheardLaunch is not null) Estimate(_clock.Utc);
        return true;
    }

    /// <summary>
    /// The launch as the operator marked it, while the fixes tell nothing of it: none was ever believed, or the tracker
    /// fell silent on the pad. One that was heard to stand there for more than a minute after the mark was not launched at
    /// the mark; up to that a launch may take to be recognised.
    /// </summary>
    private Instant? UnheardLaunch => _marks.Launch is not { } mark ? null
        : _flight.Newest is not { } newest ? mark
        : _clock.Silent && _flight.Phase == Phase.Pad && newest.Utc.SecondsSince(mark) < 60
            ? Instant.Later(mark, newest.Utc) : null;

    private bool ChooseUnits(string word)
    {
        if (word is not ("metric" or "customary")) return false;
        _units = word == "metric" ? DisplayUnits.Metric : DisplayUnits.Customary;
        return true;
    }

    private GroundOrigin GroundFrom(LandingEstimate? landing)
    {
        if (_groundToldM is not null) return GroundOrigin.Operator;
        if (landing is { } l && _terrain?.Invoke(l.Position) is not null) return GroundOrigin.Terrain;
        if (_plan.LandingGround is not null) return GroundOrigin.Plan;
        return PadPosition is null ? GroundOrigin.Unknown : GroundOrigin.Launch;
    }

    private Saying InWords(OperatorAct act) => act.Verb switch
    {
        "note" => "Note: " + act.Argument,
        "mark-launch" => "Operator marks the launch" + (UnheardLaunch is null ? StillPhase(Phase.Pad)
            : "; the tracker is not heard: from here on by plan and model"),
        "mark-burst" => "Operator marks the burst" + StillPhase(Phase.Ascent),
        "acknowledge" => "Operator acknowledges " + act.Argument,
        "shelve" => "Operator shelves " + act.Argument,
        "unshelve" => "Operator takes back from the shelf: " + act.Argument,
        "read-back" => "Read-back of callout " + act.Argument,
        "chase-position" => "Operator puts the chase car at " + act.Argument,
        "ground-height" when Number(act.Argument, out double metres) =>
            (Saying)$"Operator tells the ground's height: {Measure.Height(metres):0.##}",
        "speak" => $"Operator has callout {act.Argument} read aloud",
        "full-callout" => "Operator asks for a callout in full",
        "search-sheet" => "Operator writes the search sheet",
        "confirm" => $"Checklist: {act.Argument} confirmed",
        "withdraw" => $"Checklist: {act.Argument} taken back",
        "go" => "Operator: GO for launch",
        "no-go" => "Operator: NO-GO",
        "units" => "Operator chooses units: " + act.Argument,
        _ => $"Operator: {act.Verb} {act.Argument}".TrimEnd(),
    };

    private string StillPhase(Phase before) => _flight.Phase == before
        ? $"; phase still {before.ToString().ToLowerInvariant()}, it follows the fixes" : "";
}
