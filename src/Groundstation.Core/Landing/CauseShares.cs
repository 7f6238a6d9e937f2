using System.Globalization;
using Groundstation.Core.Flight;

namespace Groundstation.Core.Landing;

/// <summary>How much of the ensemble's spread comes from what, as shares of the variance, in words.</summary>
internal sealed class CauseShares
{
    // Heights at which people divide the air: boundary layer, lower and upper troposphere, stratosphere.
    private static readonly (double TopM, string Words)[] Bands =
    [
        (2000, "wind below 2 km"), (6000, "wind 2 to 6 km"), (12_000, "wind 6 to 12 km"), (20_000, "wind 12 to 20 km"),
        (double.PositiveInfinity, "wind above 20 km"),
    ];

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
    public string Words(ReadOnlySpan<double> windByNode, string beginning)
    {
        List<(string Words, double Variance)> causes =
        [
            (beginning, Variance(1)), ("descent rate", Variance(2)), ("ascent rate", Variance(3)),
            ("air density", Variance(4)), ("ground height", Variance(5)),
        ];
        double wind = 0;
        foreach (double v in windByNode) wind += v;
        double bottom = double.NegativeInfinity;
        foreach ((double top, string words) in Bands)
        {
            double part = 0;
            for (int i = 0; i < windByNode.Length; i++)
                if (WindNodes.HeightsM[i] >= bottom && WindNodes.HeightsM[i] < top) part += windByNode[i];
            causes.Add((words, wind > 0 ? Variance(0) * part / wind : 0));
            bottom = top;
        }
        double all = causes.Sum(c => c.Variance);
        if (all <= 0) return "";
        return string.Join(", ", causes.OrderByDescending(c => c.Variance).Where((c, i) => i == 0 || c.Variance >= 0.1 * all)
            .Select(c => string.Create(CultureInfo.InvariantCulture, $"{c.Words} {100 * c.Variance / all:F0} %")));
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
