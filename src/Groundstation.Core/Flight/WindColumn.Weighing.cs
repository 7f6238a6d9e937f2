namespace Groundstation.Core.Flight;

/// <summary>The suppositions weighed against each other, and what they come to together.</summary>
public sealed partial class WindColumn
{
    // What each supposition says of change is told from now on: each gets a filter of its own. The season's strength has
    // told all it could; the likelier one goes on.
    private void Unfold()
    {
        int seasons = _suppositions[^1].Season + 1;
        var weight = new double[seasons];
        for (int i = 0; i < _weights.Length; i++) weight[_suppositions[i].Season] += _weights[i];
        int season = Array.IndexOf(weight, weight.Max());
        int[] kept = [.. Enumerable.Range(0, _suppositions.Length).Where(i => _suppositions[i].Season == season)];
        _filters = [.. kept.Select(i => _filters[_filterOf[i]].With(_suppositions[i].Habit, _ages))];
        _logWeights = [.. kept.Select(i => _logWeights[i])];
        _suppositions = [.. kept.Select(i => _suppositions[i])];
        ResizeTo(kept.Length);
        _unfolded = true;
        Weigh();
    }

    // A supposition that has foretold so badly never comes back: its filter costs time and memory for nothing.
    private void Prune()
    {
        const double Least = 1e-6;
        if (!_unfolded || _weights.Min() >= Least) return;
        int[] kept = [.. Enumerable.Range(0, _weights.Length).Where(i => _weights[i] >= Least)];
        (_filters, _logWeights) = ([.. kept.Select(i => _filters[i])], [.. kept.Select(i => _logWeights[i])]);
        _suppositions = [.. kept.Select(i => _suppositions[i])];
        ResizeTo(kept.Length);
        Weigh();
    }

    // One filter each.
    private void ResizeTo(int count)
    {
        _filterOf = [.. Enumerable.Range(0, count)];
        (_weights, _filterWeights, _told) = (new double[count], new double[count], new double[count]);
    }

    private void TellSeasonOnly()
    {
        for (int i = 0; i < _told.Length; i++) _told[i] = Math.Exp(_told[i] - _told[^1]);
        int seasons = _suppositions[^1].Season + 1;
        for (int s = 0; s < seasons; s++)
        {
            double sum = 0, weight = 0;
            for (int i = s; i < _weights.Length; i += seasons)
            {
                sum += _weights[i] * _told[_filterOf[i]];
                weight += _weights[i];
            }
            double mean = Math.Log(sum / weight);
            for (int i = s; i < _weights.Length; i += seasons) _logWeights[i] += mean;
        }
        Array.Clear(_told);
    }

    private void Weigh()
    {
        double most = _logWeights.Max(), sum = 0;
        for (int i = 0; i < _weights.Length; i++)
        {
            _logWeights[i] -= most;
            sum += _weights[i] = Math.Exp(_logWeights[i]);
        }
        Array.Clear(_filterWeights);
        for (int i = 0; i < _weights.Length; i++) _filterWeights[_filterOf[i]] += _weights[i] /= sum;
        (_meanFresh, _averageFresh) = (false, false);
    }

    private ReadOnlySpan<double> Mean()
    {
        if (_meanFresh) return _mean;
        int n = WindNodes.Count;
        Array.Clear(_mean);
        for (int f = 0; f < _filters.Length; f++)
        {
            Rows.Add(_mean.AsSpan(0, n), _filterWeights[f], _filters[f].East);
            Rows.Add(_mean.AsSpan(n, n), _filterWeights[f], _filters[f].North);
        }
        _meanFresh = true;
        return _mean;
    }

    private void Average()
    {
        if (_averageFresh) return;
        if (_averageCovariance.Length == 0)
            (_averageCovariance, _averageChange) = (new double[_filters[0].Covariance.Length], new double[_filters[0].Covariance.Length]);
        Array.Clear(_averageCovariance);
        Array.Clear(_averageChange);
        for (int f = 0; f < _filters.Length; f++) Rows.Add(_averageCovariance, _filterWeights[f], _filters[f].Covariance);
        Span<double> ofLength = stackalloc double[WindKernels.Change.Length];
        ofLength.Clear();
        for (int i = 0; i < _weights.Length; i++)
        {
            WindHabit habit = _suppositions[i].Habit;
            ofLength[habit.Length] += _weights[i] * habit.ChangeMps * habit.ChangeMps;
        }
        for (int k = 0; k < ofLength.Length; k++) Rows.Add(_averageChange, ofLength[k], WindKernels.Change[k]);
        _averageFresh = true;
    }

    /// <summary>Takes less memory until it is used again: see <see cref="Station.Pack"/>.</summary>
    internal void Pack()
    {
        foreach (WindHypothesis filter in _filters) filter.Pack();
        (_averageCovariance, _averageChange, _averageFresh) = ([], [], false);
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal WindColumn Copy()
    {
        var copy = (WindColumn)MemberwiseClone();
        copy._filters = [.. _filters.Select(h => h.Copy())];
        copy._filterOf = [.. _filterOf];
        copy._logWeights = [.. _logWeights];
        copy._weights = [.. _weights];
        copy._filterWeights = [.. _filterWeights];
        copy._told = [.. _told];
        copy._measured = [.. _measured];
        copy._ages = [.. _ages];
        copy._basis = [.. _basis];
        copy._path = _path.Copy();
        copy._mean = [.. _mean];
        copy._averageCovariance = [.. _averageCovariance];
        copy._averageChange = [.. _averageChange];
        copy.LayerDone = null;
        return copy;
    }
}
