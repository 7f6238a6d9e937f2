using System.Collections.Immutable;
using Groundstation.Core.Air;
using Groundstation.Core.Fixes;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Flight;

/// <summary>
/// How fast the payload falls, as a posterior of its rate at sea level joined with the day's atmosphere. Suppositions of
/// how noisy the fall is and how steady the canopy run side by side, weighed by how well they foretold the heights.
/// </summary>
public sealed class DescentRate
{
    /// <summary>Noise as a multiple of the usual, with weights beforehand: a still canopy to a tangled one that spins.</summary>
    private static readonly ImmutableArray<(double Noise, double Weight)> Noises =
        [(0.5, 0.3), (1, 0.4), (2, 0.2), (4, 0.1)];

    /// <summary>
    /// Walk of ln(rate) over twenty minutes: 1 % for a canopy that keeps its shape, 5 % for one that does not.
    /// </summary>
    private static readonly ImmutableArray<(double Share, double Weight)> Walks = [(0.01, 0.85), (0.05, 0.15)];

    private FallHypothesis[] _hypotheses;
    private double[] _logWeights;
    private double[] _weights;
    private readonly double _planLn, _planSigma;
    private double[] _mean = new double[FallState.Size];
    private Anchor? _last;
    private double? _lastRate;
    private double _sounded = double.NaN;
    private double _surprise;
    private bool _steady;
    private int _steps;

    /// <summary>Knows what the plan says.</summary>
    public DescentRate(FlightPlan plan)
    {
        _planLn = Math.Log(plan.CanopyDragAreaM2 is { } area
            ? Math.Sqrt(2 * plan.DescentMassKg * AtmosphereProfile.StandardGravity / (StandardAtmosphere.SeaLevelDensityKgM3 * area))
            : plan.DescentRateSeaLevelMps);
        _planSigma = plan.DescentRateLnSigma;
        _hypotheses = new FallHypothesis[Noises.Length * Walks.Length];
        _logWeights = new double[_hypotheses.Length];
        _weights = new double[_hypotheses.Length];
        for (int i = 0; i < _hypotheses.Length; i++)
        {
            (double noise, double a) = Noises[i / Walks.Length];
            (double share, double b) = Walks[i % Walks.Length];
            // The filter starts wider than the plan: a tangled canopy falls at twice the rate.
            _hypotheses[i] = new FallHypothesis(noise, share * share / 1200, _planLn, Math.Max(_planSigma, 0.6));
            _logWeights[i] = Math.Log(a * b);
        }
        Weigh();
    }

    /// <summary>True once the live rate has been measured in this descent.</summary>
    public bool Measured => _steps >= 3;

    /// <summary>How often the canopy was seen to change: partly opened, tangled or lost.</summary>
    public int CanopyChanges { get; private set; }

    /// <summary>ln of the rate at sea level in the 1976 atmosphere, m/s.</summary>
    public double LnRate => Measured ? _mean[FallState.LnRate] : _planLn;

    /// <summary>Standard deviation of <see cref="LnRate"/>.</summary>
    public double LnSigma
    {
        get
        {
            if (!Measured) return _planSigma;
            double variance = 0;
            for (int i = 0; i < _hypotheses.Length; i++)
            {
                double off = _hypotheses[i].Mean[FallState.LnRate] - _mean[FallState.LnRate];
                int c = FallState.LnRate * FallState.Size + FallState.LnRate;
                variance += _weights[i] * (_hypotheses[i].Covariance[c] + off * off);
            }
            return Math.Sqrt(variance);
        }
    }

    internal int Hypotheses => _hypotheses.Length;

    internal ReadOnlySpan<double> Weights => _weights;

    internal ReadOnlySpan<double> Mean => _mean;

    internal FallHypothesis this[int hypothesis] => _hypotheses[hypothesis];

    /// <summary>Forgets the running stretch: the payload is not falling, or was not heard for long.</summary>
    public void Pause()
    {
        _last = null;
        _lastRate = null;
        _steady = false;
    }

    /// <summary>A new descent, after a float or a false one: what was measured in the last one does not count.</summary>
    public void Restart()
    {
        if (_steps > 0)
        {
            foreach (FallHypothesis h in _hypotheses) h.Doubt(0.36);
        }
        (_steps, _surprise) = (0, 0);
    }

    /// <summary>The next anchor of a descent.</summary>
    /// <param name="anchor">The anchor.</param>
    /// <param name="began">When the descent began; null when the station did not see it.</param>
    public void Take(in Anchor anchor, Instant? began)
    {
        if (_last is not { } last || anchor.Utc.SecondsSince(last.Utc) is <= 0 or > 900)
        {
            Begin(anchor);
            return;
        }
        double seconds = anchor.Utc.SecondsSince(last.Utc);
        double rate = (last.HeightM - anchor.HeightM) / seconds;
        // After burst it first gains speed; that is over when the rate no longer grows, at most a minute and a half later.
        double since = began is { } b ? last.Utc.SecondsSince(b) : double.PositiveInfinity;
        if (!_steady && (since < 10 || (since < 90 && rate > (_lastRate ?? 0) * 1.005)))
        {
            _lastRate = rate;
            Begin(anchor);
            return;
        }
        _steady = true;
        // The payload lies on the ground before that is recognised: a quarter of the known rate is no fall.
        if (Measured && rate < 0.25 * Math.Exp(FallState.LnSpeed(_mean, Levels.Below(anchor.HeightM))))
        {
            Begin(anchor);
            return;
        }
        for (int i = 0; i < _hypotheses.Length; i++)
        {
            // Weights fade over some ten minutes, so that a canopy that turns unsteady is seen as such.
            _logWeights[i] = _logWeights[i] * 0.99 +
                _hypotheses[i].Fall(last.HeightM, anchor.HeightM, seconds, anchor.HeightVarianceM2);
        }
        Weigh();
        Watch();
        _steps++;
        _last = anchor;
    }

    /// <summary>Pressure and temperature measured by the payload at a height; once every 200 m is enough.</summary>
    public void Sound(Telemetry telemetry, double heightM)
    {
        if (Math.Abs(heightM - _sounded) < 200) return;
        int level = Levels.Below(heightM);
        Span<double> row = stackalloc double[FallState.Size];
        if (telemetry.OutsideC is { } celsius and > -100 and < 60)
        {
            _sounded = heightM;
            row.Clear();
            for (int k = 0; k < AirTables.KnotsM.Length; k++)
                row[FallState.Kelvin + k] = AirTables.Share(k, heightM);
            row[FallState.SensorKelvin] = 1;
            // 2 K: inversions and other structure finer than the knots.
            Measure(row, celsius + 273.15 - Levels.At(AirTables.TemperatureK.AsSpan(), heightM), 4);
        }
        if (telemetry.PressurePa is { } pascal and > 100)
        {
            _sounded = heightM;
            double f = Math.Clamp((heightM - Levels.HeightM(level)) / Levels.StepM, 0, 1);
            row.Clear();
            row[FallState.LnPressure] = 1;
            for (int k = 0; k < AirTables.KnotsM.Length; k++)
            {
                int at = level * AirTables.KnotsM.Length + k;
                row[FallState.Kelvin + k] = (1 - f) * AirTables.LnPressurePerKelvin[at] +
                    f * AirTables.LnPressurePerKelvin[at + AirTables.KnotsM.Length];
            }
            row[FallState.SensorHectopascal] = 100 / pascal;
            double noise = 0.003 + 30 / pascal;
            Measure(row, Math.Log(pascal) - Levels.At(AirTables.LnPressure.AsSpan(), heightM), noise * noise);
        }
    }

    /// <summary>Fills the square of the terminal speed at each of <see cref="Levels"/>, m²/s².</summary>
    public void FillSpeedSquared(Span<double> table)
    {
        double own = LnRate - _mean[FallState.LnRate];
        for (int level = 0; level < Levels.Count; level++)
            table[level] = Math.Exp(2 * (own + FallState.LnSpeed(_mean, level)));
    }

    private void Measure(ReadOnlySpan<double> row, double measured, double variance)
    {
        for (int i = 0; i < _hypotheses.Length; i++)
        {
            double expected = 0;
            for (int j = 0; j < row.Length; j++) expected += row[j] * _hypotheses[i].Mean[j];
            _hypotheses[i].Measure(row, measured - expected, variance);
        }
        Weigh();
    }

    private void Begin(in Anchor anchor)
    {
        foreach (FallHypothesis h in _hypotheses) h.Begin(anchor.HeightVarianceM2);
        _last = anchor;
    }

    /// <summary>
    /// Looks for a change of the canopy: surprises of one sign that add up. Under the model their fading sum has a
    /// standard deviation of 1.15 (fade 0.5), so that 5 is beyond any chance in a flight's some hundred anchors.
    /// </summary>
    private void Watch()
    {
        double innovation = 0;
        for (int i = 0; i < _hypotheses.Length; i++) innovation += _weights[i] * _hypotheses[i].Innovation;
        _surprise = 0.5 * _surprise + Math.Clamp(innovation, -4, 4);
        if (Math.Abs(_surprise) < 5) return;
        CanopyChanges++;
        _surprise = 0;
        foreach (FallHypothesis h in _hypotheses) h.Doubt(0.3 * 0.3);
        Weigh();
    }

    private void Weigh()
    {
        double most = _logWeights.Max(), sum = 0;
        for (int i = 0; i < _weights.Length; i++)
        {
            _logWeights[i] -= most;
            sum += _weights[i] = Math.Exp(_logWeights[i]);
        }
        Array.Clear(_mean);
        for (int i = 0; i < _weights.Length; i++)
        {
            _weights[i] /= sum;
            for (int j = 0; j < _mean.Length; j++) _mean[j] += _weights[i] * _hypotheses[i].Mean[j];
        }
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal DescentRate Copy()
    {
        var copy = (DescentRate)MemberwiseClone();
        copy._hypotheses = [.. _hypotheses.Select(h => h.Copy())];
        copy._logWeights = [.. _logWeights];
        copy._weights = [.. _weights];
        copy._mean = [.. _mean];
        return copy;
    }
}
