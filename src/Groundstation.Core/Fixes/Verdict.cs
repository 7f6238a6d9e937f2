using Groundstation.Core.Quantities;

namespace Groundstation.Core.Fixes;

/// <summary>Reasons against one fix as they are found, each with its words.</summary>
internal sealed class Verdict
{
    public RefusalReasons Reasons { get; private set; }

    /// <summary>The words, in the order in which they were found.</summary>
    public Saying Words { get; private set; } = Saying.None;

    public void Add(RefusalReasons reason, Saying words)
    {
        Reasons |= reason;
        if (!words.IsEmpty)
            Words = Saying.Join("; ", [Words, words]);
    }
}
