using System.Collections.Immutable;
using Groundstation.Core.Alarms;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Core;

/// <summary>What the station keeps for screens: bounded, and never asked by any stage.</summary>
public sealed partial class Station
{
    private const int RecentCount = 50;
    private const int EventCount = 200;
    private const RefusalReasons NoOutlier = RefusalReasons.NoPosition | RefusalReasons.NoAltitude
        | RefusalReasons.Duplicate | RefusalReasons.FrozenUtc;

    private Thinned<Waypoint> _track = new(2000);
    private Thinned<PastEstimate> _history = new(500);
    private Queue<Fix> _refused = new();
    private Queue<EventLine> _events = new();
    private List<LinkStatus> _links = [];
    private Fix? _newest;
    private Phase _phase = Phase.Pad;
    private (long Believed, long Refused) _counts;
    private int _refusedInARow;
    private Instant? _lastBytes;
    private Telemetry _telemetry = Telemetry.None;

    /// <summary>What the screens show now.</summary>
    public Snapshot Snapshot() => Snapshot(_landing ?? Planned());

    private Snapshot Snapshot(LandingEstimate? landing) => new()
    {
        Utc = _clock.Utc,
        Arrival = _clock.Arrival,
        Plan = _plan,
        Flight = FlightNow(),
        NewestFix = _newest,
        HeardAgeS = _clock.HeardAgeS,
        Contact = Contact,
        Landing = landing,
        KeepOuts = _keepOuts.Of(landing),
        Track = _track.View,
        LandingHistory = _history.View,
        GroundFrom = GroundFrom(landing),
        Marks = _marks,
        Units = _units,
        NotHeardAfterS = Math.Max(_plan.Alarms.NoFixS, 3 * _clock.EpochIntervalS),
        Winds = _flight.Winds.Layers(),
        Foretold = _flight.Winds.Foretold,
        RecentRefused = [.. _refused],
        RecentLines = [.. Trackers.SelectMany(s => s.RecentLines(RecentCount))],
        Telemetry = _telemetry,
        Receivers = [.. _sources.Select(s => s.Health(_clock.Arrival))],
        Links = [.. _links],
        Alarms = _alarms.Standing,
        Callouts = [.. _callouts.All],
        Sheet = Sheet(),
        Events = [.. _events],
        Chase = _chase,
        ChaseNow = ChaseNow(),
        FixCounts = _counts,
        FixHeldS = FixHeldS,
        StorageTrouble = _storageTrouble,
        DiskFreeMb = _diskFreeMb,
        HasTerrain = _terrain is not null,
        Confirmed = [.. _confirmed],
        Decision = _decision,
    };

    /// <summary>The payload's newest measurements, without the cost of a whole snapshot.</summary>
    public Telemetry Payload => _telemetry;

    private void Remember(Fix fix)
    {
        _newest = fix;
        if (fix.Believed)
        {
            _refusedInARow = 0;
            _counts.Believed++;
            HoldFix(fix);
            if (fix is { Position: { } at, Height: { } height }) _track.Add(new(fix.Utc, at, height));
            return;
        }
        _counts.Refused++;
        // A receiver that says itself it has no fix gives no outlier; half an epoch, the other half lost on the way, or the
        // same epoch again, says nothing either way.
        if (fix.Refused.HasFlag(RefusalReasons.NoFix)) _refusedInARow = 0;
        else if ((fix.Refused & ~NoOutlier) != 0) _refusedInARow++;
        Bounded(_refused, fix, RecentCount);
    }

    private void Remember(LinkStatus status)
    {
        int known = _links.FindIndex(l => l.Source == status.Source);
        if (known < 0) _links.Add(status);
        else _links[known] = status;
        string why = status.Why.Length == 0 ? "" : $": {status.Why}";
        Happened($"Link {status.Source} {status.State.ToString().ToLowerInvariant()}{why}");
    }

    private void Remember(AlarmChange change)
    {
        _log.Alarm(_clock.Utc, change.Word, change.Alarm);
        Happened($"{change.Alarm.Severity} {change.Word}: {change.Alarm.Cause}");
    }

    private void RememberPhase()
    {
        FlightState flight = _flight.State();
        if (flight.Phase == _phase) return;
        _phase = flight.Phase;
        Saying height = flight.Newest?.Height is { } h ? (Saying)$" at {Measure.Height(h.Metres)}" : Saying.None;
        Happened($"Phase: {flight.Phase.ToString().ToLowerInvariant()}{height}");
    }

    private void Happened(Saying text) => Bounded(_events, new EventLine(_clock.Utc, text), EventCount);

    private static void Bounded<T>(Queue<T> queue, T item, int most)
    {
        if (queue.Count == most) queue.Dequeue();
        queue.Enqueue(item);
    }
}
