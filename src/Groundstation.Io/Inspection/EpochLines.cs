using Groundstation.Core.Sentences;

namespace Groundstation.Io.Inspection;

/// <summary>
/// Remembers on which lines the last sentences with a time of day stood. An epoch is known to be complete only when the
/// next one starts or time has passed; its own first line is found again by its time of day.
/// </summary>
internal sealed class EpochLines
{
    /// <summary>More sentences than any receiver sends between an epoch's begin and its end.</summary>
    private readonly (TimeSpan Time, int Address, long Line, bool Used)[] _ring = new (TimeSpan, int, long, bool)[256];
    private int _count;

    /// <summary>A sentence that carries a time.</summary>
    public void Add(in Sentence sentence, TimeSpan? time, long line)
    {
        if (time is not { } at)
            return;
        int address = 0;
        foreach (byte letter in sentence.Address)
            address = address * 31 + letter;
        _ring[_count++ % _ring.Length] = (at, address, line, false);
    }

    /// <summary>
    /// The first line of an epoch that has ended. The same address a second time is the same epoch sent again, which is
    /// an epoch of its own: it stays for the next call.
    /// </summary>
    /// <param name="time">The epoch's time of day.</param>
    /// <param name="now">The current line, taken when the epoch's is not known.</param>
    public long Take(TimeSpan time, long now)
    {
        long first = 0;
        HashSet<int> seen = [];
        for (int i = Math.Max(0, _count - _ring.Length); i < _count; i++)
        {
            ref (TimeSpan Time, int Address, long Line, bool Used) entry = ref _ring[i % _ring.Length];
            if (entry.Used || entry.Time != time)
                continue;
            if (!seen.Add(entry.Address))
                break;
            entry.Used = true;
            first = first == 0 ? entry.Line : first;
        }

        return first == 0 ? now : first;
    }
}
