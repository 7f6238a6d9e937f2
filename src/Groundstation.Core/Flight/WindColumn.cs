using System.Collections.Immutable;
using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Flight;

/// <summary>
/// The wind by height as far as the payload's drift tells it: a Gaussian process over <see cref="WindNodes"/>, measured
/// between anchors, ageing. How much winds change, by which law, and over which heights together, differs from day to
/// day: <see cref="WindSuppositions"/> run side by side and are weighed by how well they foretold the drift in layers
/// met again. Size does not grow with the flight.
/// </summary>
public sealed partial class WindColumn
{
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

    /// <summary>Longer than this between anchors, the way between them is no longer known well enough to be used.</summary>
    private const double LongestGapS = 600;

    private ImmutableArray<WindSupposition> _suppositions;
    private int[] _filterOf;
    private WindHypothesis[] _filters;
    private double[] _logWeights;
    private double[] _weights, _filterWeights;
    private double[] _told;
    // Until a layer is met again nothing is told of change: the filters differ in gusts and season only, and what change
    // there may have been is reckoned from the ages. Four then do the work of eighty.
    private bool _unfolded;
    private Instant?[] _measured = new Instant?[WindNodes.Count];
    private double[] _ages = new double[WindNodes.Count];
    private WindBasis[] _basis = new WindBasis[WindNodes.Count];
    private NodeWeights _path = new();
    private double[] _mean = new double[2 * WindNodes.Count];
    private double[] _averageCovariance = [], _averageChange = [];
    private bool _meanFresh, _averageFresh;
    private Anchor? _last;
    private int _layer = -1;
    private Instant? _aged;

    /// <summary>A column that knows the plan's forecast, or only climatology.</summary>
    public WindColumn(FlightPlan plan)
    {
        _plan = plan;
        // A forecast knows how strong the winds are.
        ImmutableArray<double[]> priors =
            plan.Winds.IsDefaultOrEmpty ? WindSuppositions.Priors() : [WindKernels.Climatology(1)];
        _suppositions = WindSuppositions.All(priors.Length);
        (double GustMps, int Season)[] kinds = [.. _suppositions.Select(s => (s.Habit.GustMps, s.Season)).Distinct()];
        _filters = [.. kinds.Select(k => new WindHypothesis(new(0, 0, ChangeLaw.Walk, k.GustMps), priors[k.Season]))];
        _filterOf = [.. _suppositions.Select(s => Array.IndexOf(kinds, (s.Habit.GustMps, s.Season)))];
        _logWeights = [.. _suppositions.Select(s => Math.Log(s.Weight))];
        _weights = new double[_suppositions.Length];
        _filterWeights = new double[_filters.Length];
        _told = new double[_filters.Length];
        Array.Fill(_basis, WindBasis.Neighbours);
        Weigh();
    }

    /// <summary>Called with each layer that the payload has left, for the log.</summary>
    public Action<Instant, WindLayer>? LayerDone { get; set; }

    /// <summary>Wind of the newest drift measured; null before there is one.</summary>
    public WindVector? LastWind { get; private set; }

    /// <summary>How many suppositions run side by side.</summary>
    internal int Hypotheses => _suppositions.Length;

    internal ReadOnlySpan<double> Weights => _weights;

    internal WindHabit Habit(int hypothesis) => _suppositions[hypothesis].Habit;

    /// <summary>
    /// The next anchor. Drift between it and the one before is measured, unless the gap is long or the phase changed in
    /// a gap, when the way between is not known.
    /// </summary>
    /// <param name="anchor">The anchor.</param>
    /// <param name="phase">The phase that the way to it belongs to.</param>
    /// <param name="ends">The phase ends with it.</param>
    /// <returns>True when it told something; drift is measured over legs of several anchors.</returns>
    public bool Take(in Anchor anchor, Phase phase, bool ends)
    {
        if (_last is not { } last || anchor.Utc.SecondsSince(last.Utc) is <= 0 or > LongestGapS)
        {
            if (_last is { } before && anchor.Utc.CompareTo(before.Utc) <= 0) return false;
            Begin(anchor);
            return true;
        }
        double seconds = anchor.Utc.SecondsSince(last.Utc);
        if (seconds < LegS && !ends) return false;
        FillAges(last.Utc);
        (double east, double north) = LocalFrame.Between(last.Position, anchor.Position,
            (last.HeightM + anchor.HeightM) / 2);
        FillPath(last.HeightM, anchor.HeightM, seconds, phase);
        // Over a gap the share of time in each layer is only known to a tenth or so.
        double unsure = seconds > 60 ? 0.1 * Math.Sqrt(east * east + north * north) : 0;
        double gust = 2 * GustS * (seconds - GustS * (1 - Math.Exp(-seconds / GustS)));
        // The way up meets each layer for the first time: that tells how strong the winds are, and nothing of change.
        bool telling = phase is Phase.Descent or Phase.Float;
        if (telling && !_unfolded) Unfold();
        for (int f = 0; f < _filters.Length; f++)
        {
            double mps = _filters[f].Habit.GustMps;
            _told[f] = Trust * _filters[f].Drift(_path, _ages, seconds, east, north, mps * mps * gust + unsure * unsure,
                anchor.PositionVarianceM2);
        }
        if (!telling) TellSeasonOnly();
        for (int i = 0; i < _logWeights.Length; i++) _logWeights[i] += _told[_filterOf[i]];
        Weigh();
        Prune();
        Note(anchor, phase);
        if (seconds < 120) LastWind = Smooth(new WindVector(east / seconds, north / seconds), seconds);
        _last = anchor;
        _aged = anchor.Utc;
        FillAges(anchor.Utc);
        return true;
    }

    /// <summary>From the newest anchor to the next there is no drift: the receiver itself has jumped.</summary>
    public void BreakOff() => _last = null;

    /// <summary>The phase ended: its last layer is done.</summary>
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

    private WindLayer Layer(int node)
    {
        ReadOnlySpan<double> mean = Mean();
        int n = WindNodes.Count;
        double variance = 0;
        for (int f = 0; f < _filters.Length; f++)
        {
            double east = _filters[f].East[node] - mean[node], north = _filters[f].North[node] - mean[n + node];
            variance += _filterWeights[f] * (_filters[f].Covariance[node * n + node] + (east * east + north * north) / 2);
        }
        for (int i = 0; i < _suppositions.Length && !_unfolded; i++)
            variance += _weights[i] * _suppositions[i].Habit.Change(0, _ages[node]);
        return new WindLayer(new HeightMsl(WindNodes.LayerBottomM(node)), new HeightMsl(WindNodes.LayerTopM(node)),
            new WindVector(mean[node], mean[n + node]), Math.Sqrt(Math.Max(variance, 0)), _measured[node],
            _basis[node]);
    }

    private void Begin(in Anchor anchor)
    {
        FillAges(_aged ?? anchor.Utc);
        foreach (WindHypothesis h in _filters)
        {
            if (_unfolded && _aged is { } aged) h.Age(_ages, Math.Max(anchor.Utc.SecondsSince(aged), 0));
            h.Begin(anchor.PositionVarianceM2);
        }
        _averageFresh = false;
        _last = anchor;
        _aged = anchor.Utc;
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
}
