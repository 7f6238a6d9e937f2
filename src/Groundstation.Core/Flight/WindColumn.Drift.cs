namespace Groundstation.Core.Flight;

/// <summary>The drift along a path to come, as the column foretells it.</summary>
public sealed partial class WindColumn
{
    /// <summary>
    /// Variance of one component of the drift along a path to come under each supposition, m²: what is not known of the
    /// wind now, and what it will change by until the payload is there.
    /// </summary>
    /// <param name="path">Seconds at each node, and when.</param>
    /// <param name="variances">Takes one for each supposition.</param>
    internal void DriftVariances(NodeWeights path, Span<double> variances)
    {
        variances[..Hypotheses].Clear();
        if (path.Last < path.First) return;
        int n = WindNodes.Count, first = path.First, length = path.Last - first + 1;
        ReadOnlySpan<double> seconds = path.Seconds.AsSpan(first, length);
        ReadOnlySpan<double> times = path.MeanTimes().Slice(first, length);
        // What is to come is the same for all suppositions of one length but for its rate. All tables are symmetric: the
        // half above the diagonal counts twice.
        Span<double> toCome = stackalloc double[WindKernels.Change.Length];
        for (int i = 0; i < length; i++)
        {
            double own = seconds[i];
            if (own == 0) continue;
            int at = (first + i) * n + first + i, rest = length - i - 1;
            ReadOnlySpan<double> others = seconds[(i + 1)..], later = times[(i + 1)..];
            for (int k = 0; k < toCome.Length; k++)
            {
                double[] change = WindKernels.Change[k];
                toCome[k] += own * (own * change[at] * times[i] +
                    2 * Rows.DotMin(change.AsSpan(at + 1, rest), others, later, times[i]));
            }
            for (int h = 0; h < Hypotheses; h++)
            {
                double[] covariance = _hypotheses[h].Covariance;
                variances[h] += own * (own * covariance[at] + 2 * Rows.Dot(covariance.AsSpan(at + 1, rest), others));
            }
        }
        for (int h = 0; h < Hypotheses; h++)
            variances[h] = Math.Max(0, variances[h] + _hypotheses[h].ChangeRate * toCome[h % toCome.Length]);
    }

    /// <summary>Variance of one component of the drift along a path to come, weighted over the suppositions, node by node.</summary>
    /// <param name="path">Seconds at each node, and when.</param>
    /// <param name="byNode">Takes each node's part of it; parts add up to the whole.</param>
    internal void DriftVariance(NodeWeights path, Span<double> byNode)
    {
        if (path.Last < path.First) return;
        int n = WindNodes.Count, first = path.First, length = path.Last - first + 1;
        Average();
        ReadOnlySpan<double> seconds = path.Seconds.AsSpan(first, length);
        ReadOnlySpan<double> times = path.MeanTimes().Slice(first, length);
        for (int i = first; i <= path.Last; i++)
        {
            byNode[i] += path.Seconds[i] * (Rows.Dot(_averageCovariance.AsSpan(i * n + first, length), seconds) +
                Rows.DotMin(_averageChange.AsSpan(i * n + first, length), seconds, times, times[i - first]));
        }
    }

    /// <summary>How far a supposition's mean drift along a path lies from the weighted mean's, m.</summary>
    internal (double EastM, double NorthM) DriftOffset(NodeWeights path, int hypothesis)
    {
        if (path.Last < path.First) return default;
        int n = WindNodes.Count, first = path.First, length = path.Last - first + 1;
        ReadOnlySpan<double> seconds = path.Seconds.AsSpan(first, length), mean = Mean();
        WindHypothesis one = _hypotheses[hypothesis];
        return (Rows.Dot(one.East.AsSpan(first, length), seconds) - Rows.Dot(mean.Slice(first, length), seconds),
            Rows.Dot(one.North.AsSpan(first, length), seconds) - Rows.Dot(mean.Slice(n + first, length), seconds));
    }
}
