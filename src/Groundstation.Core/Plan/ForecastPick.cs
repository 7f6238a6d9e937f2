using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Plan;

/// <summary>Which of the plan's wind files hold at a moment: the one before it and the one after.</summary>
/// <param name="Before">The one that holds at or before the moment; the nearest when all are on one side.</param>
/// <param name="After">The next one; null when the moment lies outside the times told, or there is one time
/// only.</param>
/// <param name="AfterShare">Weight of <paramref name="After"/>, 0–1.</param>
/// <param name="OutsideS">Seconds by which the moment lies outside the times told; 0 within, and where none is
/// told.</param>
public sealed record ForecastPick(WindForecast Before, WindForecast? After, double AfterShare, double OutsideS)
{
    /// <summary>Picks from a plan's winds; there must be one at least.</summary>
    public static ForecastPick For(FlightPlan plan, Instant utc)
    {
        var timed = plan.Winds.Where(w => w.Valid is not null).Select(w => (At: w.Valid!.Value.Near(utc), Winds: w))
            .GroupBy(w => w.At).OrderBy(same => same.Key).Select(same =>
                (At: same.Key, Winds: Best(plan, same.Select(w => w.Winds))))
            .ToArray();
        if (timed.Length == 0) return new(Best(plan, plan.Winds), null, 0, 0);
        int after = Array.FindIndex(timed, w => w.At > utc);
        if (after < 0) return new(timed[^1].Winds, null, 0, utc.SecondsSince(timed[^1].At));
        if (after == 0) return new(timed[0].Winds, null, 0, timed[0].At.SecondsSince(utc));
        double span = timed[after].At.SecondsSince(timed[after - 1].At);
        return new(timed[after - 1].Winds, timed[after].Winds, utc.SecondsSince(timed[after - 1].At) / span, 0);
    }

    /// <summary>
    /// Of several for one time: the nearest to the launch site where places are told, measured before computed.
    /// </summary>
    private static WindForecast Best(FlightPlan plan, IEnumerable<WindForecast> same) =>
        same.OrderBy(w => w.Origin == WindOrigin.Measured ? 0 : 1)
            .ThenBy(w => plan.LaunchSite is { } site && w.Place is { } place
                ? Geodesic.DistanceM(site, place) : double.MaxValue)
            .First();
}
