using Groundstation.Core.Earth;
using Groundstation.Core.Fill;

namespace Groundstation.Core.Plan;

/// <summary>The parachute as the plan states it.</summary>
public sealed record CanopyPlan
{
    /// <summary>Shape. Default flat circular.</summary>
    public CanopyShape Shape { get; init; } = CanopyShape.All[0];

    /// <summary>Nominal diameter, m; null: not stated.</summary>
    public double? DiameterM { get; init; }
}

/// <summary>The descent that the plan leads to, in calm standard air.</summary>
/// <param name="Fall">Mass and drag area.</param>
/// <param name="Ground">Ground where it lands.</param>
/// <param name="LandingMps">Rate there, m/s.</param>
/// <param name="Seconds">Time down from the burst, s; null: the burst lies below the ground.</param>
/// <param name="DiameterM">Nominal diameter, m, of a canopy of the plan's shape with this drag area.</param>
public sealed record DescentResult(CanopyFall Fall, HeightMsl Ground, double LandingMps, double? Seconds,
    double DiameterM)
{
    /// <summary>Energy at the landing, J.</summary>
    public double EnergyJ => Fall.EnergyJ(LandingMps);

    /// <summary>Works it out.</summary>
    public static DescentResult Of(FlightPlan plan)
    {
        CanopyFall fall = plan.CanopyDragAreaM2 is { } area ? new(plan.DescentMassKg, area)
            : CanopyFall.WithRate(plan.DescentMassKg, plan.DescentRateSeaLevelMps, new(0));
        HeightMsl ground = plan.LandingGround ?? plan.LaunchHeight ?? default;
        double? seconds = plan.BurstHeight.Metres > ground.Metres ? fall.Fall(plan.BurstHeight, ground).Seconds : null;
        return new(fall, ground, fall.SteadyMps(ground.Metres), seconds, plan.Canopy.Shape.DiameterM(fall.DragAreaM2));
    }
}
