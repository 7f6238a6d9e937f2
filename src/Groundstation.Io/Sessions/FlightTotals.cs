using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;

namespace Groundstation.Io.Sessions;

/// <summary>Counts the rows that go to the logs, for the summary, and passes them on.</summary>
/// <param name="next">Takes the rows; null: nobody.</param>
internal sealed class FlightTotals(IFlightLog? next) : IFlightLog
{
    private IFlightLog? _next = next;
    private List<(string Id, Severity Severity, int Count)> _raised = [];

    /// <summary>Fixes believed.</summary>
    public long Believed { get; private set; }

    /// <summary>Fixes refused.</summary>
    public long Refused { get; private set; }

    /// <summary>The newest landing estimate.</summary>
    public LandingEstimate? Landing { get; private set; }

    /// <summary>Callouts made.</summary>
    public int Callouts { get; private set; }

    /// <summary>Alarms raised, in the order of their first time.</summary>
    public IReadOnlyList<(string Id, Severity Severity, int Count)> Raised => _raised;

    /// <inheritdoc/>
    public void Fix(Fix fix)
    {
        if (fix.Believed)
            Believed++;
        else
            Refused += fix.Refused == RefusalReasons.WithinSecond ? 0 : 1;
        _next?.Fix(fix);
    }

    /// <inheritdoc/>
    public void Wind(Instant utc, in WindLayer layer) => _next?.Wind(utc, layer);

    /// <inheritdoc/>
    void IFlightLog.Landing(LandingEstimate estimate)
    {
        Landing = estimate;
        _next?.Landing(estimate);
    }

    /// <inheritdoc/>
    public void Alarm(Instant utc, string change, AlarmState alarm)
    {
        if (change == "raised")
        {
            int i = _raised.FindIndex(known => known.Id == alarm.Id);
            if (i < 0)
                _raised.Add((alarm.Id, alarm.Severity, 1));
            else
                _raised[i] = _raised[i] with { Count = _raised[i].Count + 1 };
        }

        _next?.Alarm(utc, change, alarm);
    }

    /// <summary>
    /// Told each new callout, and each one that the operator wants read aloud (then true); null: nobody.
    /// </summary>
    public Action<Callout, bool>? Aloud { get; set; }

    /// <inheritdoc/>
    public void Callout(Callout callout)
    {
        if (callout.Number > Callouts)
            Aloud?.Invoke(callout, false);
        Callouts = Math.Max(Callouts, callout.Number);
        _next?.Callout(callout);
    }

    /// <summary>A copy that counts on by itself.</summary>
    /// <param name="to">Takes its rows.</param>
    public FlightTotals Copy(IFlightLog? to)
    {
        var copy = (FlightTotals)MemberwiseClone();
        (copy._next, copy._raised) = (to, [.. _raised]);
        return copy;
    }

    /// <inheritdoc/>
    public void Speak(Callout callout)
    {
        Aloud?.Invoke(callout, true);
        _next?.Speak(callout);
    }

    /// <inheritdoc/>
    public void SearchSheet(string text) => _next?.SearchSheet(text);
}
