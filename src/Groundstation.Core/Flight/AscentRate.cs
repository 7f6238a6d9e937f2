using Groundstation.Core.Plan;

namespace Groundstation.Core.Flight;

/// <summary>
/// How fast the payload climbs: a local level that walks, from anchors. Real ascents keep their rate to a tenth over
/// some kilometres and drift by a fifth or two over the whole flight (rates of soundings over ten minutes: 4.3 to 6.2).
/// </summary>
public sealed class AscentRate
{
    /// <summary>Up- and downdraughts, m/s, which pass in about a minute: anchors a few seconds apart see the same one.</summary>
    private const double DraughtMps = 0.7, DraughtS = 60;

    /// <summary>Walk of the rate, m/s over ten minutes.</summary>
    private const double WalkMps = 0.4;

    private Anchor? _last;
    private double _variance;

    /// <summary>Knows the plan's mean rate, and how sure that is.</summary>
    public AscentRate(FlightPlan plan)
    {
        Mps = FlightTimes.MeanAscentMps(plan);
        _variance = plan.AscentRateLnSigma * plan.AscentRateLnSigma * Mps * Mps;
    }

    /// <summary>Rate now, m/s.</summary>
    public double Mps { get; private set; }

    /// <summary>
    /// Standard deviation of the logarithm of the mean rate over a climb still to come, of this length in metres: that of
    /// the rate now, and what rates drift by over heights (1.2 % for every root kilometre).
    /// </summary>
    public double LnSigma(double climbM) =>
        Math.Sqrt(_variance / (Mps * Mps) + 0.012 * 0.012 * Math.Max(climbM, 0) / 1000 * 4);

    /// <summary>The payload is not climbing.</summary>
    public void Pause() => _last = null;

    /// <summary>The next anchor of an ascent.</summary>
    public void Take(in Anchor anchor)
    {
        if (_last is { } last && anchor.Utc.SecondsSince(last.Utc) is > 0 and < 1800 and var seconds)
        {
            double rate = (anchor.HeightM - last.HeightM) / seconds;
            double height = (anchor.HeightVarianceM2 + last.HeightVarianceM2) / (seconds * seconds);
            // A draught seen by n anchors is one piece of news, not n.
            double draught = DraughtMps * DraughtMps * Math.Max(1, 2 * DraughtS / seconds);
            _variance += WalkMps * WalkMps * seconds / 600;
            double gain = _variance / (_variance + height + draught);
            Mps = Math.Max(0.5, Mps + gain * Math.Clamp(rate - Mps, -3, 3));
            _variance *= 1 - gain;
        }
        _last = anchor;
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal AscentRate Copy() => (AscentRate)MemberwiseClone();
}
