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
        int n = WindNodes.Count, first = path.First, length = path.Last - first + 1, laws = WindSuppositions.Laws.Length;
        ReadOnlySpan<double> seconds = path.Seconds.AsSpan(first, length);
        ReadOnlySpan<double> times = path.MeanTimes().Slice(first, length);
        Span<double> changing = stackalloc double[laws * length];
        for (int i = 0; i < length; i++)
        {
            for (int k = 0; k < laws; k++)
                changing[k * length + i] = seconds[i] * Math.Sqrt(ShareToCome(WindSuppositions.Laws[k], first + i, times[i]));
        }
        // What is to come is the same for all suppositions of one length and law but for its size.
        Span<double> toCome = stackalloc double[laws * WindKernels.Change.Length];
        for (int k = 0; k < toCome.Length; k++)
            toCome[k] = WindKernels.Joined(k / laws, first, changing.Slice(k % laws * length, length));
        Span<double> known = stackalloc double[_filters.Length];
        for (int f = 0; f < known.Length; f++) known[f] = Square(_filters[f].Covariance, first, seconds);
        for (int h = 0; h < Hypotheses; h++)
        {
            WindHabit habit = _suppositions[h].Habit;
            variances[h] = Math.Max(0, known[_filterOf[h]] +
                habit.ChangeMps * habit.ChangeMps * toCome[habit.Length * laws + (int)habit.Law]);
        }

        // Covariances are symmetric: the half above the diagonal counts twice.
        double Square(double[] table, int from, ReadOnlySpan<double> x)
        {
            double sum = 0;
            for (int i = 0; i < x.Length; i++)
            {
                if (x[i] == 0) continue;
                int at = (from + i) * n + from + i;
                sum += x[i] * (x[i] * table[at] + 2 * Rows.Dot(table.AsSpan(at + 1, x.Length - i - 1), x[(i + 1)..]));
            }
            return sum;
        }
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
        Span<double> changing = stackalloc double[length];
        for (int i = 0; i < length; i++)
            changing[i] = seconds[i] * Math.Sqrt(ShareToCome(ChangeLaw.Walk, first + i, times[i]));
        for (int i = 0; i < length; i++)
        {
            int row = (first + i) * n + first;
            byNode[first + i] += seconds[i] * Rows.Dot(_averageCovariance.AsSpan(row, length), seconds) +
                changing[i] * Rows.Dot(_averageChange.AsSpan(row, length), changing);
        }
    }

    /// <summary>How far each supposition's mean drift along a path lies from the weighted mean's, m.</summary>
    internal void DriftOffsets(NodeWeights path, Span<(double EastM, double NorthM)> offsets)
    {
        offsets[..Hypotheses].Clear();
        if (path.Last < path.First) return;
        int n = WindNodes.Count, first = path.First, length = path.Last - first + 1;
        ReadOnlySpan<double> seconds = path.Seconds.AsSpan(first, length), mean = Mean();
        double east = Rows.Dot(mean.Slice(first, length), seconds), north = Rows.Dot(mean.Slice(n + first, length), seconds);
        Span<(double, double)> ofFilter = stackalloc (double, double)[_filters.Length];
        for (int f = 0; f < ofFilter.Length; f++)
        {
            ofFilter[f] = (Rows.Dot(_filters[f].East.AsSpan(first, length), seconds) - east,
                Rows.Dot(_filters[f].North.AsSpan(first, length), seconds) - north);
        }
        for (int h = 0; h < Hypotheses; h++) offsets[h] = ofFilter[_filterOf[h]];
    }

    // Change until the payload is at a node; before the filters are unfolded that since it was measured, too.
    private double ShareToCome(ChangeLaw law, int node, double seconds) =>
        _unfolded ? WindHabit.Share(law, _ages[node], seconds) : WindHabit.Share(law, 0, _ages[node] + seconds);
}
