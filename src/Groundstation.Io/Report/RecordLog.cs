using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Io.Report;

/// <summary>Keeps the rows of a flight's logs in memory, with the station's state beside each epoch.</summary>
internal sealed class RecordLog : IFlightLog
{
    private readonly List<Fix> _pending = [];
    private Telemetry _sounded = Telemetry.None;
    private LandingEstimate? _newest;

    public List<EpochRow> Epochs { get; } = [];

    public List<Waypoint> Chase { get; } = [];

    public List<(Instant Utc, WindLayer Layer)> Winds { get; } = [];

    public List<PayloadRow> Payload { get; } = [];

    public List<LandingEstimate> Landings { get; } = [];

    public List<AlarmRow> Alarms { get; } = [];

    public List<Callout> Callouts { get; } = [];

    public void Fix(Fix fix)
    {
        if (fix.Source != SourceId.Chase)
            _pending.Add(fix);
        else if (fix is { Believed: true, Position: { } at })
            Chase.Add(new Waypoint(fix.Utc, at, fix.Height ?? default));
    }

    public void Wind(Instant utc, in WindLayer layer) => Winds.Add((utc, layer));

    public void Landing(LandingEstimate estimate)
    {
        // Thousands of estimates, hundreds of points each: only the last one's path is wanted.
        Landings.Add(estimate with { Path = [], Cloud = [] });
        _newest = estimate;
    }

    public void Alarm(Instant utc, string change, AlarmState alarm) => Alarms.Add(new AlarmRow(utc, change, alarm));

    public void Callout(Callout callout)
    {
        int known = Callouts.FindIndex(c => c.Number == callout.Number);
        if (known < 0)
            Callouts.Add(callout);
        else
            Callouts[known] = callout;
    }

    /// <summary>After each event: what the station now makes of the epochs that the event completed.</summary>
    public void After(Station station)
    {
        if (_pending.Count == 0)
            return;
        FlightState flight = station.FlightNow();
        Telemetry telemetry = station.Payload;
        foreach (Fix fix in _pending)
        {
            EpochRow row = new(fix, flight.Phase, flight.VerticalRateMps, telemetry);
            Epochs.Add(row);
            if (telemetry == _sounded || fix is not { Believed: true, Height: { } height } || !row.FreshPayload)
                continue;
            _sounded = telemetry;
            Payload.Add(new PayloadRow(fix.Utc, height, flight.Phase, telemetry));
        }

        _pending.Clear();
    }

    /// <summary>The last estimate gets its path back.</summary>
    public void Finish(Station station)
    {
        After(station);
        if (_newest is not null)
            Landings[^1] = _newest;
    }
}
