using System.Collections.Immutable;

namespace Groundstation.Io.Inspection;

/// <summary>Counts occurrences and keeps the line numbers of the first five.</summary>
internal sealed class FirstLines
{
    private const int Kept = 5;
    private readonly List<long> _lines = new(Kept);

    /// <summary>How many.</summary>
    public long Count { get; private set; }

    /// <summary>The first few line numbers; the same line is named once.</summary>
    public ImmutableArray<long> Lines => [.. _lines];

    /// <summary>One more, at a line.</summary>
    public void Add(long line)
    {
        Count++;
        if (_lines.Count < Kept && (_lines.Count == 0 || _lines[^1] != line))
            _lines.Add(line);
    }
}
