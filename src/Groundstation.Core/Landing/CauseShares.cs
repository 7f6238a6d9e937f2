using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Landing;

/// <summary>How much of the ensemble's spread comes from what, as shares of the variance, in words.</summary>
internal sealed class CauseShares
{
    // Heights at which people divide the air: boundary layer, lower and upper troposphere, stratosphere.
    private static readonly double[] TopsM = [2000, 6000, 12_000, 20_000, double.PositiveInfinity];

    private const int Parts = 6;
    private double[] _sums = new double[Parts * 3];
    private int _count;

    public void Clear()
    {
        Array.Clear(_sums);
        _count = 0;
    }

    public void Add(params ReadOnlySpan<(double E, double N)> parts)
    {
        for (int i = 0; i < Parts; i++)
        {
            (double e, double n) = parts[i];
            _sums[i * 3] += e;
            _sums[i * 3 + 1] += n;
            _sums[i * 3 + 2] += e * e + n * n;
        }
        _count++;
    }

    /// <summary>The causes that make 10 % or more, largest first; the first one always.</summary>
    /// <param name="windByNode">Variance that each node's wind brings, in any unit.</param>
    /// <param name="beginning">What is not known of the beginning of the fall.</param>
    public Saying Words(ReadOnlySpan<double> windByNode, string beginning)
    {
        List<(Saying Words, double Variance)> causes =
        [
            (beginning, Variance(1)), ("descent rate", Variance(2)), ("ascent rate", Variance(3)),
            ("air density", Variance(4)), ("ground height", Variance(5)),
        ];
        double wind = 0;
        foreach (double v in windByNode) wind += v;
        double bottom = double.NegativeInfinity;
        foreach (double top in TopsM)
        {
            double part = 0;
            for (int i = 0; i < windByNode.Length; i++)
                if (WindNodes.HeightsM[i] >= bottom && WindNodes.HeightsM[i] < top) part += windByNode[i];
            causes.Add((Wind(bottom, top), wind > 0 ? Variance(0) * part / wind : 0));
            bottom = top;
        }
        double all = causes.Sum(c => c.Variance);
        if (all <= 0) return Saying.None;
        return Saying.Join(", ", causes.OrderByDescending(c => c.Variance)
            .Where((c, i) => i == 0 || c.Variance >= 0.1 * all)
            .Select(c => (Saying)$"{c.Words} {100 * c.Variance / all:F0} %"));
    }

    private static Saying Wind(double bottomM, double topM)
    {
        (Measure bottom, Measure top) = (Measure.Level(bottomM), Measure.Level(topM));
        if (double.IsNegativeInfinity(bottomM)) return $"wind below {top}";
        if (double.IsInfinity(topM)) return $"wind above {bottom}";
        return $"wind {bottom.Bare} to {top}";
    }

    private double Variance(int part)
    {
        if (_count == 0) return 0;
        double e = _sums[part * 3] / _count, n = _sums[part * 3 + 1] / _count;
        return Math.Max(_sums[part * 3 + 2] / _count - e * e - n * n, 0);
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public CauseShares Copy()
    {
        var copy = (CauseShares)MemberwiseClone();
        copy._sums = [.. _sums];
        return copy;
    }
}
