using Groundstation.Core.Earth;
using Groundstation.Core.Fill;

namespace Groundstation.Core.Plan;

/// <summary>What the plan's balloon, gas and masses come to.</summary>
/// <param name="Fill">The fill.</param>
/// <param name="BurstDiameterM">Burst diameter, stated or usual, m.</param>
/// <param name="Burst">Burst height; null: it bursts while being filled, or would rise out of the atmosphere.</param>
/// <param name="UpSeconds">Time from launch to burst, s; null: it does not climb, or there is no burst.</param>
/// <param name="Cylinders">The cylinders; null: not stated.</param>
public sealed record FillResult(BalloonFill Fill, double BurstDiameterM, HeightMsl? Burst, double? UpSeconds,
    Cylinder? Cylinders)
{
    /// <summary>Works it out; null when the plan states no balloon.</summary>
    public static FillResult? Of(FlightPlan plan)
    {
        FillPlan p = plan.Fill;
        if (p.BalloonKg is not { } balloonKg) return null;
        HeightMsl launch = plan.LaunchHeight ?? default;
        SiteAir standard = SiteAir.Standard(launch);
        SiteAir air = new(p.SitePressurePa ?? standard.PressurePa,
            p.SiteTemperatureC is { } c ? c + 273.15 : standard.TemperatureK);
        Cylinder? cylinders = p is { CylinderM3: { } water, CylinderGaugePa: { } gauge }
            ? new(water, gauge + air.PressurePa, p.CylinderTemperatureC is { } warm ? warm + 273.15 : air.TemperatureK,
                p.Cylinders) : null;
        BalloonFill empty = new(p.Gas, air, balloonKg, plan.DescentMassKg, 0, p.DragCoefficient);
        double burstM = p.BurstDiameterOrUsualM;
        (FillAim aim, double value) = p.Wanted ?? (FillAim.AscentRate, plan.AscentRateMps);
        BalloonFill fill = aim switch
        {
            FillAim.AscentRate => empty.WithAscentRate(value),
            FillAim.FreeLift => empty.WithFreeLift(value),
            FillAim.BurstHeight => empty.WithBurstHeight(new(value), burstM),
            FillAim.Gas => empty with { VolumeM3 = value },
            _ => empty with { VolumeM3 = air.VolumeM3(cylinders?.UsableMol(p.Gas.Kind, air) ?? 0) },
        };
        HeightMsl? burst = fill.BurstHeight(burstM);
        if (burst is { } at && at.Metres <= launch.Metres) burst = null;
        return new(fill, burstM, burst, burst is { } top ? Climb.Seconds(fill, launch, top) : null, cylinders);
    }

    /// <summary>What is left in the cylinders, Pa on their gauge; null: not stated, or they do not hold
    /// enough.</summary>
    public double? GaugeAfterPa => Cylinders?.PressureAfterPa(Fill.Gas.Kind, Fill.AmountMol) is { } left
        && left >= Fill.Air.PressurePa ? left - Fill.Air.PressurePa : null;

    /// <summary>What the cylinders give, m³ at the site; null: not stated.</summary>
    public double? CylindersGiveM3 =>
        Cylinders is { } c ? Fill.Air.VolumeM3(c.UsableMol(Fill.Gas.Kind, Fill.Air)) : null;

    /// <summary>Seconds that the fill takes at a flow, m³/s.</summary>
    public double Seconds(double flowM3PerS) => Fill.VolumeM3 / flowM3PerS;
}
