using System.Collections.Immutable;
using Groundstation.Core;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;

namespace Groundstation.Io.Desk;

/// <summary>
/// A station on its way along a timeline. It may be copied at any moment; the copy goes on by itself, on any thread.
/// </summary>
internal sealed class DeskRun
{
    private readonly DeskNotes _notes;
    private readonly Station _station;
    private int _next;

    /// <summary>A station at the beginning of a timeline.</summary>
    /// <param name="plan">The plan in force.</param>
    /// <param name="terrain">Height of the ground; may be called from several threads at once.</param>
    /// <param name="along">The timeline; its first moment is worked through.</param>
    public DeskRun(FlightPlan plan, Func<GeoPoint, double?>? terrain, Timeline along)
    {
        _notes = new DeskNotes();
        Totals = new FlightTotals(_notes);
        _station = new Station(plan, Totals, terrain);
        At = along.Start;
        MoveTo(along, along.Start);
    }

    private DeskRun(DeskRun from)
    {
        (_next, At) = (from._next, from.At);
        _notes = from._notes.Copy();
        Totals = from.Totals.Copy(_notes);
        _station = from._station.Copy(Totals);
    }

    /// <summary>How far it has come, arrival time.</summary>
    public Instant At { get; private set; }

    /// <summary>What the logs would have got.</summary>
    public FlightTotals Totals { get; }

    /// <summary>Epochs so far, believed or not.</summary>
    public long Fixes => Totals.Believed + Totals.Refused;

    /// <summary>Alarms raised so far.</summary>
    public ImmutableArray<DeskMark> AlarmsRaised => _notes.Marks;

    /// <summary>What was noted for the debrief.</summary>
    public DeskNotes Notes => _notes;

    /// <summary>What the screens show.</summary>
    public Snapshot Snapshot() => _station.Snapshot();

    /// <summary>One that stands at the same place and goes its own way.</summary>
    public DeskRun Copy() => new(this);

    /// <summary>By how much arrival time was ahead of the station's UTC when it was packed.</summary>
    public TimeSpan Lag { get; private set; }

    /// <summary>Takes less memory; from now on it is only copied.</summary>
    public DeskRun Packed()
    {
        Snapshot now = Snapshot();
        Lag = now.Arrival - now.Utc;
        _station.Pack();
        return this;
    }

    /// <summary>The next moment at which something can happen: an event or a whole second.</summary>
    public Instant NextMoment(Timeline along)
    {
        Instant second = NextSecond();
        return _next < along.Count && along.Events[_next].At < second ? along.Events[_next].At : second;
    }

    /// <summary>
    /// Works through all events up to a moment, and through the seconds up to it. The timeline must be the same as
    /// before up to where this one stands.
    /// </summary>
    /// <param name="along">The timeline.</param>
    /// <param name="to">The moment.</param>
    /// <param name="goOn">Asked after every event; false ends it there.</param>
    public void MoveTo(Timeline along, Instant to, Func<bool>? goOn = null)
    {
        ReadOnlySpan<RecordedEvent> events = along.Events;
        while (_next < events.Length && events[_next].At <= to)
        {
            RecordedEvent e = events[_next++];
            TickTo(e.At);
            _notes.At = At = e.At;
            e.ApplyTo(_station);
            if (goOn?.Invoke() == false)
                return;
        }

        // Before the first event, and in a gap through which the station skips, nothing goes on.
        if (_next == 0 || (_next < events.Length && events[_next].At - At > Station.LongestTicking))
            return;
        TickTo(to);
        if (to <= At)
            return;
        _notes.At = At = to;
        _station.Tick(to);
    }

    /// <summary>
    /// Second by second, so that each alarm's moment is known; the station would do the same by itself.
    /// </summary>
    private void TickTo(Instant to)
    {
        if (to - At > Station.LongestTicking)
            return;
        for (Instant second = NextSecond(); second < to; second = NextSecond())
        {
            _notes.At = At = second;
            _station.Tick(second);
        }
    }

    private Instant NextSecond() => At.ToWholeSecond() + TimeSpan.FromSeconds(1);
}
