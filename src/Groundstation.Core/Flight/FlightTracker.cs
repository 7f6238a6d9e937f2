using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Flight;

/// <summary>
/// Follows the flight through believed fixes: phase, rates, the wind column and the day's air. Size does not grow with
/// the flight.
/// </summary>
public sealed class FlightTracker
{
    private readonly FlightPlan _plan;
    private PhaseRecognition _phase = new();
    private AnchorMaker _anchors = new();
    private Telemetry _telemetry = Telemetry.None;
    private Fix? _newest;

    /// <summary>A flight of which nothing has been heard.</summary>
    public FlightTracker(FlightPlan plan)
    {
        _plan = plan;
        Winds = new WindColumn(plan);
        Descent = new DescentRate(plan);
        Ascent = new AscentRate(plan);
    }

    /// <summary>
    /// The wind by height. Set its <see cref="WindColumn.LayerDone"/> for the rows of <c>winds.csv</c>.
    /// </summary>
    public WindColumn Winds { get; private set; }

    /// <summary>The fall.</summary>
    public DescentRate Descent { get; private set; }

    /// <summary>The climb.</summary>
    public AscentRate Ascent { get; private set; }

    /// <summary>Phase by the fixes.</summary>
    public Phase Phase => _phase.Phase;

    /// <summary>Newest believed fix.</summary>
    public Fix? Newest => _newest;

    /// <summary>Smoothed vertical rate, m/s, up positive.</summary>
    public double? VerticalRateMps => _phase.RateMps;

    /// <summary>Mean of the standing fixes after the flight; null until landed.</summary>
    public Waypoint? Landed { get; private set; }

    /// <summary>
    /// Grows when something is learnt that changes the spread of what is to come: with each leg of drift, in the fall with
    /// each anchor; not with each fix.
    /// </summary>
    public int Revision { get; private set; }

    /// <summary>Greatest height of a believed fix so far, metres above mean sea level; −∞ before the first.</summary>
    public double HighestM => _phase.Highest?.Height.Metres ?? double.NegativeInfinity;

    /// <summary>The launch ground: measured on the pad, else the launch, else null.</summary>
    public Waypoint? PadPlace => (_phase.Pad ?? _phase.Launch) is { } seen && seen.Height.Metres < HighestPadM
        ? seen : PlanPad();

    // Higher than any place that teams launch from: a station switched on in flight takes the air for its pad until the
    // climb is recognised.
    private const double HighestPadM = 4500;

    /// <summary>
    /// Downward speed with which the fall goes on, m/s; null when it falls steadily. In the first minute and a half
    /// after burst it still gains speed.
    /// </summary>
    public double? StartOfFallMps => Phase == Phase.Descent && _phase.Burst is { } b && _newest is { } n
        && n.Utc.SecondsSince(b.Utc) < 90 && VerticalRateMps is { } rate ? Math.Max(0, -rate) : null;

    /// <summary>Distance of a place from the launch ground, m; 0 when that is not known.</summary>
    public double DistanceFromPadM(GeoPoint place)
    {
        if (PadPlace is not { } pad) return 0;
        (double east, double north) = LocalFrame.Between(pad.Position, place, 0);
        return Math.Sqrt(east * east + north * north);
    }

    /// <summary>How long it has floated at the newest fix, s; 0 when it does not float.</summary>
    public double FloatingS => _floatSince is { } since && _newest is { } n ? n.Utc.SecondsSince(since) : 0;

    private int _landedCount;
    private Instant? _floatSince;

    /// <summary>Takes a believed fix; refused ones must not come here. Fixes out of order are left out.</summary>
    public void Fix(Fix fix)
    {
        if (fix.Position is null || fix.Height is null) return;
        if (_newest is { } last && fix.Utc.CompareTo(last.Utc) <= 0) return;
        Phase before = _phase.Phase;
        if (fix.StartsAnew) BreakOff(fix);
        _newest = fix;
        if (Winds.Expect(fix.Utc)) Revision++;
        bool changed = _phase.Take(fix);
        Anchor? done = _anchors.Take(fix);
        if (done is { } anchor && before is not (Phase.Pad or Phase.Landed)) Measure(anchor, before, changed);
        if (changed) Change(before);
        if (Phase == Phase.Landed) Stand(fix);
    }

    /// <summary>Takes the payload's newest measurements.</summary>
    public void Sound(Telemetry telemetry)
    {
        _telemetry = telemetry;
        // Measurements heard long after the last fix belong to no known height.
        if (_newest is { Height: { } height } newest && Phase is Phase.Ascent or Phase.Float or Phase.Descent &&
            telemetry.Heard is { } heard && Math.Abs(heard.SecondsSince(newest.Heard)) < 10)
        {
            Descent.Sound(telemetry, height.Metres);
        }
    }

    /// <summary>What is known of the flight, for screens and alarms.</summary>
    public FlightState State() => new()
    {
        Phase = Phase,
        VerticalRateMps = VerticalRateMps,
        Pad = _phase.Pad ?? PlanPad(),
        Launch = _phase.Launch,
        Highest = _phase.Highest,
        Burst = _phase.Burst,
        BurstHeard = _phase.BurstHeard,
        Landed = Landed,
        Newest = _newest,
        DescentRateSeaLevelMps = Math.Exp(Descent.LnRate),
        DescentRateLnSigma = Descent.LnSigma,
        DescentRateMeasured = Descent.Measured,
        CanopyChanged = Descent.CanopyChanged,
    };

    // The receiver was somewhere else than it said, now or before: nothing is measured across the step.
    private void BreakOff(Fix fix)
    {
        if (_anchors.Flush() is { } anchor && Phase is not (Phase.Pad or Phase.Landed)) Measure(anchor, Phase, true);
        Winds.BreakOff();
        Ascent.Pause();
        Descent.Pause();
        _phase.BreakOff(fix);
        (Landed, _landedCount) = (null, 0);
    }

    private void Measure(in Anchor anchor, Phase phase, bool ends)
    {
        // On the way up an anchor alone tells too little for a new spread.
        if (Winds.Take(anchor, phase, ends) || phase == Phase.Descent) Revision++;
        if (phase == Phase.Ascent) Ascent.Take(anchor);
        if (phase == Phase.Descent) Descent.Take(anchor, _phase.Burst?.Utc);
    }

    private void Change(Phase before)
    {
        Revision++;
        // A float is recognised when the last two minutes were level.
        _floatSince = Phase == Phase.Float ? _newest!.Utc.PlusSeconds(-110) : null;
        if (_anchors.Flush() is { } anchor && before is not (Phase.Pad or Phase.Landed)) Measure(anchor, before, true);
        if (before == Phase.Ascent) Ascent.Pause();
        if (before == Phase.Descent) Descent.Pause();
        if (Phase == Phase.Descent) Descent.Restart();
        if (Phase == Phase.Landed)
        {
            Winds.Finish(_newest!.Utc);
            (Landed, _landedCount) = (null, 0);
        }
        if (before == Phase.Landed) Landed = null;
    }

    private void Stand(Fix fix)
    {
        GeoPoint place = fix.Position!.Value;
        if (Landed is not { } at)
        {
            (Landed, _landedCount) = (new Waypoint(fix.Utc, place, fix.Height!.Value), 1);
            return;
        }
        // Carried away: the landing place stays where it was.
        (double east, double north) = LocalFrame.Between(at.Position, place, 0);
        if (east * east + north * north > 100 * 100) return;
        _landedCount = Math.Min(_landedCount + 1, 600);
        double share = 1.0 / _landedCount;
        Landed = new Waypoint(at.Utc, LocalFrame.Move(at.Position, east * share, north * share, 0),
            new HeightMsl(at.Height.Metres + share * (fix.Height!.Value.Metres - at.Height.Metres)));
    }

    private Waypoint? PlanPad() =>
        _plan.LaunchSite is { } site && _newest is null
            ? new Waypoint(default, site, _plan.LaunchHeight ?? new HeightMsl(0)) : null;

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal FlightTracker Copy()
    {
        var copy = (FlightTracker)MemberwiseClone();
        copy._phase = _phase.Copy();
        copy._anchors = _anchors.Copy();
        copy.Winds = Winds.Copy();
        copy.Descent = Descent.Copy();
        copy.Ascent = Ascent.Copy();
        return copy;
    }
}
