namespace Groundstation.Core.Alarms;

/// <summary>
/// The alarms of the station, in the order in which they are worked through. Severities as 14 CFR 25.1322 defines them:
/// a warning needs awareness and an act at once, a caution awareness at once and an act soon, an advisory awareness only.
/// </summary>
public static class AlarmRules
{
    /// <summary>All of them; an alarm that explains others comes before those.</summary>
    public static IReadOnlyList<AlarmRule> All { get; } =
        [.. HouseRules.All, .. LinkRules.All, .. FlightRules.All, .. PayloadRules.All, .. DistanceRules.All, .. ChaseRules.All, .. AreaRules.All];

    /// <summary>The rule of an alarm; null: there is no such alarm.</summary>
    public static AlarmRule? Find(string id) => All.FirstOrDefault(r => r.Id == id);
}
