using System.Collections.Immutable;
using Groundstation.Core.Quantities;

namespace Groundstation.Io.Inspection;

/// <summary>
/// Intervals between successive epochs, kept as a histogram, so that a recording of any length takes the same memory.
/// </summary>
internal sealed class EpochIntervals
{
    private const double BinS = 0.01;
    private const int LongestShown = 5;

    /// <summary>10 ms bins up to a minute; the last one takes everything longer. Count and sum of each.</summary>
    private readonly (long Count, double SumS)[] _bins = new (long, double)[6001];

    private readonly List<(Instant From, double Seconds, long Line)> _longest = [];
    private long _count;

    /// <summary>Takes one interval.</summary>
    /// <param name="from">Its begin.</param>
    /// <param name="seconds">Its length, ≥ 0.</param>
    /// <param name="line">Line of the epoch that ends it.</param>
    public void Add(Instant from, double seconds, long line)
    {
        int bin = (int)Math.Min(seconds / BinS + 0.5, _bins.Length - 1);
        _bins[bin] = (_bins[bin].Count + 1, _bins[bin].SumS + seconds);
        _count++;
        if (_longest.Count == LongestShown && seconds <= _longest.Min(g => g.Seconds))
            return;
        _longest.Add((from, seconds, line));
        if (_longest.Count > LongestShown)
            _longest.Remove(_longest.MinBy(g => g.Seconds));
    }

    /// <summary>The median interval, s, to 10 ms; null without one.</summary>
    public double? MedianS()
    {
        long seen = 0;
        for (int bin = 0; bin < _bins.Length; bin++)
        {
            seen += _bins[bin].Count;
            if (_count > 0 && seen * 2 >= _count)
                return _bins[bin].SumS / _bins[bin].Count;
        }

        return null;
    }

    /// <summary>
    /// Gaps: at least two epochs missing in a row (2.5 medians), and at least two seconds, below which nobody on the
    /// ground would notice.
    /// </summary>
    public GapReport Gaps()
    {
        double thresholdS = Math.Max(2, 2.5 * (MedianS() ?? 0));
        long count = 0;
        double totalS = 0;
        for (int bin = Math.Min((int)Math.Ceiling(thresholdS / BinS), _bins.Length - 1); bin < _bins.Length; bin++)
        {
            count += _bins[bin].Count;
            totalS += _bins[bin].SumS;
        }

        ImmutableArray<Gap> longest = [.. _longest.Where(g => g.Seconds >= thresholdS).OrderBy(g => g.From.Ticks)
            .Select(g => new Gap(g.From.ToString(), Math.Round(g.Seconds, 1), g.Line))];
        return new(Math.Round(thresholdS, 2), count, Math.Round(totalS, 1), longest);
    }
}
