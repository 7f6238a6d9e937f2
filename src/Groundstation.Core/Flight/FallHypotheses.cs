using System.Collections.Immutable;

namespace Groundstation.Core.Flight;

/// <summary>
/// Suppositions of how noisy the fall is and how steady the canopy, side by side, weighed by how well they foretold the
/// heights. When heights surprise them all, each is doubled by one that supposes a changed canopy, until the next heights
/// tell which holds: a gust of a quarter of a minute must not pass for a torn canopy, nor a torn canopy for a gust.
/// </summary>
internal sealed class FallHypotheses
{
    /// <summary>Noise as a multiple of the usual, with weights beforehand: a still canopy to a tangled one that spins.</summary>
    private static readonly ImmutableArray<(double Noise, double Weight)> Noises =
        [(0.5, 0.3), (1, 0.4), (2, 0.2), (4, 0.07), (8, 0.03)];

    /// <summary>Walk of ln(rate) over twenty minutes: 1 % for a canopy that keeps its shape, 5 % for one that does not.</summary>
    private static readonly ImmutableArray<(double Share, double Weight)> Walks = [(0.01, 0.85), (0.05, 0.15)];

    private static readonly int Usual = Noises.Length * Walks.Length;

    /// <summary>The most there can be.</summary>
    public static readonly int Most = 2 * Usual;

    // Standard deviation of ln(rate) across a change of the canopy.
    private const double ChangeLn = 0.3;

    // Share of surprises that are a changed canopy; the others are gusts or receivers.
    private const double ChangeShare = 0.3;

    // Anchors (5 s each) after which the likelier of both stands.
    private const int Longest = 36;

    private FallHypothesis[] _all = new FallHypothesis[Usual];
    private double[] _logWeights = new double[Most];
    private double[] _weights = new double[Most];
    private double[] _mean = new double[FallState.Size];
    private int _doubled;
    private bool _told;

    /// <param name="lnRate">Mean of ln(descent rate at sea level), m/s.</param>
    /// <param name="lnSigma">Its standard deviation.</param>
    public FallHypotheses(double lnRate, double lnSigma)
    {
        for (int i = 0; i < _all.Length; i++)
        {
            (double noise, double a) = Noises[i / Walks.Length];
            (double share, double b) = Walks[i % Walks.Length];
            _all[i] = new FallHypothesis(noise, share * share / 1200, lnRate, lnSigma);
            _logWeights[i] = Math.Log(a * b);
        }
        Weigh();
    }

    public int Count => _all.Length;

    /// <summary>They add up to 1.</summary>
    public ReadOnlySpan<double> Weights => _weights.AsSpan(0, Count);

    /// <summary>Weighted mean of the states.</summary>
    public ReadOnlySpan<double> Mean => _mean;

    /// <summary>How often the canopy was seen to change.</summary>
    public int Changes { get; private set; }

    /// <summary>ln of the rate at sea level when a change was last suspected, m/s.</summary>
    public double LnRateBefore { get; private set; }

    public FallHypothesis this[int hypothesis] => _all[hypothesis];

    /// <summary>Standard deviation of ln(descent rate at sea level) over all of them.</summary>
    public double LnSigma()
    {
        double variance = 0;
        for (int i = 0; i < Count; i++)
        {
            double off = _all[i].Mean[FallState.LnRate] - _mean[FallState.LnRate];
            variance += _weights[i] * (_all[i].Covariance[FallState.LnRate * FallState.Size + FallState.LnRate] + off * off);
        }
        return Math.Sqrt(variance);
    }

    /// <summary>A running stretch of the fall begins at a height of this variance.</summary>
    public void Begin(double heightVarianceM2)
    {
        foreach (FallHypothesis h in _all) h.Begin(heightVarianceM2);
    }

    /// <summary>Whatever was known of the rate counts for little.</summary>
    public void Forget()
    {
        Settle();
        foreach (FallHypothesis h in _all) h.Doubt(0.36);
    }

    /// <summary>The rate may have changed by this variance of its logarithm, besides what each supposes.</summary>
    public void Loosen(double lnVariance)
    {
        foreach (FallHypothesis h in _all) h.Loosen(lnVariance);
    }

    /// <summary>Takes the loss of height between two anchors.</summary>
    public void Fall(double fromM, double toM, double seconds, double heightVarianceM2)
    {
        // What weighs fades over some ten minutes, so that a canopy that turns unsteady is seen as such, and leaves what was
        // supposed beforehand: fading to all alike, a walk of 5 % grew from 15 to 50 % of the weight with nothing to say so.
        const double Fade = 0.01;
        for (int i = 0; i < Count; i++)
        {
            _logWeights[i] += Fade * (Prior(i) - _logWeights[i]) + _all[i].Fall(fromM, toM, seconds, heightVarianceM2);
        }
        Weigh();
        Watch();
    }

    /// <summary>ln of a hypothesis' weight beforehand; its twin that supposes a changed canopy has the same.</summary>
    private static double Prior(int hypothesis) =>
        Math.Log(Noises[hypothesis % Usual / Walks.Length].Weight * Walks[hypothesis % Walks.Length].Weight);

    /// <summary>Takes a linear measurement of the state.</summary>
    public void Measure(ReadOnlySpan<double> row, double measured, double variance)
    {
        foreach (FallHypothesis h in _all)
        {
            double expected = 0;
            for (int j = 0; j < row.Length; j++) expected += row[j] * h.Mean[j];
            h.Measure(row, measured - expected, variance);
        }
        Weigh();
    }

    /// <summary>
    /// Surprises of one sign that add up: under the model their fading sum has a standard deviation of 1.15 (fade 0.5), so
    /// that 4 comes once in some thousand anchors by chance, and costs nothing but the doubling.
    /// </summary>
    private void Watch()
    {
        if (_doubled == 0)
        {
            double surprise = 0;
            for (int i = 0; i < Count; i++) surprise += _weights[i] * _all[i].Surprise;
            if (Math.Abs(surprise) >= 4) Double();
            return;
        }
        double changed = 0;
        for (int i = Usual; i < Count; i++) changed += _weights[i];
        if (changed > 0.95 && !_told)
        {
            _told = true;
            Changes++;
        }
        if (++_doubled > Longest || changed is < 0.01 or > 0.995) Settle();
    }

    private void Double()
    {
        LnRateBefore = _mean[FallState.LnRate];
        _all = [.. _all, .. _all.Select(static h => h.Copy())];
        for (int i = Usual; i < Count; i++)
        {
            _logWeights[i] = _logWeights[i - Usual] + Math.Log(ChangeShare);
            _logWeights[i - Usual] += Math.Log(1 - ChangeShare);
            _all[i].Doubt(ChangeLn * ChangeLn);
        }
        (_doubled, _told) = (1, false);
        Weigh();
    }

    private void Settle()
    {
        if (_doubled == 0) return;
        double changed = 0;
        for (int i = Usual; i < Count; i++) changed += _weights[i];
        int from = changed > 0.5 ? Usual : 0;
        _all = _all[from..(from + Usual)];
        Array.Copy(_logWeights, from, _logWeights, 0, Usual);
        _doubled = 0;
        Weigh();
    }

    private void Weigh()
    {
        double most = double.NegativeInfinity, sum = 0;
        for (int i = 0; i < Count; i++) most = Math.Max(most, _logWeights[i]);
        for (int i = 0; i < Count; i++)
        {
            _logWeights[i] -= most;
            sum += _weights[i] = Math.Exp(_logWeights[i]);
        }
        Array.Clear(_mean);
        for (int i = 0; i < Count; i++)
        {
            _weights[i] /= sum;
            for (int j = 0; j < _mean.Length; j++) _mean[j] += _weights[i] * _all[i].Mean[j];
        }
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public FallHypotheses Copy()
    {
        var copy = (FallHypotheses)MemberwiseClone();
        copy._all = [.. _all.Select(static h => h.Copy())];
        copy._logWeights = [.. _logWeights];
        copy._weights = [.. _weights];
        copy._mean = [.. _mean];
        return copy;
    }
}
