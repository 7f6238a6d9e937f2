namespace Groundstation.Core.Alarms;

/// <summary>One alarm's definition: what raises it, how bad it is, what follows, what to do.</summary>
/// <param name="Id">Lower-case words with hyphens; as in logs and operator's acts.</param>
/// <param name="Severity">Severity after 14 CFR 25.1322.</param>
/// <param name="Consequence">What follows, in plain words.</param>
/// <param name="NextStep">What to do, in plain words.</param>
/// <param name="Cause">
/// The condition: the cause in words with its figure while it holds, null while it does not. The flag says whether the
/// alarm stands already, so that a threshold can have a deadband.
/// </param>
/// <param name="OnDelayS">The condition must hold this long, s, before the alarm is raised.</param>
/// <param name="OffDelayS">The condition must be gone this long, s, before the alarm returns to normal.</param>
/// <param name="SuppressedBy">Ids of alarms that explain this one: while any of them stands, this one is not raised.</param>
public sealed record AlarmRule(string Id, Severity Severity, string Consequence, string NextStep,
    Func<AlarmInput, bool, string?> Cause, double OnDelayS = 0, double OffDelayS = 5,
    params string[] SuppressedBy);
