using System.Collections.Immutable;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Alarms;

/// <summary>What a rule has found: its condition holds now.</summary>
/// <param name="Cause">What is so, in plain words with the figure.</param>
/// <param name="Subjects">
/// What it is about where there can be several (links, areas): an alarm that was acknowledged for one of them is raised
/// anew when another one joins.
/// </param>
public sealed record AlarmFinding(Saying Cause, params ImmutableArray<string> Subjects)
{
    /// <summary>A finding about the flight as a whole; null: the condition does not hold.</summary>
    public static implicit operator AlarmFinding?(Saying? cause) => cause is null ? null : new AlarmFinding(cause);
}

/// <summary>One alarm's definition: what raises it, how bad it is and why, what follows, what to do.</summary>
/// <param name="Id">Lower-case words with hyphens; as in logs and operator's acts.</param>
/// <param name="Severity">Severity after 14 CFR 25.1322.</param>
/// <param name="Because">Why it has that severity: who must do what, and how soon.</param>
/// <param name="Consequence">What follows, in plain words.</param>
/// <param name="NextStep">What to do, in plain words.</param>
/// <param name="Cause">
/// The condition: the cause in words with its figure while it holds, null while it does not. The flag says whether the
/// alarm is active already, so that a threshold can have a deadband.
/// </param>
/// <param name="OnDelayS">The condition must hold this long, s, before the alarm is raised.</param>
/// <param name="OffDelayS">The condition must be gone this long, s, before the alarm returns to normal.</param>
/// <param name="SuppressedBy">Ids of alarms that explain this one: while any of them is active, this one is not raised.</param>
public sealed record AlarmRule(string Id, Severity Severity, string Because, string Consequence, string NextStep,
    Func<AlarmInput, bool, AlarmFinding?> Cause, double OnDelayS = 0, double OffDelayS = 5,
    params ImmutableArray<string> SuppressedBy);
