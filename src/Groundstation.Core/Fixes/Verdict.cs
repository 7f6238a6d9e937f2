namespace Groundstation.Core.Fixes;

/// <summary>Reasons against one fix as they are found, each with its words.</summary>
internal sealed class Verdict
{
    private readonly List<string> _words = [];

    public RefusalReasons Reasons { get; private set; }

    /// <summary>The words, in the order in which they were found.</summary>
    public string Words => string.Join("; ", _words);

    public void Add(RefusalReasons reason, FormattableString words) => Add(reason, FormattableString.Invariant(words));

    public void Add(RefusalReasons reason, string words)
    {
        Reasons |= reason;
        if (words.Length > 0)
            _words.Add(words);
    }
}
