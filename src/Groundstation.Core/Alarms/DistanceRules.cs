using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using static Groundstation.Core.Alarms.Words;
using static Groundstation.Core.Quantities.Measure;

namespace Groundstation.Core.Alarms;

/// <summary>Alarms on how far off the balloon is.</summary>
internal static class DistanceRules
{
    public static IEnumerable<AlarmRule> All =>
    [
        new("far-from-pad", Severity.Advisory, "To be known: what is permitted and what the radio reaches may end.",
            "It leaves the region that was planned for.",
            "Check permits and borders; expect a weaker signal at mission control.",
            static (i, active) => Beyond(i, i.Pad, i.Plan.Alarms.PadDistanceM, active) is { } metres
                ? Text($"Balloon {Distance(metres)} from the pad, limit {Distance(i.Plan.Alarms.PadDistanceM)}") : null,
            OnDelayS: 10, OffDelayS: 30),

        new("far-from-chase", Severity.Caution, "The car must move soon, or it cannot hear the landing.",
            "The chase car will not hear the tracker near the ground.",
            "Send the chase car towards the landing estimate.",
            static (i, active) => Beyond(i, i.Chase?.Position, i.Plan.Alarms.ChaseDistanceM, active) is { } metres
                ? Text($"Balloon {Distance(metres)} from the chase car, limit {Distance(i.Plan.Alarms.ChaseDistanceM)}") : null,
            OnDelayS: 10, OffDelayS: 30),
    ];

    // Two parts in a hundred of deadband: a balloon that drifts along the limit must not ring again and again.
    private static double? Beyond(AlarmInput i, GeoPoint? from, double limitM, bool active) =>
        from is { } place && i.Flight is { Phase: not Phase.Landed, Newest.Position: { } balloon }
            && Geodesic.Inverse(place, balloon).DistanceM is var metres && metres > limitM * (active ? 0.98 : 1)
            ? metres : null;
}
