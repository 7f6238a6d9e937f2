using System.Collections.Immutable;
using System.Globalization;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Readiness;

/// <summary>What only people can see to: each point is confirmed by the operator and recorded.</summary>
public static class PeopleItems
{
    /// <summary>Id, label and what is meant, in the order of the work.</summary>
    public static readonly ImmutableArray<(string Id, string Label, string Meaning)> All =
    [
        ("permission", "Permission, notice", "as local rules ask; telephone numbers at hand"),
        ("daylight", "Daylight, weather", "light until it is found; wind and cloud are fit"),
        ("gas", "Gas cautions told", "no flame, no spark; eyes covered; cylinder chained"),
        ("gloves", "Gloves, safety line", "clean gloves; a line that cannot slip holds it"),
        ("neck", "Neck lift weighed", "it hovered with the sheet's weight under the neck"),
        ("regulator", "Regulator closed", "valve and regulator closed, cylinder secured"),
        ("line", "Knots and parachute", "line and swivels sound; the parachute hangs free"),
        ("note", "Contact note on box", "name, telephone and 'harmless' on its outside"),
        ("reflector", "Radar reflector", "reflector and flags where the rules ask for them"),
        ("insulation", "Insulation, batteries", "box closed and insulated, fresh batteries warm"),
        ("beeper", "Beeper sounds", "it can be heard outside the box"),
        ("spare", "Spare power", "for laptop, receivers and telephones, charged"),
        ("kit", "Kit in the car", "for water, trees and slopes; nobody climbs or wades"),
    ];

    /// <summary>The point of an id, or null.</summary>
    public static string? Label(string id)
    {
        foreach ((string known, string label, _) in All)
            if (known == id) return label;
        return null;
    }

    /// <summary>The points as they stand.</summary>
    internal static IEnumerable<LaunchCheck> Of(Snapshot s) => All.Select(item => new LaunchCheck(item.Id, item.Label,
        s.Confirmed.Contains(item.Id) ? CheckState.Ready : CheckState.Open, item.Id switch
        {
            "neck" => Neck(s) ?? item.Meaning,
            "daylight" => Daylight(s) ?? item.Meaning,
            _ => item.Meaning,
        }));

    private static Saying? Neck(Snapshot s) => FillResult.Of(s.Plan) is { Fill.FreeLiftKg: > 0 } r
        ? (Saying)$"{Measure.Mass(r.Fill.NeckLiftKg)} under the neck, and it hovered" : null;

    /// <summary>For a launch now, where the tracker is.</summary>
    private static string? Daylight(Snapshot s)
    {
        if ((s.Flight.Pad?.Position ?? s.Plan.LaunchSite) is not { } site
            || FlightTimes.Landing(s.Plan, s.Utc) is not { } landing) return null;
        string at = landing.ToDateTime().ToString("HH:mm", CultureInfo.InvariantCulture);
        return $"now launched it lands {at} UTC {(FlightTimes.Dark(site, landing) ? "IN DARKNESS" : "in daylight")}; "
            + "wind is fit";
    }
}
