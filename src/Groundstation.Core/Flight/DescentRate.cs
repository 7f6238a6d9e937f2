using System.Collections.Immutable;
using Groundstation.Core.Air;
using Groundstation.Core.Fixes;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Flight;

/// <summary>
/// How fast the payload falls, as a posterior of its rate at sea level joined with the day's atmosphere: which
/// stretches of the descent tell it, what pressure and temperature add, and what the <see cref="FallHypotheses"/> say.
/// </summary>
public sealed class DescentRate
{
    private FallHypotheses _hypotheses;
    private LeakTrend _leak;
    private readonly double _planLn, _planSigma;
    private Anchor? _last;
    private double? _lastRate;
    private double _sounded = double.NaN;
    private bool _steady;
    private int _steps;

    /// <summary>Knows what the plan says.</summary>
    public DescentRate(FlightPlan plan)
    {
        _planLn = Math.Log(plan.CanopyDragAreaM2 is { } area
            ? Math.Sqrt(2 * plan.DescentMassKg * AtmosphereProfile.StandardGravity / (StandardAtmosphere.SeaLevelDensityKgM3 * area))
            : plan.DescentRateSeaLevelMps);
        _planSigma = plan.DescentRateLnSigma;
        // The filter starts wider than the plan: a tangled canopy falls at twice the rate.
        _hypotheses = new FallHypotheses(_planLn, Math.Max(_planSigma, 0.6));
        _leak = new LeakTrend(Math.Exp(_planLn));
    }

    /// <summary>True once the live rate has been measured in this descent.</summary>
    public bool Measured => _steps >= 3;

    /// <summary>How often the canopy was seen to change: partly opened, tangled or lost.</summary>
    public int CanopyChanges => _hypotheses.Changes;

    /// <summary>The newest of these; null when there was none in this descent.</summary>
    public CanopyChange? CanopyChanged { get; private set; }

    /// <summary>ln of the rate at sea level in the 1976 atmosphere, m/s.</summary>
    public double LnRate => Measured ? Mean[FallState.LnRate] : _planLn;

    /// <summary>Standard deviation of <see cref="LnRate"/>.</summary>
    public double LnSigma => Measured ? _hypotheses.LnSigma() : _planSigma;

    internal int Hypotheses => _hypotheses.Count;

    internal ReadOnlySpan<double> Weights => _hypotheses.Weights;

    internal ReadOnlySpan<double> Mean => _hypotheses.Mean;

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
        if (_steps > 0) _hypotheses.Forget();
        _leak.Restart();
        (_steps, CanopyChanged) = (0, null);
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
        if (Measured && rate < 0.25 * Math.Exp(FallState.LnSpeed(Mean, Levels.Below(anchor.HeightM))))
        {
            Begin(anchor);
            return;
        }
        _leak.Take(rate / StandardAtmosphere.Table.FallFactor((last.HeightM + anchor.HeightM) / 2), seconds);
        _hypotheses.Loosen(_leak.Loosened(seconds));
        int changes = CanopyChanges;
        _hypotheses.Fall(last.HeightM, anchor.HeightM, seconds, anchor.HeightVarianceM2);
        if (CanopyChanges > changes) CanopyChanged = new(anchor.Utc, Math.Exp(_hypotheses.LnRateBefore), Math.Exp(LnRate));
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
            _hypotheses.Measure(row, celsius + 273.15 - Levels.At(AirTables.TemperatureK.AsSpan(), heightM), 4);
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
            _hypotheses.Measure(row, Math.Log(pascal) - Levels.At(AirTables.LnPressure.AsSpan(), heightM), noise * noise);
        }
    }

    /// <summary>
    /// Fills the square of the terminal speed at each of <see cref="Levels"/>, m²/s², for a fall from a height. A balloon that
    /// still carries lets go on the way: gives the standard deviation that this adds to ln(rate), half of the way between
    /// going on as now and as foretold, for what is foretold of a leak is hardly more than its kind.
    /// </summary>
    public double FillSpeedSquared(Span<double> table, double fromM)
    {
        double own = LnRate - Mean[FallState.LnRate];
        for (int level = 0; level < Levels.Count; level++)
            table[level] = Math.Exp(2 * (own + FallState.LnSpeed(Mean, level)));
        if (!Measured || !_leak.Holds) return 0;
        double time = 0, constant = 0, now = _leak.RateMps;
        for (int level = Levels.Below(fromM); level >= 0; level--)
        {
            double steady = Math.Sqrt(table[level]), faster = _leak.RateIn(time) / now;
            table[level] *= faster * faster;
            time += Levels.StepM / (steady * faster);
            constant += Levels.StepM / steady;
        }
        return 0.5 * Math.Log(constant / time);
    }

    private void Begin(in Anchor anchor)
    {
        _hypotheses.Begin(anchor.HeightVarianceM2);
        _last = anchor;
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal DescentRate Copy()
    {
        var copy = (DescentRate)MemberwiseClone();
        copy._hypotheses = _hypotheses.Copy();
        copy._leak = _leak.Copy();
        return copy;
    }
}
