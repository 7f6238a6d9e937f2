using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;
using static Groundstation.Core.Alarms.Words;

namespace Groundstation.Core.Alarms;

/// <summary>
/// Alarms on where it comes down: the same finding at three severities, by how many of 100 landings lie inside an area
/// to be kept out of. The worse one suppresses the lesser.
/// </summary>
internal static class AreaRules
{
    private const string Consequence = "The payload may be lost, do harm, or not be fetched.";

    public static IEnumerable<AlarmRule> All =>
    [
        new("keep-out-likely", Severity.Warning, "More likely than not: whoever is in charge there must be told at once.",
            Consequence, "Tell the flight's responsible person and whoever is in charge of that area; tell the chase team.",
            static (i, active) => Inside(i, i.Plan.Alarms.KeepOutWarningShare, active), OnDelayS: 10, OffDelayS: 30),

        new("keep-out", Severity.Caution, "A real chance: preparations must begin soon.",
            Consequence, "Have the telephone number of whoever is in charge there ready; send the chase car that way.",
            static (i, active) => Inside(i, i.Plan.Alarms.KeepOutCautionShare, active), OnDelayS: 10, OffDelayS: 30,
            SuppressedBy: ["keep-out-likely"]),

        new("keep-out-touched", Severity.Advisory, "A small chance: to be known, and watched.",
            Consequence, "Watch how the landing estimate moves.",
            static (i, active) => Inside(i, i.Plan.Alarms.KeepOutAdvisoryShare, active), OnDelayS: 10, OffDelayS: 30,
            SuppressedBy: ["keep-out-likely", "keep-out"]),
    ];

    private static AlarmFinding? Inside(AlarmInput i, double limit, bool active)
    {
        // Before launch and without a forecast the estimate knows nothing of the wind: it would ring for every pond.
        if (i.Flight.Phase == Phase.Pad && i.Plan.Winds.IsDefaultOrEmpty) return null;
        double least = limit * (active ? 0.8 : 1);
        KeepOutShare[] met = [.. i.KeepOuts.Where(k => k.Share >= least)];
        if (met.Length == 0) return null;
        // The lesser ones are told along with it: their own alarms are suppressed.
        KeepOutShare[] all = [.. i.KeepOuts.Where(k => k.Share >= Math.Min(least, i.Plan.Alarms.KeepOutAdvisoryShare))];
        Saying more = all.Length > 3 ? Text($"; and {all.Length - 3} more") : "";
        return new(Saying.Join("; ", all.Take(3).Select(k => One(i, k))) + more, [.. met.Select(k => k.Area.Name)]);
    }

    private static Saying One(AlarmInput i, KeepOutShare k) => i.Flight.Phase == Phase.Landed
        ? Text($"Landed in {k.Area.Name} ({k.Area.Kind})")
        : Text($"{k.Share * 100:F0} of 100 landings in {k.Area.Name} ({k.Area.Kind})");
}
