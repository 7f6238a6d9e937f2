using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Chase;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Core;

/// <summary>
/// The whole way on one page: bytes → sentences → fixes → flight → landing → alarms → callouts → snapshot.
/// A synchronous state machine over recorded events; each event carries its arrival time, which never decreases.
/// The same events in the same order give the same rows and snapshots to the byte, live or replayed.
/// </summary>
public sealed partial class Station
{
    // In silence a row every 10 s shows how the area grows; once it must have landed, one a minute is enough.
    private const double SilentRowS = 10;
    private const double LongSilentRowS = 60;

    /// <summary>
    /// A log that jumps by months must not be ticked through second by second: past this gap time skips.
    /// </summary>
    public static readonly TimeSpan LongestTicking = TimeSpan.FromHours(6);

    // No radio holds a fix back for so long: a jump of station time beyond it is a wrong clock or date put right.
    private static readonly TimeSpan LeastPutRight = TimeSpan.FromMinutes(30);

    private readonly FlightPlan _plan;
    private IFlightLog _log;
    private StationClock _clock = new();
    private List<SourceFixes> _sources = [];
    private SourceJoiner _epochs;
    private readonly Func<GeoPoint, double?>? _terrain;
    private FlightTracker _flight;
    private LandingEstimator _estimator;
    private AlarmBoard _alarms = new(AlarmRules.All);
    private KeepOutWatch _keepOuts;
    private AscentTrend _ascent;
    private HostOffset _hostOffset;
    private CalloutDesk _callouts;
    private LandingEstimate? _landing;
    private ChaseTracker _chaseWay;
    private Waypoint? _chase;
    private Instant? _chaseHeard;

    /// <summary>A station at the start of a flight.</summary>
    /// <param name="plan">The plan in force.</param>
    /// <param name="log">Takes the rows of the flight folder.</param>
    /// <param name="terrain">
    /// Height of the ground at a place, metres above mean sea level, null where not known: a function of its argument
    /// alone, or a replay would differ. Null: there is no terrain.
    /// </param>
    public Station(FlightPlan plan, IFlightLog log, Func<GeoPoint, double?>? terrain = null)
    {
        (_plan, _log, _terrain) = (plan, log, terrain);
        _epochs = new SourceJoiner(Epoch);
        _callouts = new CalloutDesk(plan);
        _chaseWay = new ChaseTracker(plan);
        _keepOuts = new KeepOutWatch(plan.Overlays);
        BeginFlight();
    }

    /// <summary>Bytes from a source, cut anywhere.</summary>
    public void Receive(SourceId source, Instant at, ReadOnlySpan<byte> bytes)
    {
        Tick(at);
        if (source != SourceId.Chase) _lastBytes = at;
        From(source).Push(at, bytes);
        _epochs.Release(at);
    }

    /// <summary>
    /// A link was opened, lost, or ended. What is pending from a source that can send no more is completed.
    /// </summary>
    public void Link(LinkStatus status)
    {
        Tick(status.Since);
        if (status.State is LinkState.Lost or LinkState.Ended)
        {
            From(status.Source).Flush(status.Since);
            _epochs.Gone(status.Source, status.Since);
        }
        Remember(status);
    }

    /// <summary>The operator did something.</summary>
    public void Act(Instant at, OperatorAct act)
    {
        Tick(at);
        Carry(act);
    }

    /// <summary>
    /// Time has come to <paramref name="at"/> with nothing heard. Every event does this first: all whole seconds of
    /// arrival time up to it are worked through, so that a tick need only be recorded when nothing else was.
    /// </summary>
    public void Tick(Instant at)
    {
        foreach (Instant second in _clock.SecondsUpTo(at, LongestTicking))
        {
            foreach (SourceFixes source in _sources) source.Tick(second);
            _epochs.Release(second);
            if (SilentRowDue()) Estimate(_clock.Utc);
            Watch();
        }
    }

    /// <summary>One epoch of one source, believed or not. The tracker's may have been heard by several.</summary>
    private void Completed(SourceFixes source, Fix fix)
    {
        if (source.Source != SourceId.Chase)
        {
            _epochs.Take(fix, _clock.Arrival);
            return;
        }
        _log.Fix(fix);
        if (fix is not { Believed: true, Position: { } car }) return;
        // Station time: the car's receiver may tell no date, and the laptop's may be wrong.
        (_chase, _chaseHeard) = (new(_clock.Utc, car, fix.Height ?? default), fix.Heard);
        _chaseWay.Take(_clock.Utc, car, typed: false);
    }

    /// <summary>One epoch of the tracker, into the flight and the landing estimate.</summary>
    private void Epoch(Fix fix, bool late)
    {
        _log.Fix(fix);
        if (late || fix.Refused == RefusalReasons.WithinSecond) return;
        Instant before = _clock.Utc;
        _clock.Heard(fix);
        if (_clock.Utc - before is var by && by.Duration() > LeastPutRight) PutRight(by);
        Remember(fix);
        if (NewestTelemetry is { } told) _flight.Sound(_telemetry = told);
        if (fix.Believed)
        {
            if (OfAnotherTime(fix)) BeginFlight();
            _flight.Fix(fix);
            _ascent.Take(fix, _flight.Phase);
            _hostOffset.Take(fix);
            RememberPhase();
            Estimate(fix.Utc);
        }
        Watch();
    }

    /// <summary>
    /// Where it will come down, as known at <paramref name="utc"/>: for every believed fix, and in silence.
    /// </summary>
    private void Estimate(Instant utc)
    {
        if (_estimator.Estimate(_flight, utc, _clock.Silent, AltitudeLimit, UnheardLaunch) is not { } estimate) return;
        _landing = estimate;
        _log.Landing(estimate);
        _history.Add(new(utc, estimate.Position, estimate.Area95.MajorM));
    }

    private bool SilentRowDue() => _landing is { Method: not LandingMethod.Landed } last
        && _clock.Utc.SecondsSince(last.Utc) >= (_clock.Utc < last.LandingUtc ? SilentRowS : LongSilentRowS);

    /// <summary>Alarms and callouts: with every epoch, and once a second.</summary>
    private void Watch()
    {
        foreach (AlarmChange change in _alarms.Evaluate(AlarmInput(), _clock.Utc)) Remember(change);
        if (Scene() is not { } scene)
        {
            if (UnheardLaunch is { } launch && _callouts.ConsiderNothing(_clock.Utc, launch, Contact) is { } bare)
                _log.Callout(bare);
            return;
        }
        if (_callouts.Consider(scene) is { } callout) _log.Callout(callout);
        ConsiderSheet(scene);
    }
}
