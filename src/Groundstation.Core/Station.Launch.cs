using Groundstation.Core.Fixes;
using Groundstation.Core.Quantities;
using Groundstation.Core.Readiness;

namespace Groundstation.Core;

/// <summary>The launch checklist: what people confirmed, how long the fix has held, and the decision.</summary>
public sealed partial class Station
{
    private SortedSet<string> _confirmed = new(StringComparer.Ordinal);
    private LaunchDecision? _decision;
    private (Instant Since, Instant Last)? _fixHeld;

    private double? FixHeldS => _fixHeld is { } held && _clock.Arrival.SecondsSince(held.Last) <= _plan.Alarms.NoFixS
        ? held.Last.SecondsSince(held.Since) : null;

    /// <summary>A gap as long as the alarm's limit begins the count anew.</summary>
    private void HoldFix(Fix believed) => _fixHeld =
        _fixHeld is { } held && believed.Heard.SecondsSince(held.Last) <= _plan.Alarms.NoFixS
            ? (held.Since, believed.Heard) : (believed.Heard, believed.Heard);

    private bool Confirm(string id) => PeopleItems.Label(id) is not null && _confirmed.Add(id);

    private bool Decide(bool go)
    {
        LaunchReadiness readiness = LaunchReadiness.Of(Snapshot());
        _decision = new LaunchDecision(_clock.Utc, go, readiness.Standing);
        Happened($"Launch decision: {(go ? readiness.Ready ? "GO" : "GO AGAINST THE CHECKLIST" : "NO-GO")}, "
            + readiness.Standing);
        return true;
    }
}
