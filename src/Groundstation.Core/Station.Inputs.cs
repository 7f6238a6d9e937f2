using System.Diagnostics.CodeAnalysis;
using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Chase;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Core;

/// <summary>What the stages are given: sources by name, the flight as it stands, the alarm rules' input.</summary>
public sealed partial class Station
{
    private IEnumerable<SourceFixes> Trackers => _sources.Where(s => s.Source != SourceId.Chase);

    private Telemetry? NewestTelemetry
    {
        get
        {
            Telemetry? newest = null;
            foreach (SourceFixes source in Trackers)
            {
                if (source.Telemetry is { Heard: { } heard } told && (newest is null || heard > newest.Heard))
                    newest = told;
            }

            return newest;
        }
    }

    private HeightMsl? AltitudeLimit => Trackers.Select(s => s.AltitudeLimitSuspected).FirstOrDefault(l => l is not null)
        is { } limit ? new HeightMsl(limit.LimitM) : null;

    /// <summary>
    /// Age of the newest sign that the tracker is alive, s: a new epoch, believed or not, or a sentence that says it
    /// has no fix; null: there was none.
    /// </summary>
    private double? SignOfLifeAgeS => Trackers.Select(s => s.NoFixHeard).Append(_clock.Epoch).Max() is { } at
        ? _clock.Arrival.SecondsSince(at) : null;

    private Contact Contact
    {
        get
        {
            double quietS = Math.Max(_plan.Alarms.NoBytesS, 3 * _clock.EpochIntervalS);
            if (SignOfLifeAgeS < quietS) return Contact.Alive;
            LinkStatus[] ours = [.. _links.Where(l => l.Source != SourceId.Chase)];
            if (ours.Length > 0 && ours.All(l => l.State == LinkState.Lost)) return Contact.LinkLost;
            return _lastBytes is { } at && _clock.Arrival.SecondsSince(at) < quietS
                && Trackers.Any(s => s.Health(_clock.Arrival).SentencesPerSecond > 0) ? Contact.Stalled : Contact.Silent;
        }
    }

    private GeoPoint? PadPosition => _flight.State().Pad?.Position ?? _plan.LaunchSite;

    private SourceFixes From(SourceId id)
    {
        foreach (SourceFixes known in _sources)
            if (known.Source == id) return known;
        SourceFixes? source = null;
        _sources.Add(source = new SourceFixes(id, _plan, fix => Completed(source!, fix)));
        return source;
    }

    [MemberNotNull(nameof(_flight), nameof(_estimator), nameof(_ascent), nameof(_hostOffset))]
    private void BeginFlight()
    {
        _flight = new FlightTracker(_plan);
        _flight.Winds.LayerDone = Log;
        _estimator = new LandingEstimator(_plan, _terrain);
        (_landing, _groundToldM) = (null, null);
        (_ascent, _hostOffset) = (new AscentTrend(), new HostOffset());
        _sheetFor = null;
        _track.Clear();
        _history.Clear();
    }

    /// <summary>
    /// Station time has jumped: the laptop's was wrong, or a receiver's date. What was told and marked before keeps its
    /// distance from now, or no callout would come for as long as the jump was.
    /// </summary>
    private void PutRight(TimeSpan by)
    {
        _alarms.Shift(by);
        _callouts.Shift(by);
        _chaseWay.Shift(by);
        _decision = _decision is { } decided ? decided with { Utc = decided.Utc + by } : null;
        _chase = _chase is { } car ? car with { Utc = car.Utc + by } : null;
        _marks = new(_marks.Launch + by, _marks.Burst + by);
    }

    private void Log(Instant utc, WindLayer layer) => _log.Wind(utc, layer);

    /// <summary>
    /// The receiver's date has become known and is another one than the arrival stamp's, by which the first fixes were
    /// dated: an old log played into a port, or a host clock that is wrong by months. Or a date has changed by days.
    /// Those fixes lie in another time; a flight that began with them would take everything that follows for the past.
    /// </summary>
    private bool OfAnotherTime(Fix fix) => _flight.Newest is { } last
        && Math.Abs(fix.Utc.SecondsSince(last.Utc) - fix.Heard.SecondsSince(last.Heard))
            > (last.DateFrom == DateOrigin.NearestToArrival && fix.DateFrom != last.DateFrom ? 3600 : 43_200);

    /// <summary>The flight: as heard, or as the model expects it while nothing is heard.</summary>
    public FlightState FlightNow()
    {
        FlightState heard = _flight.State();
        return ToTell is { Method: LandingMethod.Silent or LandingMethod.Planned } model
            ? heard with { Phase = model.Phase, PhaseHeard = false, VerticalRateMps = ExpectedRateMps(model) } : heard;
    }

    private static double ExpectedRateMps(LandingEstimate model) =>
        model is { Phase: Phase.Ascent or Phase.Descent, Path: [var now, var next, ..] }
        && next.Utc.SecondsSince(now.Utc) is > 0 and var seconds
            ? (next.Height.Metres - now.Height.Metres) / seconds : 0;

    private ChaseState? ChaseNow()
    {
        GeoPoint? heard = _flight.Newest?.Position;
        GeoPoint? balloon = _landing is { Method: LandingMethod.Silent, Path: [var expected, ..] }
            ? expected.Position : heard;
        return _chaseWay.State(_clock.Utc, balloon, heard, _landing);
    }

    /// <summary>What a callout would be made from now; null before the first estimate.</summary>
    private CalloutScene? Scene() => ToTell is { } landing && Contact is var contact
        ? new(_clock.Utc, FlightNow(), landing, _alarms.Holds("no-fix") || _alarms.Holds("altitude-limit"), _chase,
            PadPosition)
        {
            Contact = contact,
            SilentS = SignOfLifeAgeS,
            Limit = contact == Contact.Alive && !landing.HearAgainOverdue ? AltitudeLimit : null,
            Marked = UnheardLaunch,
        }
        : null;

    private AlarmInput AlarmInput() => new()
    {
        Arrival = _clock.Arrival,
        Started = _clock.Started,
        Plan = _plan,
        Flight = _flight.State(),
        Landing = _landing,
        Telemetry = _telemetry,
        Receivers = [.. Trackers.Select(s => s.Health(_clock.Arrival))],
        Links = [.. _links],
        HeardAgeS = _clock.HeardAgeS,
        RefusedInARow = _refusedInARow,
        RefusedDetail = _refused.LastOrDefault()?.Detail ?? "",
        NewestFix = _newest,
        AltitudeLimit = Contact == Contact.Alive ? AltitudeLimit : null,
        Contact = Contact,
        MarkedAgeS = _flight.Newest is null && UnheardLaunch is { } launch ? _clock.Utc.SecondsSince(launch) : null,
        ByteAgeS = _clock.Arrival.SecondsSince(_lastBytes ?? _clock.Started),
        EpochAgeS = _clock.Epoch is { } epoch ? _clock.Arrival.SecondsSince(epoch) : null,
        EpochIntervalS = _clock.EpochIntervalS,
        StorageTrouble = _storageTrouble,
        KeepOuts = _keepOuts.Of(_landing),
        Ascent = _ascent,
        Pad = PadPosition,
        Chase = ChaseNow(),
        ChaseAgeS = _links.FirstOrDefault(l => l.Source == SourceId.Chase) is { } link
            ? _clock.Arrival.SecondsSince(_chaseHeard is { } heard && heard > link.Since ? heard : link.Since) : 0,
        HostAheadS = _hostOffset.AheadS + _hostSetS,
        DiskFreeMb = _diskFreeMb,
    };
}
