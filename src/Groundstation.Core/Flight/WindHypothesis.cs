namespace Groundstation.Core.Flight;

/// <summary>
/// One Gaussian posterior of the wind column under one supposition of how winds change in time: a Kalman filter whose
/// state is each node's wind and the payload's true place relative to the last anchor. East and north share one
/// covariance, because they share the times, weights and noise of all measurements.
/// </summary>
internal sealed class WindHypothesis
{
    private double[] _place = new double[WindNodes.Count];
    private double[] _aged = new double[WindNodes.Count];
    private double _placeVariance, _placeEast, _placeNorth;
    private double[]? _covariance;
    private PackedMatrix? _packed;

    /// <param name="habit">What is supposed.</param>
    /// <param name="prior">Covariance before anything is heard.</param>
    public WindHypothesis(WindHabit habit, double[] prior)
    {
        Habit = habit;
        _covariance = (double[])prior.Clone();
    }

    public WindHabit Habit { get; private set; }

    /// <summary>Covariance of one component over the nodes, row by row, m²/s².</summary>
    public double[] Covariance => _covariance ??= Unpacked();

    public double[] East { get; private set; } = new double[WindNodes.Count];

    public double[] North { get; private set; } = new double[WindNodes.Count];

    /// <summary>Starts a stretch at an anchor whose place has this variance.</summary>
    public void Begin(double placeVariance)
    {
        Array.Clear(_place);
        (_placeVariance, _placeEast, _placeNorth) = (placeVariance, 0, 0);
    }

    /// <summary>Time passes with nothing measured.</summary>
    /// <param name="ages">Seconds since each node was measured.</param>
    /// <param name="seconds">How long.</param>
    public void Age(ReadOnlySpan<double> ages, double seconds)
    {
        FillAged(ages, seconds);
        int n = WindNodes.Count;
        double[] change = WindKernels.Change[Habit.Length];
        for (int i = 0; i < n; i++)
            Rows.Add(Covariance.AsSpan(i * n, n), _aged[i], change.AsSpan(i * n, n), _aged, 0, _aged);
    }

    /// <summary>
    /// The same measurements under a habit of change: this one has measured as if nothing changed, and what changed since
    /// each node was measured comes on top.
    /// </summary>
    /// <param name="habit">The habit.</param>
    /// <param name="ages">Seconds since each node was measured.</param>
    public WindHypothesis With(WindHabit habit, ReadOnlySpan<double> ages)
    {
        WindHypothesis changed = Copy();
        changed.Habit = habit;
        int n = WindNodes.Count;
        double[] joined = WindKernels.Change[habit.Length];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
                changed.Covariance[i * n + j] += joined[i * n + j] * habit.ChangeBetween(ages[i], ages[j]);
        }
        return changed;
    }

    // Standard deviation of each node's change over the seconds to come: the correlated change of two nodes is the
    // product of theirs and their correlation, so that the covariance stays one.
    private void FillAged(ReadOnlySpan<double> ages, double seconds)
    {
        for (int i = 0; i < _aged.Length; i++) _aged[i] = Math.Sqrt(Habit.Change(ages[i], seconds));
    }

    /// <summary>
    /// Takes the drift from the last anchor to the next one.
    /// </summary>
    /// <param name="path">Seconds spent at each node.</param>
    /// <param name="ages">Seconds since each node was measured before.</param>
    /// <param name="seconds">Their sum.</param>
    /// <param name="east">Displacement between anchors, m.</param>
    /// <param name="north">Displacement between anchors, m.</param>
    /// <param name="gustVariance">Variance of the displacement that is no part of the column, m².</param>
    /// <param name="placeVariance">Variance of the new anchor's place, m².</param>
    /// <returns>Logarithm of the likelihood of what was measured, robust against the odd outlier.</returns>
    public double Drift(NodeWeights path, ReadOnlySpan<double> ages, double seconds, double east, double north, double gustVariance,
        double placeVariance)
    {
        int n = WindNodes.Count;
        double drift = 0, driftPlace = 0;
        for (int i = path.First; i <= path.Last; i++)
        {
            double s = path.Seconds[i];
            _placeEast += s * East[i];
            _placeNorth += s * North[i];
            driftPlace += s * _place[i];
            drift += s * Rows.Dot(Covariance.AsSpan(i * n + path.First, path.Last - path.First + 1),
                path.Seconds.AsSpan(path.First, path.Last - path.First + 1));
        }
        for (int i = path.First; i <= path.Last; i++) Rows.Add(_place, path.Seconds[i], Covariance.AsSpan(i * n, n));
        double variance = _placeVariance + 2 * driftPlace + drift + gustVariance;

        double innovationEast = east - _placeEast, innovationNorth = north - _placeNorth;
        double s0 = variance + placeVariance;
        double normalised = (innovationEast * innovationEast + innovationNorth * innovationNorth) / (2 * s0);
        // Beyond three sigmas the noise is taken to be larger than supposed (a swinging or spinning payload, a receiver
        // settling), so that one bad stretch cannot bend the column.
        if (normalised > 9) placeVariance += s0 * (normalised / 9 - 1);
        double sum = variance + placeVariance;
        double likelihood = -Math.Log(s0) - Math.Min(normalised, 9);

        double scale = -1 / sum;
        FillAged(ages, seconds);
        double[] change = WindKernels.Change[Habit.Length];
        for (int i = 0; i < n; i++)
        {
            Rows.Add(Covariance.AsSpan(i * n, n), _aged[i], change.AsSpan(i * n, n), _aged, scale * _place[i], _place);
        }
        Rows.Add(East, innovationEast / sum, _place);
        Rows.Add(North, innovationNorth / sum, _place);
        double kept = 1 - variance / sum;
        Rows.Add(_place, kept - 1, _place);
        // The place is kept relative to the new anchor.
        _placeEast = _placeEast + innovationEast * variance / sum - east;
        _placeNorth = _placeNorth + innovationNorth * variance / sum - north;
        _placeVariance = variance * kept;
        return likelihood;
    }

    /// <summary>Takes less memory until it is used again: see <see cref="Station.Pack"/>.</summary>
    public void Pack() => (_packed, _covariance) = (new PackedMatrix(Covariance, WindNodes.Count), null);

    private double[] Unpacked()
    {
        double[] covariance = _packed!.Unpacked();
        _packed = null;
        return covariance;
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public WindHypothesis Copy()
    {
        var copy = (WindHypothesis)MemberwiseClone();
        copy._place = [.. _place];
        copy._aged = [.. _aged];
        (copy._covariance, copy._packed) = (_packed?.Unpacked() ?? [.. Covariance], null);
        copy.East = [.. East];
        copy.North = [.. North];
        return copy;
    }
}
