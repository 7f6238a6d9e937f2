using System.Collections.Immutable;

namespace Groundstation.Io.Inspection;

/// <summary>Lists of counts by reason.</summary>
internal static class Reasons
{
    /// <summary>Those that occurred, most frequent first, then in the enumeration's order.</summary>
    public static ImmutableArray<ReasonCount> List(FirstLines[] counts, Func<int, string> name) =>
        [.. Enumerable.Range(0, counts.Length).Where(i => counts[i].Count > 0)
            .OrderByDescending(i => counts[i].Count)
            .Select(i => new ReasonCount(name(i), counts[i].Count, counts[i].Lines))];
}
