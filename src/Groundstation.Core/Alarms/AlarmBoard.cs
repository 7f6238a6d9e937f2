using System.Collections.Immutable;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Alarms;

/// <summary>One change of one alarm, for the log.</summary>
/// <param name="Word"><c>raised</c>, <c>acknowledged</c>, <c>returned</c>, <c>cleared</c>, <c>shelved</c>, <c>unshelved</c>.</param>
/// <param name="Alarm">The alarm after the change.</param>
public readonly record struct AlarmChange(string Word, AlarmState Alarm);

/// <summary>
/// All alarms through their life cycle after ISA-18.2 / IEC 62682: normal → unacknowledged → acknowledged → normal, or
/// unacknowledged → returned unacknowledged → normal; shelved for a limited time. On-delay and off-delay keep an alarm
/// from chattering; an alarm explained by another one that stands is not raised.
/// </summary>
public sealed class AlarmBoard
{
    private sealed class Slot(AlarmRule rule)
    {
        public readonly AlarmRule Rule = rule;
        public AlarmState State = new(rule.Id, rule.Severity, AlarmPhase.Normal, "", rule.Consequence, rule.NextStep,
            default, 0, null);
        public Instant? HoldsSince;
        public Instant? GoneSince;

        public Slot Copy() => (Slot)MemberwiseClone();
    }

    private ImmutableArray<Slot> _slots;
    private int _order;

    /// <summary>A board with every alarm normal.</summary>
    /// <param name="rules">The alarms; an explaining alarm stands before those it suppresses.</param>
    public AlarmBoard(IEnumerable<AlarmRule> rules) => _slots = [.. rules.Select(r => new Slot(r))];

    /// <summary>Alarms that are not normal: worst severity first, within it the newest first.</summary>
    public ImmutableArray<AlarmState> Standing =>
    [
        .. _slots.Select(s => s.State).Where(a => a.Phase != AlarmPhase.Normal)
            .OrderByDescending(a => a.Standing).ThenByDescending(a => a.Severity).ThenByDescending(a => a.Order),
    ];

    /// <summary>True while the alarm's condition holds and it is not put aside.</summary>
    public bool Holds(string id) => Find(id) is { State.Phase: AlarmPhase.Unacknowledged or AlarmPhase.Acknowledged };

    /// <summary>Works through all rules for one moment; returns the changes in the order of the rules.</summary>
    public IReadOnlyList<AlarmChange> Evaluate(AlarmInput input, Instant utc)
    {
        List<AlarmChange>? changes = null;
        foreach (Slot slot in _slots)
        {
            string? cause = slot.Rule.Cause(input, slot.State.Phase is not AlarmPhase.Normal);
            if (Step(slot, Suppressed(slot.Rule) ? null : cause, input.Arrival, utc) is { } word)
                (changes ??= []).Add(new(word, slot.State));
        }
        return changes ?? (IReadOnlyList<AlarmChange>)[];
    }

    /// <summary>The operator has seen it. Null if there is nothing to acknowledge under that id.</summary>
    public AlarmChange? Acknowledge(string id, Instant utc)
    {
        if (Find(id) is not { } slot) return null;
        return slot.State.Phase switch
        {
            AlarmPhase.Unacknowledged => Change(slot, AlarmPhase.Acknowledged, "acknowledged", utc),
            AlarmPhase.ReturnedUnacknowledged => Change(slot, AlarmPhase.Normal, "acknowledged", utc),
            _ => null,
        };
    }

    /// <summary>The operator puts it aside until a time. Null if there is no such alarm or it is normal.</summary>
    public AlarmChange? Shelve(string id, Instant until, Instant utc)
    {
        if (Find(id) is not { } slot || slot.State.Phase is AlarmPhase.Normal) return null;
        slot.State = slot.State with { ShelvedUntil = until };
        return Change(slot, AlarmPhase.Shelved, "shelved", utc);
    }

    private Slot? Find(string id) => _slots.FirstOrDefault(s => s.Rule.Id == id);

    private bool Suppressed(AlarmRule rule) => rule.SuppressedBy.Any(Holds);

    private string? Step(Slot slot, string? cause, Instant arrival, Instant utc)
    {
        slot.HoldsSince = cause is null ? null : slot.HoldsSince ?? arrival;
        slot.GoneSince = cause is null ? slot.GoneSince ?? arrival : null;
        bool holds = slot.HoldsSince is { } since && arrival.SecondsSince(since) >= slot.Rule.OnDelayS;
        bool gone = slot.GoneSince is { } from && arrival.SecondsSince(from) >= slot.Rule.OffDelayS;

        if (slot.State is { Phase: AlarmPhase.Shelved, ShelvedUntil: { } until })
        {
            if (utc < until) return null;
            slot.State = slot.State with { ShelvedUntil = null };
            if (!holds) return Change(slot, AlarmPhase.Normal, "unshelved", utc).Word;
            return Raise(slot, cause!, utc);
        }
        if (slot.State.Phase is AlarmPhase.Normal or AlarmPhase.ReturnedUnacknowledged)
            return holds ? Raise(slot, cause!, utc) : null;
        if (cause is not null) slot.State = slot.State with { Cause = cause };
        if (!gone) return null;
        return slot.State.Phase is AlarmPhase.Acknowledged
            ? Change(slot, AlarmPhase.Normal, "cleared", utc).Word
            : Change(slot, AlarmPhase.ReturnedUnacknowledged, "returned", utc).Word;
    }

    private string Raise(Slot slot, string cause, Instant utc)
    {
        slot.State = slot.State with { Cause = cause, Order = ++_order };
        return Change(slot, AlarmPhase.Unacknowledged, "raised", utc).Word;
    }

    private static AlarmChange Change(Slot slot, AlarmPhase phase, string word, Instant utc)
    {
        slot.State = slot.State with { Phase = phase, Since = utc };
        return new(word, slot.State);
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal AlarmBoard Copy()
    {
        var copy = (AlarmBoard)MemberwiseClone();
        copy._slots = [.. _slots.Select(s => s.Copy())];
        return copy;
    }
}
