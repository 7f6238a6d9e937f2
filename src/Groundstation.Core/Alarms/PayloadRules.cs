using static Groundstation.Core.Alarms.Words;
using static Groundstation.Core.Quantities.Measure;

namespace Groundstation.Core.Alarms;

/// <summary>Alarms on what the payload measures of itself.</summary>
internal static class PayloadRules
{
    public static IEnumerable<AlarmRule> All =>
    [
        new("battery-low", Severity.Caution, "The newest estimate must be given soon, while the tracker still speaks.",
            "The tracker may fall silent before it is found.",
            "Give the newest estimate to the chase team now.",
            static (i, active) => i is { Telemetry.BatteryV: { } v, Plan.Alarms.BatteryLowV: { } limit }
                && v < limit + (active ? 0.1 : 0)
                ? Text($"Battery {v:F2} V, limit {limit:F2} V") : null,
            OnDelayS: 20, OffDelayS: 60),

        new("box-cold", Severity.Advisory, "Nothing to be done but to expect a weak battery.",
            "Batteries fail in the cold: the tracker may fall silent.",
            "Watch the battery; give estimates more often.",
            static (i, active) => i.Telemetry.InsideC is { } t && t < i.Plan.Alarms.InsideColdC + (active ? 2 : 0)
                ? Text($"Inside temperature {Temperature(t)}, limit {Temperature(i.Plan.Alarms.InsideColdC)}") : null,
            OnDelayS: 20, OffDelayS: 60),

        new("box-hot", Severity.Caution, "On the pad it must be cooled soon; whoever finds it must know before touching it.",
            "A battery that overheats fails, and may burn.",
            "On the pad: switch off and let it cool. Tell the chase team before they touch it.",
            static (i, active) => i.Telemetry.InsideC is { } t && t > i.Plan.Alarms.InsideHotC - (active ? 2 : 0)
                ? Text($"Inside temperature {Temperature(t)}, limit {Temperature(i.Plan.Alarms.InsideHotC)}") : null,
            OnDelayS: 20, OffDelayS: 60),
    ];
}
