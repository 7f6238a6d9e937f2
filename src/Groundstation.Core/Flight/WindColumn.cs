using System.Collections.Immutable;
using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Flight;

/// <summary>
/// The wind by height as far as the payload's drift tells it: a Gaussian process over <see cref="WindNodes"/>, measured
/// between anchors, ageing by a random walk. How fast winds change, and over which heights together, differs from day
/// to day: ten suppositions run side by side and are weighed by how well they foretold the drift in layers met again.
/// Size does not grow with the flight.
/// </summary>
public sealed partial class WindColumn
{
    /// <summary>
    /// Changes of one component over three hours, m/s, with weights before anything is seen: a vector change of 2 m/s
    /// is the usual figure for the free troposphere; quiet and changeable days lie a factor of two and more away. Steps
    /// of 1.7 so that the right one is never missed by more than a third, which coverage would show.
    /// </summary>
    private static readonly ImmutableArray<(double Mps, double Weight)> Changes =
        [(0.7, 0.15), (1.2, 0.32), (2, 0.36), (3.4, 0.14), (6, 0.03)];

    private static readonly ImmutableArray<double> LengthWeights = [0.5, 0.5];

    private static readonly ImmutableArray<ChangeLaw> Laws = [ChangeLaw.Walk, ChangeLaw.Trend];

    private static readonly ImmutableArray<double> LawWeights = [0.6, 0.4];

    /// <summary>Gusts aloft, m/s a component: a quiet day and a lively one.</summary>
    private static readonly ImmutableArray<(double Mps, double Weight)> Gusts = [(0.5, 0.6), (1.1, 0.4)];

    /// <summary>Strength of the winds as a multiple of the climatology: a calm season and a stormy one.</summary>
    private static readonly ImmutableArray<(double Share, double Weight)> Strengths = [(0.65, 0.5), (1.3, 0.5)];

    /// <summary>How long a gust lasts, s.</summary>
    private const double GustS = 10;

    /// <summary>
    /// Share of a likelihood that counts: no supposition is quite true, and neighbouring drifts miss in the same way.
    /// </summary>
    private const double Trust = 0.7;

    /// <summary>
    /// Drift is measured over at least this, s: noise and swing weigh 0.1 m/s then and not 0.4, which would pass for gusts.
    /// </summary>
    private const double LegS = 20;

    /// <summary>
    /// Longer than this between anchors, the way between them is no longer known well enough to be used.
    /// </summary>
    private const double LongestGapS = 600;

    private WindHypothesis[] _hypotheses;
    private double[] _logWeights;
    private double[] _weights;
    private Instant?[] _measured = new Instant?[WindNodes.Count];
    private WindBasis[] _basis = new WindBasis[WindNodes.Count];
    private NodeWeights _path = new();
    private double[] _mean = new double[2 * WindNodes.Count];
    private readonly bool _forecast;
    private Anchor? _last;
    private int _layer = -1;
    private Instant _aged;
    private double[] _told;
    private readonly int _others;
    private double[] _ages = new double[WindNodes.Count];
    private double[] _averageCovariance = new double[WindNodes.Count * WindNodes.Count];
    private double[] _averageChange = new double[WindNodes.Count * WindNodes.Count];
    private bool _meanFresh, _averageFresh;

    /// <summary>A column that knows the plan's forecast, or only climatology.</summary>
    public WindColumn(FlightPlan plan)
    {
        _plan = plan;
        _forecast = !plan.Forecast.IsDefaultOrEmpty;
        bool foretold = _forecast || !plan.Winds.IsDefaultOrEmpty;
        double[][] priors = [.. Strengths.Select(s => _forecast ? WindKernels.Forecast()
            : WindKernels.Climatology(s.Share))];
        var all = (from change in Changes
                   from length in Enumerable.Range(0, LengthWeights.Length)
                   from law in Enumerable.Range(0, Laws.Length)
                   from gust in Gusts
                   from strength in Enumerable.Range(0, foretold ? 1 : Strengths.Length)
                   select (Habit: new WindHabit(change.Mps, length, Laws[law], gust.Mps), Prior: priors[strength],
                       Weight: change.Weight * LengthWeights[length] * LawWeights[law] * gust.Weight *
                           Strengths[strength].Weight)).ToArray();
        _hypotheses = [.. all.Select(static one => new WindHypothesis(one.Habit, one.Prior))];
        _logWeights = [.. all.Select(static one => Math.Log(one.Weight))];
        _weights = new double[all.Length];
        _told = new double[all.Length];
        _others = foretold ? all.Length : all.Length / Strengths.Length;
        Array.Fill(_basis, _forecast ? WindBasis.Forecast : WindBasis.Neighbours);
        if (_forecast) FillForecast(plan.Forecast);
        Weigh();
    }

    /// <summary>Called with each layer that the payload has left, for the log.</summary>
    public Action<Instant, WindLayer>? LayerDone { get; set; }

    /// <summary>Wind of the newest drift measured; null before there is one.</summary>
    public WindVector? LastWind { get; private set; }

    /// <summary>How many suppositions run side by side.</summary>
    internal int Hypotheses => _hypotheses.Length;

    internal ReadOnlySpan<double> Weights => _weights;

    internal WindHypothesis this[int hypothesis] => _hypotheses[hypothesis];

    /// <summary>
    /// The next anchor. Drift between it and the one before is measured, unless the gap is long or the phase changed in
    /// a gap, when the way between is not known.
    /// </summary>
    /// <param name="anchor">The anchor.</param>
    /// <param name="phase">The phase that the way to it belongs to.</param>
    /// <param name="ends">The phase ends with it.</param>
    public void Take(in Anchor anchor, Phase phase, bool ends)
    {
        if (_last is not { } last || anchor.Utc.SecondsSince(last.Utc) is <= 0 or > LongestGapS)
        {
            if (_last is { } before && anchor.Utc.CompareTo(before.Utc) <= 0) return;
            Begin(anchor);
            return;
        }
        double seconds = anchor.Utc.SecondsSince(last.Utc);
        if (seconds < LegS && !ends) return;
        FillAges(last.Utc);
        (double east, double north) = LocalFrame.Between(last.Position, anchor.Position,
            (last.HeightM + anchor.HeightM) / 2);
        FillPath(last.HeightM, anchor.HeightM, seconds, phase);
        // Over a gap the share of time in each layer is only known to a tenth or so.
        double unsure = seconds > 60 ? 0.1 * Math.Sqrt(east * east + north * north) : 0;
        double gust = 2 * GustS * (seconds - GustS * (1 - Math.Exp(-seconds / GustS)));
        for (int i = 0; i < _hypotheses.Length; i++)
        {
            double mps = _hypotheses[i].Habit.GustMps;
            _told[i] = Trust * _hypotheses[i].Drift(_path, _ages, seconds, east, north,
                mps * mps * gust + unsure * unsure, anchor.PositionVarianceM2);
        }
        // The way up meets each layer for the first time: that tells how strong the winds are, and nothing of change.
        if (phase is not (Phase.Descent or Phase.Float)) TellStrengthOnly();
        for (int i = 0; i < _hypotheses.Length; i++) _logWeights[i] += _told[i];
        Weigh();
        Note(anchor, phase);
        if (seconds < 120) LastWind = Smooth(new WindVector(east / seconds, north / seconds), seconds);
        _last = anchor;
        _aged = anchor.Utc;
        FillAges(_aged);
    }

    /// <summary>The phase ended: the layer that the payload is in is done.</summary>
    public void Finish(Instant utc)
    {
        if (_layer >= 0 && _measured[_layer] is not null) LayerDone?.Invoke(utc, Layer(_layer));
        _layer = -1;
    }

    /// <summary>Mean wind at a height, linear between nodes.</summary>
    public WindVector At(double heightM)
    {
        ReadOnlySpan<double> mean = Mean();
        (int i, double f) = WindNodes.Locate(heightM);
        int n = WindNodes.Count;
        return new(mean[i] + f * (mean[i + 1] - mean[i]), mean[n + i] + f * (mean[n + i + 1] - mean[n + i]));
    }

    /// <summary>Mean wind at each of <see cref="Levels"/>.</summary>
    public void FillLevels(Span<double> east, Span<double> north)
    {
        for (int level = 0; level < Levels.Count; level++)
            (east[level], north[level]) = At(Levels.HeightM(level)) is var w ? (w.EastMps, w.NorthMps) : default;
    }

    /// <summary>All layers, lowest first.</summary>
    public ImmutableArray<WindLayer> Layers()
    {
        ImmutableArray<WindLayer>.Builder layers = ImmutableArray.CreateBuilder<WindLayer>(WindNodes.Count);
        for (int i = 0; i < WindNodes.Count; i++) layers.Add(Layer(i));
        return layers.MoveToImmutable();
    }

    private void Average()
    {
        if (_averageFresh) return;
        Array.Clear(_averageCovariance);
        Array.Clear(_averageChange);
        for (int h = 0; h < _hypotheses.Length; h++)
        {
            Rows.Add(_averageCovariance, _weights[h], _hypotheses[h].Covariance);
            WindHabit habit = _hypotheses[h].Habit;
            Rows.Add(_averageChange, _weights[h] * habit.ChangeMps * habit.ChangeMps, WindKernels.Change[habit.Length]);
        }
        _averageFresh = true;
    }

    private WindLayer Layer(int node)
    {
        ReadOnlySpan<double> mean = Mean();
        int n = WindNodes.Count;
        double variance = 0;
        for (int h = 0; h < _hypotheses.Length; h++)
        {
            double east = _hypotheses[h].East[node] - mean[node], north = _hypotheses[h].North[node] - mean[n + node];
            variance += _weights[h] * (_hypotheses[h].Covariance[node * n + node] + (east * east + north * north) / 2);
        }
        return new WindLayer(new HeightMsl(WindNodes.LayerBottomM(node)), new HeightMsl(WindNodes.LayerTopM(node)),
            new WindVector(mean[node], mean[n + node]), Math.Sqrt(Math.Max(variance, 0)), _measured[node],
            _basis[node]);
    }

    private ReadOnlySpan<double> Mean()
    {
        if (_meanFresh) return _mean;
        int n = WindNodes.Count;
        Array.Clear(_mean);
        for (int h = 0; h < _hypotheses.Length; h++)
        {
            Rows.Add(_mean.AsSpan(0, n), _weights[h], _hypotheses[h].East);
            Rows.Add(_mean.AsSpan(n, n), _weights[h], _hypotheses[h].North);
        }
        _meanFresh = true;
        return _mean;
    }

    private void Begin(in Anchor anchor)
    {
        FillAges(_aged);
        foreach (WindHypothesis h in _hypotheses)
        {
            if (_last is not null) h.Age(_ages, Math.Max(anchor.Utc.SecondsSince(_aged), 0));
            h.Begin(anchor.PositionVarianceM2);
        }
        _averageFresh = false;
        _last = anchor;
        _aged = anchor.Utc;
    }

    private void TellStrengthOnly()
    {
        int strengths = _told.Length / _others;
        for (int s = 0; s < strengths; s++)
        {
            double sum = 0, weight = 0;
            for (int i = s; i < _told.Length; i += strengths) sum += _weights[i] * Math.Exp(_told[i] - _told[s]);
            for (int i = s; i < _told.Length; i += strengths) weight += _weights[i];
            double mean = _told[s] + Math.Log(sum / weight);
            for (int i = s; i < _told.Length; i += strengths) _told[i] = mean;
        }
    }

    // A node that was never measured has no age: what is known of it beforehand does not grow old.
    private void FillAges(Instant utc)
    {
        for (int i = 0; i < _ages.Length; i++)
            _ages[i] = _measured[i] is { } when ? Math.Max(utc.SecondsSince(when), 0) : 0;
    }

    private void FillPath(double fromM, double toM, double seconds, Phase phase)
    {
        _path.Clear();
        int parts = Math.Max(1, (int)Math.Ceiling(Math.Abs(toM - fromM) / Levels.StepM));
        double step = (toM - fromM) / parts;
        // A fall slows by the square root of density, which falls by 1/e in about 7 km: more time is spent lower down.
        double scale = phase == Phase.Descent ? 14_000 : double.PositiveInfinity, sum = 0;
        for (int i = 0; i < parts; i++) sum += Math.Exp(-(i + 0.5) * step / scale);
        for (int i = 0; i < parts; i++)
            _path.Add(fromM + (i + 0.5) * step, seconds * Math.Exp(-(i + 0.5) * step / scale) / sum);
    }

    private void Note(in Anchor anchor, Phase phase)
    {
        WindBasis basis = phase switch
        {
            Phase.Descent => WindBasis.Descent,
            Phase.Float => WindBasis.Float,
            _ => WindBasis.Ascent,
        };
        for (int i = _path.First; i <= _path.Last; i++)
        {
            double z = WindNodes.HeightsM[i];
            // The outermost nodes count as measured only when the payload came to within half a layer of them.
            if (z < Math.Min(WindNodes.HeightsM[_path.First + 1], anchor.HeightM) &&
                _path.Seconds[i] < 0.5 * _path.Seconds[i + 1] && _measured[i] is null)
            {
                continue;
            }
            _measured[i] = anchor.Utc;
            _basis[i] = basis;
        }
        (int node, double upper) = WindNodes.Locate(anchor.HeightM);
        if (upper > 0.5) node++;
        if (node != _layer && _layer >= 0) Finish(anchor.Utc);
        _layer = node;
    }

    private void Weigh()
    {
        double most = _logWeights.Max(), sum = 0;
        for (int i = 0; i < _weights.Length; i++)
        {
            _logWeights[i] -= most;
            sum += _weights[i] = Math.Exp(_logWeights[i]);
        }
        for (int i = 0; i < _weights.Length; i++) _weights[i] /= sum;
        (_meanFresh, _averageFresh) = (false, false);
    }

    /// <summary>
    /// The newest wind over about 30 s, which is what a plain estimate would take for "the wind now".
    /// </summary>
    private WindVector Smooth(WindVector now, double seconds)
    {
        if (LastWind is not { } old) return now;
        double share = 1 - Math.Exp(-seconds / 30);
        return new(old.EastMps + share * (now.EastMps - old.EastMps),
            old.NorthMps + share * (now.NorthMps - old.NorthMps));
    }

    private void FillForecast(ImmutableArray<ForecastLevel> forecast)
    {
        ForecastLevel[] levels = [.. forecast.OrderBy(static l => l.Height.Metres)];
        for (int i = 0, k = 0; i < WindNodes.Count; i++)
        {
            double z = WindNodes.HeightsM[i];
            while (k < levels.Length - 2 && levels[k + 1].Height.Metres <= z) k++;
            ForecastLevel low = levels[k], high = levels[Math.Min(k + 1, levels.Length - 1)];
            double span = high.Height.Metres - low.Height.Metres;
            double f = span > 0 ? Math.Clamp((z - low.Height.Metres) / span, 0, 1) : 0;
            foreach (WindHypothesis h in _hypotheses)
            {
                h.East[i] = low.Wind.EastMps + f * (high.Wind.EastMps - low.Wind.EastMps);
                h.North[i] = low.Wind.NorthMps + f * (high.Wind.NorthMps - low.Wind.NorthMps);
            }
        }
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal WindColumn Copy()
    {
        var copy = (WindColumn)MemberwiseClone();
        copy._hypotheses = [.. _hypotheses.Select(h => h.Copy())];
        copy._logWeights = [.. _logWeights];
        copy._weights = [.. _weights];
        copy._measured = [.. _measured];
        copy._basis = [.. _basis];
        copy._path = _path.Copy();
        copy._mean = [.. _mean];
        copy._told = [.. _told];
        copy._ages = [.. _ages];
        copy._averageCovariance = [.. _averageCovariance];
        copy._averageChange = [.. _averageChange];
        copy.LayerDone = null;
        return copy;
    }
}
