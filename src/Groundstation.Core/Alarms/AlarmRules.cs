namespace Groundstation.Core.Alarms;

/// <summary>The alarms of the station, in the order in which they are worked through.</summary>
public static class AlarmRules
{
    /// <summary>All of them; an alarm that explains others comes before those.</summary>
    public static IReadOnlyList<AlarmRule> All { get; } = [.. LinkRules.All, .. FlightRules.All];
}
