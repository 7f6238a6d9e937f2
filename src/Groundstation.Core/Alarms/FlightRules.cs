using System.Globalization;
using Groundstation.Core.Flight;

namespace Groundstation.Core.Alarms;

/// <summary>Alarms on the flight itself: launch to landing, rates, and the payload's own measurements.</summary>
internal static class FlightRules
{
    public static IEnumerable<AlarmRule> All =>
    [
        new("launch", Severity.Advisory, "The flight has begun.", "Note the time; tell the chase team.",
            static (i, _) => i.Flight is { Phase: Phase.Ascent, Launch: { } at } && Since(i, at) < 60
                ? Text($"Launch detected at {at.Height.Metres:F0} m") : null),

        new("burst", Severity.Caution, "The payload is falling.", "Tell the chase team; watch the landing estimate.",
            static (i, _) => i.Flight is { Phase: Phase.Descent, Burst: { } at } && Since(i, at) < 120
                ? Text($"Descent began at {at.Height.Metres:F0} m") : null),

        new("float", Severity.Caution, "The flight may go on for hours and far away.",
            "Tell the chase team to wait; watch the distance.",
            static (i, _) => i.Flight.Phase is Phase.Float
                ? Text($"Neither climbing nor falling at {i.Flight.Newest?.Height?.Metres ?? 0:F0} m") : null,
            OnDelayS: 60, OffDelayS: 30),

        new("ascent-slow", Severity.Caution, "It flies longer and farther than planned; it may float.",
            "Compare the landing estimate with the keep-outs and the chase car's reach.",
            static (i, standing) => Rate(i, Phase.Ascent) is { } rate
                && rate < i.Plan.Alarms.AscentSlowMps + (standing ? 0.3 : 0)
                ? Text($"Ascent rate {rate:F1} m/s, limit {i.Plan.Alarms.AscentSlowMps:F1} m/s") : null,
            OnDelayS: 60, OffDelayS: 30, SuppressedBy: ["no-fix", "no-bytes"]),

        new("ascent-fast", Severity.Advisory, "It bursts lower and earlier than planned.",
            "Expect an earlier landing, nearer to the launch.",
            static (i, standing) => Rate(i, Phase.Ascent) is { } rate
                && rate > i.Plan.Alarms.AscentFastMps - (standing ? 0.3 : 0)
                ? Text($"Ascent rate {rate:F1} m/s, limit {i.Plan.Alarms.AscentFastMps:F1} m/s") : null,
            OnDelayS: 60, OffDelayS: 30, SuppressedBy: ["no-fix", "no-bytes"]),

        new("descent-fast", Severity.Warning, "The canopy may be tangled or lost: a hard, early landing.",
            "Keep people away from the landing area; tell the chase team the new time.",
            static (i, standing) => i.Flight is { Phase: Phase.Descent, DescentRateMeasured: true } f
                && f.DescentRateSeaLevelMps > i.Plan.Alarms.DescentFastMps - (standing ? 0.5 : 0)
                ? Text($"Descent rate {f.DescentRateSeaLevelMps:F1} m/s at sea level, limit {i.Plan.Alarms.DescentFastMps:F1} m/s")
                : null,
            OnDelayS: 60, OffDelayS: 30),

        new("descent-slow", Severity.Advisory, "It drifts farther than planned.",
            "Watch the landing estimate; the area moves downwind.",
            static (i, standing) => i.Flight is { Phase: Phase.Descent, DescentRateMeasured: true } f
                && f.DescentRateSeaLevelMps < i.Plan.Alarms.DescentSlowMps + (standing ? 0.2 : 0)
                ? Text($"Descent rate {f.DescentRateSeaLevelMps:F1} m/s at sea level, limit {i.Plan.Alarms.DescentSlowMps:F1} m/s")
                : null,
            OnDelayS: 60, OffDelayS: 30),

        new("approach", Severity.Caution, "Landing within minutes; the last fixes are the most useful.",
            "Give the chase team the estimate now; point the antenna at the horizon.",
            static (i, standing) => i.Landing is { Phase: Phase.Descent } l
                && l.Altitude.Metres - l.Ground.Metres is var above
                && above < i.Plan.Alarms.ApproachM + (standing ? 200 : 0)
                ? Text($"{above:F0} m above the expected ground") : null),

        new("landed", Severity.Advisory, "The payload stands on the ground.",
            "Give the place to the chase team; note it before the battery ends.",
            static (i, _) => i.Flight is { Phase: Phase.Landed, Landed: { } at } ? $"Landed at {at.Position}" : null),

        new("battery-low", Severity.Caution, "The tracker may fall silent before it is found.",
            "Give the newest estimate to the chase team now.",
            static (i, standing) => i is { Telemetry.BatteryV: { } v, Plan.Alarms.BatteryLowV: { } limit }
                && v < limit + (standing ? 0.1 : 0)
                ? Text($"Battery {v:F2} V, limit {limit:F2} V") : null,
            OnDelayS: 20, OffDelayS: 60),

        new("box-cold", Severity.Advisory, "Batteries fail in the cold: the tracker may fall silent.",
            "Watch the battery; give estimates more often.",
            static (i, standing) => i.Telemetry.InsideC is { } t && t < i.Plan.Alarms.InsideColdC + (standing ? 2 : 0)
                ? Text($"Inside temperature {t:F0} °C, limit {i.Plan.Alarms.InsideColdC:F0} °C") : null,
            OnDelayS: 20, OffDelayS: 60),
    ];

    private static double Since(AlarmInput i, Waypoint at) => i.Flight.Newest?.Utc.SecondsSince(at.Utc) ?? 0;

    // The first half minute after launch is no steady climb: the smoothed rate still holds the pad.
    private static double? Rate(AlarmInput i, Phase phase) =>
        i.Flight.Phase == phase && i.Flight.Launch is { } launch && Since(i, launch) > 30
            ? i.Flight.VerticalRateMps : null;

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
