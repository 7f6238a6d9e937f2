using Groundstation.Core.Quantities;

namespace Groundstation.Core.Callouts;

/// <summary>Something to be read aloud to the chase team: a row of <c>callouts.csv</c>.</summary>
/// <param name="Number">Running number, from 1.</param>
/// <param name="Utc">Station time.</param>
/// <param name="Occasion">
/// Why now: <c>launch</c>, <c>ascent</c>, <c>burst</c>, <c>float</c>, <c>cadence</c>, <c>moved</c>, <c>silence</c>,
/// <c>heard-again</c>, <c>landed</c>, or <c>full</c> for the full form that the operator asked for.
/// </param>
/// <param name="Text">What to say, with figures as a screen shows them.</param>
/// <param name="ReadBack">Empty until marked: <c>correct</c> or <c>wrong</c>.</param>
public sealed record Callout(int Number, Instant Utc, string Occasion, string Text, string ReadBack)
{
    /// <summary>The same in words, as it is said on the radio.</summary>
    public string Spoken { get; init; } = "";
}
