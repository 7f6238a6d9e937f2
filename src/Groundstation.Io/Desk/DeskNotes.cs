using System.Collections.Immutable;
using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;

namespace Groundstation.Io.Desk;

/// <summary>One change of an alarm.</summary>
/// <param name="At">Arrival time.</param>
/// <param name="Utc">Station time.</param>
/// <param name="Change"><c>raised</c>, <c>acknowledged</c>, …</param>
/// <param name="Alarm">The alarm after it.</param>
internal readonly record struct AlarmNote(Instant At, Instant Utc, string Change, AlarmState Alarm);

/// <summary>One callout as it was composed, with the landing estimate that it told.</summary>
/// <param name="Said">The callout, with its newest read-back.</param>
/// <param name="Landing">The estimate; null when there was none.</param>
internal readonly record struct CalloutNote(Callout Said, LandingEstimate? Landing);

/// <summary>
/// What of a run is kept to jump by and to talk about afterwards. Its lists are immutable, so that a copy costs
/// nothing.
/// </summary>
internal sealed class DeskNotes : IFlightLog
{
    private LandingEstimate? _landing;

    /// <summary>Arrival time of what is being worked through.</summary>
    public Instant At { get; set; }

    /// <summary>Alarms raised, by arrival time.</summary>
    public ImmutableArray<DeskMark> Marks { get; private set; } = [];

    /// <summary>All changes of alarms.</summary>
    public ImmutableArray<AlarmNote> Alarms { get; private set; } = [];

    /// <summary>All callouts.</summary>
    public ImmutableArray<CalloutNote> Callouts { get; private set; } = [];

    /// <summary>What is to be read aloud, in order; true where the operator asked for it.</summary>
    public ImmutableArray<(Callout Callout, bool Asked)> Aloud { get; private set; } = [];

    /// <summary>A copy that goes its own way.</summary>
    public DeskNotes Copy() => (DeskNotes)MemberwiseClone();

    /// <inheritdoc/>
    public void Fix(Fix fix)
    {
    }

    /// <inheritdoc/>
    public void Wind(Instant utc, in WindLayer layer)
    {
    }

    /// <inheritdoc/>
    public void Landing(LandingEstimate estimate) => _landing = estimate;

    /// <inheritdoc/>
    public void Alarm(Instant utc, string change, AlarmState alarm)
    {
        Alarms = Alarms.Add(new(At, utc, change, alarm));
        if (change == "raised")
            Marks = Marks.Add(new(At, alarm.Id));
    }

    /// <inheritdoc/>
    public void Callout(Callout callout)
    {
        for (int i = Callouts.Length - 1; i >= 0; i--)
        {
            if (Callouts[i].Said.Number == callout.Number)
            {
                Callouts = Callouts.SetItem(i, Callouts[i] with { Said = callout });
                return;
            }
        }

        Callouts = Callouts.Add(new(callout, _landing));
        Aloud = Aloud.Add((callout, false));
    }

    /// <inheritdoc/>
    public void Speak(Callout callout) => Aloud = Aloud.Add((callout, true));
}
