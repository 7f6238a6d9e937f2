using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Fixes;

/// <summary>
/// The receiver has stopped giving fixes where receivers of its kind do so by design, while it still sends sentences.
/// </summary>
/// <param name="LimitM">The limit, metres above mean sea level.</param>
/// <param name="FromPlan">True when the plan names that limit, false when it is one that many receivers have.</param>
/// <param name="LastHeight">Height of the last believed fix.</param>
/// <param name="Since">Arrival time of the first sentence without a fix.</param>
public sealed record AltitudeLimit(double LimitM, bool FromPlan, HeightMsl LastHeight, Instant Since);

/// <summary>
/// Recognises a receiver's altitude limit: the last believed height lay near one, and since then sentences say "no fix"
/// or repeat one altitude. The limits: 18 km (export rule; some makers take it as 60 000 ft = 18 288 m), 12 km
/// (receivers not set to an airborne model), 50 km (airborne models).
/// </summary>
internal sealed class AltitudeLimitWatch(FlightPlan plan)
{
    private const double LeastS = 2;
    private const int LeastSentences = 3;
    private const double MarginM = 400;
    private static readonly double[] Common = [12_000, 18_000, 18_288, 50_000];

    private HeightMsl? _height;
    private Instant _heard;
    private double _rateMps;
    private Instant? _since;
    private int _without;

    /// <summary>The limit that the receiver seems to have met; null when there is no sign of one.</summary>
    public AltitudeLimit? Suspected { get; private set; }

    /// <summary>
    /// Arrival time of the newest sentence or epoch without a usable fix: a sign that the tracker is alive all the same;
    /// null when a fix was believed after it.
    /// </summary>
    public Instant? NewestWithout { get; private set; }

    /// <summary>A fix was believed.</summary>
    public void Believed(Fix fix)
    {
        double span = fix.Heard.SecondsSince(_heard);
        if (_height is { } before && span > 0)
            _rateMps = (fix.Height!.Value.Metres - before.Metres) / span;
        (_height, _heard, _since, _without, Suspected) = (fix.Height, fix.Heard, null, 0, null);
        NewestWithout = null;
    }

    /// <summary>A sentence or an epoch came that says the receiver has no fix, or repeats an altitude.</summary>
    public void Without(Instant heard)
    {
        NewestWithout = heard;
        if (_height is not { } height)
            return;
        _since ??= heard;
        _without++;
        if (Suspected is not null || _without < LeastSentences || heard.SecondsSince(_since.Value) < LeastS)
            return;
        // In the dark between the last fix and the first "no fix" the flight has gone on climbing.
        double reached = height.Metres + Math.Clamp(_rateMps, 0, MotionLimits.ClimbMps)
            * Math.Clamp(_since.Value.SecondsSince(_heard), 0, 120);
        bool Near(double limit) => limit > height.Metres - MarginM && limit < reached + MarginM;
        if (plan.TrackerAltitudeLimit is { } named && Near(named.Metres))
            Suspected = new(named.Metres, true, height, _since.Value);
        else if (Array.Find(Common, Near) is var limit and > 0)
            Suspected = new(limit, false, height, _since.Value);
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public AltitudeLimitWatch Copy() => (AltitudeLimitWatch)MemberwiseClone();
}
