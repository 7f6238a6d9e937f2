using Groundstation.Core.Flight;
using static Groundstation.Core.Alarms.Words;
using static Groundstation.Core.Quantities.Measure;

namespace Groundstation.Core.Alarms;

/// <summary>Alarms on the flight itself: launch to landing, and its rates.</summary>
internal static class FlightRules
{
    public static IEnumerable<AlarmRule> All =>
    [
        new("launch", Severity.Advisory, "As planned: to be known, nothing to be done at once.",
            "The flight has begun.", "Note the time; tell the chase team.",
            static (i, _) => i.Flight is { Phase: Phase.Ascent, Launch: { } at } && Since(i, at) < 60
                ? Text($"Launch detected at {Height(at.Height.Metres)}") : null),

        new("burst", Severity.Caution, "The chase team must be told soon: half an hour or less is left.",
            "The payload is falling.", "Tell the chase team; watch the landing estimate.",
            static (i, _) => i.Flight is { Phase: Phase.Descent, Burst: { } at } && Since(i, at) < 120
                ? i.Flight.BurstHeard ? Text($"Descent began at {Height(at.Height.Metres)}")
                    : Text($"Falling when heard, at {Height(at.Height.Metres)}") : null),

        new("float", Severity.Caution, "The plan no longer holds: somebody must decide soon whether to wait or follow.",
            "The flight may go on for hours and far away.",
            "Tell the chase team to wait; watch the distance.",
            static (i, _) => i.Flight.Phase is Phase.Float
                ? Text($"Neither climbing nor falling at {Height(i.Flight.Newest?.Height?.Metres ?? 0)}") : null,
            OnDelayS: 60, OffDelayS: 30),

        new("ascent-falling", Severity.Caution, "The landing moves away: the chase must be told soon.",
            "The balloon may leak: it may float, or come down slowly without a burst.",
            "Watch rate and landing estimate; tell the chase team that the burst may not come.",
            static (i, active) => i.Flight.Phase == Phase.Ascent
                && i.Ascent is { LostShare: { } lost, NowMps: { } now, BestMps: { } best }
                && lost > i.Plan.Alarms.AscentFallingShare - (active ? 0.1 : 0)
                ? Text($"Ascent rate {VerticalRate(now)} over three minutes, was {VerticalRate(best)}") : null,
            OnDelayS: 60, OffDelayS: 60, SuppressedBy: ["no-fix", "no-bytes"]),

        new("ascent-slow", Severity.Caution, "The landing moves away: the chase must be told soon.",
            "It flies longer and farther than planned; it may float.",
            "Compare the landing estimate with the keep-outs and the chase car's reach.",
            static (i, active) => Rate(i) is { } rate && rate < i.Plan.Alarms.AscentSlowMps + (active ? 0.3 : 0)
                ? Text($"Ascent rate {VerticalRate(rate)}, limit {VerticalRate(i.Plan.Alarms.AscentSlowMps)}") : null,
            OnDelayS: 60, OffDelayS: 30, SuppressedBy: ["no-fix", "no-bytes", "ascent-falling"]),

        new("ascent-fast", Severity.Advisory, "Nothing to be done but to expect an earlier burst.",
            "It bursts lower and earlier than planned.",
            "Expect an earlier landing, nearer to the launch.",
            static (i, active) => Rate(i) is { } rate && rate > i.Plan.Alarms.AscentFastMps - (active ? 0.3 : 0)
                ? Text($"Ascent rate {VerticalRate(rate)}, limit {VerticalRate(i.Plan.Alarms.AscentFastMps)}") : null,
            OnDelayS: 60, OffDelayS: 30, SuppressedBy: ["no-fix", "no-bytes"]),

        new("descent-fast", Severity.Warning, "People below may be hit: those near the landing must be warned at once.",
            "The canopy may be tangled or lost: a hard, early landing.",
            "Keep people away from the landing area; tell the chase team the new time.",
            static (i, active) => Fall(i) is { } rate && rate > i.Plan.Alarms.DescentFastMps - (active ? 0.5 : 0)
                ? Text($"Descent rate {VerticalRate(rate)} at sea level, limit {VerticalRate(i.Plan.Alarms.DescentFastMps)}") : null,
            OnDelayS: 60, OffDelayS: 30),

        new("descent-slow", Severity.Advisory, "The estimate has it in already; the chase may need to go farther later.",
            "It drifts farther than planned.",
            "Watch the landing estimate; the area moves downwind.",
            static (i, active) => Fall(i) is { } rate && rate < i.Plan.Alarms.DescentSlowMps + (active ? 0.2 : 0)
                ? Text($"Descent rate {VerticalRate(rate)} at sea level, limit {VerticalRate(i.Plan.Alarms.DescentSlowMps)}") : null,
            OnDelayS: 60, OffDelayS: 30),

        new("canopy-changed", Severity.Caution, "Landing place and time move: the chase must be told soon.",
            "The canopy opened more, tangled or tore: what was told of the landing no longer holds.",
            "Read the new estimate to the chase team.",
            static (i, _) => i.Flight is { Phase: Phase.Descent, CanopyChanged: { } c }
                && i.Flight.Newest?.Utc.SecondsSince(c.Utc) < 120
                ? Text($"Descent rate at sea level went from {VerticalRate(c.BeforeMps).Bare} to {VerticalRate(c.AfterMps)}") : null),

        new("approach", Severity.Caution, "Antenna and chase must be ready soon: minutes are left.",
            "Landing within minutes; the last fixes are the most useful.",
            "Give the chase team the estimate now; point the antenna at the horizon.",
            static (i, active) => i.Landing is { Phase: Phase.Descent } l
                && l.Altitude.Metres - l.Ground.Metres is var above
                && above < i.Plan.Alarms.ApproachM + (active ? 200 : 0)
                ? Text($"{Height(above)} above the expected ground") : null),

        new("landed", Severity.Advisory, "The danger is over; the place is known.",
            "The payload stands on the ground.",
            "Give the place to the chase team; note it before the battery ends.",
            static (i, _) => i.Flight is { Phase: Phase.Landed, Landed: { } at } ? Text($"Landed at {at.Position}") : null),
    ];

    private static double Since(AlarmInput i, Waypoint at) => i.Flight.Newest?.Utc.SecondsSince(at.Utc) ?? 0;

    // The first half minute after launch is no steady climb: the smoothed rate still holds the pad.
    private static double? Rate(AlarmInput i) =>
        i.Flight is { Phase: Phase.Ascent, Launch: { } launch } && Since(i, launch) > 30 ? i.Flight.VerticalRateMps : null;

    private static double? Fall(AlarmInput i) => i.Flight is { Phase: Phase.Descent, DescentRateMeasured: true }
        ? i.Flight.DescentRateSeaLevelMps : null;
}
