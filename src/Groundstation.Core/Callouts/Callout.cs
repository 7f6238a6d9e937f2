using Groundstation.Core.Quantities;

namespace Groundstation.Core.Callouts;

/// <summary>A sentence to be read aloud to the chase team: a row of <c>callouts.csv</c>.</summary>
/// <param name="Number">Running number, from 1.</param>
/// <param name="Utc">Station time.</param>
/// <param name="Occasion">Why now: <c>launch</c>, <c>burst</c>, <c>cadence</c>, <c>moved</c>, <c>silence</c>, <c>landed</c>.</param>
/// <param name="Text">What to say.</param>
/// <param name="ReadBack">Empty until marked: <c>correct</c> or <c>wrong</c>.</param>
public sealed record Callout(int Number, Instant Utc, string Occasion, string Text, string ReadBack);
