using System.Collections.Immutable;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Alarms;

/// <summary>One change of one alarm, for the log.</summary>
/// <param name="Word"><c>raised</c>, <c>acknowledged</c>, <c>returned</c>, <c>cleared</c>, <c>suppressed</c>,
/// <c>shelved</c>, <c>unshelved</c>.</param>
/// <param name="Alarm">The alarm after the change.</param>
internal readonly record struct AlarmChange(string Word, AlarmState Alarm);

/// <summary>
/// All alarms through their life cycle after ISA-18.2 / IEC 62682: normal → unacknowledged → acknowledged → normal, or
/// unacknowledged → returned unacknowledged → normal; shelved for a limited time. On-delay and off-delay keep an alarm
/// from chattering; an alarm explained by another one that is active is not raised, and taken back if it stood.
/// </summary>
internal sealed class AlarmBoard
{
    private sealed class Slot(AlarmRule rule)
    {
        public readonly AlarmRule Rule = rule;
        public HashSet<string> Told = [];
        public AlarmState State = new(rule.Id, rule.Severity, AlarmPhase.Normal, "", rule.Consequence, rule.NextStep,
            default, 0, null);
        private Instant? _holdsSince, _goneSince;

        /// <summary>
        /// End of shelving in arrival time: station time goes back by months when the date of a wrong laptop is put
        /// right.
        /// </summary>
        public Instant ShelvedUntil { get; set; }

        /// <summary>
        /// The condition, with its delays: apart from the life cycle, so that an alarm put aside still explains others,
        /// and one that has returned has its deadband from the far side again.
        /// </summary>
        public bool Active { get; private set; }

        public void Delay(bool holds, Instant arrival)
        {
            _holdsSince = holds ? _holdsSince ?? arrival : null;
            _goneSince = holds ? null : _goneSince ?? arrival;
            if (_holdsSince is { } since && arrival.SecondsSince(since) >= Rule.OnDelayS) Active = true;
            if (_goneSince is { } from && arrival.SecondsSince(from) >= Rule.OffDelayS) Active = false;
        }

        public void Forget() => (Active, _holdsSince, _goneSince) = (false, null, null);

        public Slot Copy()
        {
            var copy = (Slot)MemberwiseClone();
            copy.Told = [.. Told];
            return copy;
        }
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

    /// <summary>True while the alarm's condition holds, delays counted, even when it is shelved.</summary>
    public bool Holds(string id) => Find(id) is { Active: true };

    /// <summary>Works through all rules for one moment; returns the changes in the order of the rules.</summary>
    public IReadOnlyList<AlarmChange> Evaluate(AlarmInput input, Instant utc)
    {
        List<AlarmChange>? changes = null;
        foreach (Slot slot in _slots)
        {
            AlarmFinding? found = slot.Rule.Cause(input, slot.Active);
            string? word = slot.Rule.SuppressedBy.Any(Holds)
                ? Suppress(slot, found is not null, utc) : Step(slot, found, input.Arrival, utc);
            if (word is not null) (changes ??= []).Add(new(word, slot.State));
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
    /// <param name="id">Its id.</param>
    /// <param name="seconds">For how long, s.</param>
    /// <param name="arrival">Arrival time now.</param>
    /// <param name="utc">Station time now.</param>
    public AlarmChange? Shelve(string id, double seconds, Instant arrival, Instant utc)
    {
        if (Find(id) is not { } slot || slot.State.Phase is AlarmPhase.Normal) return null;
        slot.ShelvedUntil = arrival.PlusSeconds(seconds);
        slot.State = slot.State with { ShelvedUntil = utc.PlusSeconds(seconds) };
        return Change(slot, AlarmPhase.Shelved, "shelved", utc);
    }

    /// <summary>The operator takes it back before its time. Null if it is not shelved.</summary>
    public AlarmChange? Unshelve(string id, Instant utc) =>
        Find(id) is { State.Phase: AlarmPhase.Shelved } slot ? new(TakeBack(slot, utc), slot.State) : null;

    private Slot? Find(string id) => _slots.FirstOrDefault(s => s.Rule.Id == id);

    /// <summary>
    /// Explained by another alarm: it goes from the list, unless its condition is over and nobody has seen that yet.
    /// </summary>
    private static string? Suppress(Slot slot, bool holds, Instant utc)
    {
        slot.Forget();
        if (!holds || slot.State.Phase is not (AlarmPhase.Unacknowledged or AlarmPhase.Acknowledged)) return null;
        return Change(slot, AlarmPhase.Normal, "suppressed", utc).Word;
    }

    private string? Step(Slot slot, AlarmFinding? found, Instant arrival, Instant utc)
    {
        slot.Delay(found is not null, arrival);
        if (found is not null) slot.State = slot.State with { Cause = found.Cause };
        switch (slot.State)
        {
            case { Phase: AlarmPhase.Shelved }:
                if (arrival >= slot.ShelvedUntil) return TakeBack(slot, utc);
                slot.State = slot.State with { ShelvedUntil = utc + (slot.ShelvedUntil - arrival) };
                return null;
            case { Phase: AlarmPhase.Normal or AlarmPhase.ReturnedUnacknowledged }:
                return slot.Active ? Raise(slot, found, utc) : null;
            case { Phase: AlarmPhase.Acknowledged } when !slot.Active:
                return Change(slot, AlarmPhase.Normal, "cleared", utc).Word;
            case { Phase: AlarmPhase.Unacknowledged } when !slot.Active:
                return Change(slot, AlarmPhase.ReturnedUnacknowledged, "returned", utc).Word;
        }
        if (found is null) return null;
        bool joined = false;
        foreach (string subject in found.Subjects) joined |= slot.Told.Add(subject);
        return joined && slot.State.Phase is AlarmPhase.Acknowledged ? Raise(slot, found, utc) : null;
    }

    private string Raise(Slot slot, AlarmFinding? found, Instant utc)
    {
        slot.Told.Clear();
        slot.Told.UnionWith(found?.Subjects ?? []);
        slot.State = slot.State with { Order = ++_order };
        return Change(slot, AlarmPhase.Unacknowledged, "raised", utc).Word;
    }

    private string TakeBack(Slot slot, Instant utc)
    {
        slot.State = slot.State with { ShelvedUntil = null };
        return slot.Active ? Raise(slot, null, utc) : Change(slot, AlarmPhase.Normal, "unshelved", utc).Word;
    }

    private static AlarmChange Change(Slot slot, AlarmPhase phase, string word, Instant utc)
    {
        slot.State = slot.State with { Phase = phase, Since = utc };
        return new(word, slot.State);
    }

    /// <summary>Station time has jumped by a span: what stands has stood as long as before.</summary>
    public void Shift(TimeSpan by)
    {
        foreach (Slot slot in _slots) slot.State = slot.State with { Since = slot.State.Since + by };
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public AlarmBoard Copy()
    {
        var copy = (AlarmBoard)MemberwiseClone();
        copy._slots = [.. _slots.Select(s => s.Copy())];
        return copy;
    }
}
