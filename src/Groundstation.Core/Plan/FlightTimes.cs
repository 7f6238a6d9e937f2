using Groundstation.Core.Earth;
using Groundstation.Core.Fill;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Plan;

/// <summary>How long the planned flight takes, in calm standard air.</summary>
public static class FlightTimes
{
    /// <summary>Seconds from launch to burst: by the fill, else at the plan's steady rate; null: it does not get
    /// there.</summary>
    public static double? UpSeconds(FlightPlan plan)
    {
        double climb = plan.BurstHeight.Metres - (plan.LaunchHeight?.Metres ?? 0);
        if (climb <= 0) return null;
        FillResult? r = FillResult.Of(plan);
        if (r is null || plan.Stated.Contains("balloon.ascent_rate_mps")) return climb / plan.AscentRateMps;
        return r.Burst is null ? null : Climb.Seconds(r.Fill, plan.LaunchHeight ?? default, plan.BurstHeight);
    }

    /// <summary>
    /// Mean ascent rate from launch to burst, m/s: a balloon climbs faster aloft than at launch. The plan's rate where it
    /// does not get there.
    /// </summary>
    public static double MeanAscentMps(FlightPlan plan) => UpSeconds(plan) is { } seconds
        ? (plan.BurstHeight.Metres - (plan.LaunchHeight?.Metres ?? 0)) / seconds : plan.AscentRateMps;

    /// <summary>Seconds from launch to landing; null: not known.</summary>
    public static double? Seconds(FlightPlan plan) => UpSeconds(plan) + DescentResult.Of(plan).Seconds;

    /// <summary>When it lands after a launch at a moment; null: not known.</summary>
    public static Instant? Landing(FlightPlan plan, Instant launch) =>
        Seconds(plan) is { } seconds ? launch.PlusSeconds(seconds) : null;

    /// <summary>True when the Sun is below the horizon at a place and moment.</summary>
    public static bool Dark(GeoPoint at, Instant utc) => Sun.Position(at, utc).AltitudeDeg < Sun.RiseSetDeg;
}
