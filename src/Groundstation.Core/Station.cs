using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
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
/// <param name="plan">The plan in force.</param>
/// <param name="log">Takes the rows of the flight folder.</param>
public sealed partial class Station(FlightPlan plan, IFlightLog log)
{
    // In silence a row every 10 s shows how the area grows; once it must have landed, one a minute is enough.
    private const double SilentRowS = 10;
    private const double LongSilentRowS = 60;

    // A log that jumps by months must not be ticked through second by second: past this gap time skips.
    private static readonly TimeSpan LongestTicking = TimeSpan.FromHours(6);

    private readonly List<SourceFixes> _sources = [];
    private readonly FlightTracker _flight = new(plan);
    private readonly LandingEstimator _estimator = new(plan);
    private readonly AlarmBoard _alarms = new(AlarmRules.All);
    private readonly CalloutDesk _callouts = new(plan.Units);
    private readonly StationClock _clock = new();
    private LandingEstimate? _landing;
    private Waypoint? _chase;

    /// <summary>Bytes from a source, cut anywhere.</summary>
    public void Receive(SourceId source, Instant at, ReadOnlySpan<byte> bytes)
    {
        Tick(at);
        SourceFixes from = From(source);
        from.Push(at, bytes);
        TakeFixes(from);
    }

    /// <summary>
    /// Time has come to <paramref name="at"/> with nothing heard. Every event does this first: all whole seconds of
    /// arrival time up to it are worked through, so that a tick need only be recorded when nothing else was.
    /// </summary>
    public void Tick(Instant at)
    {
        foreach (Instant second in _clock.SecondsUpTo(at, LongestTicking))
        {
            foreach (SourceFixes source in _sources)
            {
                source.Tick(second);
                TakeFixes(source);
            }
            if (SilentRowDue()) Estimate(_clock.Utc);
            Watch();
        }
    }

    private void TakeFixes(SourceFixes source)
    {
        while (source.TryTake(out Fix? fix))
        {
            log.Fix(fix);
            if (source.Source == SourceId.Chase) { Chase(fix); continue; }
            _clock.Heard(fix);
            Count(fix);
            if (!fix.Believed) continue;
            _flight.Telemetry(source.Telemetry);
            _flight.Fix(fix);
            while (_flight.TryTakeLayer(out WindLayer layer)) log.Wind(fix.Utc, layer);
            Estimate(fix.Utc);
        }
    }

    /// <summary>Where it will come down, as known at <paramref name="utc"/>: a row for every believed fix and in silence.</summary>
    private void Estimate(Instant utc)
    {
        if (_estimator.Estimate(_flight, utc, _clock.HeardAgeS(utc), AltitudeLimit) is not { } estimate) return;
        _landing = estimate;
        log.Landing(estimate);
        _history.Add((utc, estimate.Position));
    }

    /// <summary>Alarms and callouts, once a second.</summary>
    private void Watch()
    {
        foreach (AlarmChange change in _alarms.Evaluate(AlarmInput(), _clock.Utc)) Changed(change);
        (Earth.GeoPoint? from, string name) = _chase is { } car ? (car.Position, "you") : (_flight.State.Pad?.Position, "launch");
        bool silent = _alarms.Stands("no-fix") || _alarms.Stands("altitude-limit");
        if (_callouts.Consider(_clock.Utc, State(), _landing, silent, from, name) is { } callout) log.Callout(callout);
    }
}
