using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using static Groundstation.Core.Alarms.Words;

namespace Groundstation.Core.Alarms;

/// <summary>Alarms on the chase: the car's own receiver, and whether it comes in time.</summary>
internal static class ChaseRules
{
    public static IEnumerable<AlarmRule> All =>
    [
        new("chase-lost", Severity.Caution, "To be mended or replaced by typed places soon; the balloon is not touched by it.",
            "Bearings and distances for the chase team start from an old place.",
            "Check the chase receiver and its cable; ask the team where it is and type that (key c).",
            static (i, _) => i.Links.FirstOrDefault(l => l.Source == SourceId.Chase) switch
            {
                { State: LinkState.Lost } l => Text($"Chase receiver lost{(l.Why.Length > 0 ? ": " + l.Why : "")}"),
                { State: LinkState.Up } when i.ChaseAgeS >= i.Plan.Alarms.ChaseNoFixS
                    => Text($"No place from the chase receiver for {Span(i.ChaseAgeS)}"),
                _ => null,
            }, OnDelayS: 2, OffDelayS: 5),

        new("chase-behind", Severity.Caution, "The car must set out or hurry soon; nobody is in danger.",
            "The car comes after the landing: the last minutes of the tracker are not heard from near by.",
            "Send the car towards the landing estimate now; drive safely, a late payload keeps lying where it is.",
            static (i, active) => i.Chase is { MarginS: { } margin, DriveS: { } drive, LandingUtc: { } lands } c
                && i.Flight.Phase is Phase.Ascent or Phase.Float or Phase.Descent
                && margin < i.Plan.Alarms.ChaseMarginS + (active ? 120 : 0)
                ? Text($"Chase car {Late(margin)}: {Span(drive)} on the road at {Measure.Speed(c.CountedMps)}")
                    + Text($"{(c.SpeedFromPlan ? " if it sets out now" : "")}, landing at {lands.ToDateTime():HH:mm}") : null,
            OnDelayS: 60, OffDelayS: 60, SuppressedBy: ["chase-lost"]),
    ];

    private static string Late(double margin) =>
        margin < 0 ? $"{Span(-margin)} late" : $"only {Span(margin)} ahead of the landing";
}
