using Groundstation.Core.Quantities;

namespace Groundstation.Core.Alarms;

/// <summary>Severity after 14 CFR 25.1322, worst last. The word is shown beside any colour.</summary>
public enum Severity
{
    /// <summary>For awareness; may need a later act.</summary>
    Advisory,

    /// <summary>Needs awareness at once and an act soon.</summary>
    Caution,

    /// <summary>Needs awareness and an act at once.</summary>
    Warning,
}

/// <summary>Life cycle of an alarm after ISA-18.2 / IEC 62682.</summary>
public enum AlarmPhase
{
    /// <summary>The condition does not hold, nothing to acknowledge.</summary>
    Normal,

    /// <summary>The condition holds, not yet acknowledged.</summary>
    Unacknowledged,

    /// <summary>The condition holds, acknowledged.</summary>
    Acknowledged,

    /// <summary>The condition is gone, but nobody acknowledged it.</summary>
    ReturnedUnacknowledged,

    /// <summary>Put aside by the operator until a time.</summary>
    Shelved,
}

/// <summary>One alarm as it stands: immutable.</summary>
/// <param name="Id">Its name in logs and operator's acts: lower-case words with hyphens, e.g. <c>no-fix</c>.</param>
/// <param name="Severity">Severity.</param>
/// <param name="Phase">Where it is in its life cycle.</param>
/// <param name="Cause">What is so, in plain words with the figure.</param>
/// <param name="Consequence">What follows from it.</param>
/// <param name="NextStep">What to do.</param>
/// <param name="Since">Station time of the last change of <paramref name="Phase"/>.</param>
/// <param name="Order">Order of annunciation since start, from 1: the first-out alarm has the lowest.</param>
/// <param name="ShelvedUntil">End of shelving.</param>
public sealed record AlarmState(string Id, Severity Severity, AlarmPhase Phase, Saying Cause,
    string Consequence, string NextStep, Instant Since, int Order, Instant? ShelvedUntil)
{
    /// <summary>True when it is to be seen: it holds, or has returned without being acknowledged.</summary>
    public bool Standing => Phase is AlarmPhase.Unacknowledged or AlarmPhase.Acknowledged
        or AlarmPhase.ReturnedUnacknowledged;
}
