using Groundstation.Core.Quantities;
using static System.FormattableString;

namespace Groundstation.Core.Alarms;

/// <summary>How the causes of alarms are worded.</summary>
internal static class Words
{
    public static string Span(double seconds) => seconds switch
    {
        < 120 => Invariant($"{seconds:F0} s"),
        < 7200 => Invariant($"{(int)seconds / 60} min {(int)seconds % 60} s"),
        < 172_800 => Invariant($"{(int)(seconds / 3600)} h {(int)(seconds / 60) % 60} min"),
        _ => Invariant($"{(long)(seconds / 86_400)} days"),
    };

    // Where a conditional would make a string of it, in SI for good.
    public static Saying Text(Saying words) => words;
}
