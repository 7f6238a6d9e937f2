using System.Collections.Immutable;
using Groundstation.Core.Earth;
using Groundstation.Core.Fill;

namespace Groundstation.Core.Plan;

/// <summary>Something about a plan that cannot be, or that deserves a second look.</summary>
public enum PlanDoubt
{
    /// <summary>The gas does not lift balloon and load.</summary>
    NegativeFreeLift,

    /// <summary>The fill is larger than the burst diameter, or it bursts at or below the launch height.</summary>
    BurstBelowLaunch,

    /// <summary>No balloon of this mass stretches so far, or it would burst nearly unstretched.</summary>
    BurstDiameterImpossible,

    /// <summary>No latex balloon has been so high.</summary>
    BurstTooHigh,

    /// <summary>The ground where it lands lies above the burst.</summary>
    GroundAboveBurst,

    /// <summary>The cylinders do not hold the fill.</summary>
    NotEnoughGas,

    /// <summary>Ascent under 3 m/s: a long flight that may float.</summary>
    AscentSlow,

    /// <summary>Ascent over 8 m/s: much gas for little height.</summary>
    AscentFast,

    /// <summary>Landing faster than 7 m/s.</summary>
    LandingFast,

    /// <summary>Landing slower than 3 m/s: it drifts far.</summary>
    LandingSlow,

    /// <summary>The burst diameter is not stated.</summary>
    BurstDiameterAssumed,

    /// <summary>The plan states another ascent rate than the fill gives.</summary>
    AscentDiffers,

    /// <summary>The plan states another burst height than the fill gives.</summary>
    BurstDiffers,

    /// <summary>The site's pressure is not that of its height: one reduced to sea level, perhaps.</summary>
    SitePressureOdd,

    /// <summary>The gas is less than 90 % pure.</summary>
    GasImpure,

    /// <summary>The gas burns.</summary>
    HydrogenBurns,

    /// <summary>The tracker's receiver gives no fix above a height below the burst.</summary>
    TrackerLimitBelowBurst,

    /// <summary>Nothing says how high the tracker's receiver works.</summary>
    TrackerLimitUnknown,

    /// <summary>Nothing says how heavy the load is.</summary>
    LoadUnknown,

    /// <summary>Nothing says how it comes down.</summary>
    ParachuteUnknown,

    /// <summary>It lands in darkness, as the Sun stands at the launch site.</summary>
    LandingInDarkness,

    /// <summary>It is launched in darkness.</summary>
    LaunchInDarkness,
}

/// <summary>Judges a plan. Limits are common practice unless said.</summary>
public static class PlanDoubts
{
    /// <summary>The doubts that no flight should start with: the plan contradicts itself or nature.</summary>
    public static bool IsWrong(PlanDoubt doubt) => doubt <= PlanDoubt.NotEnoughGas;

    /// <summary>All that is doubtful, the worst first.</summary>
    public static ImmutableArray<PlanDoubt> Of(FlightPlan plan)
    {
        FillResult? fill = FillResult.Of(plan);
        DescentResult descent = DescentResult.Of(plan);
        SortedSet<PlanDoubt> doubts = [];
        void When(bool holds, PlanDoubt doubt)
        {
            if (holds) doubts.Add(doubt);
        }

        if (fill is not null) Judge(plan, fill, When);
        double ascent = plan.AscentRateMps, top = plan.BurstHeight.Metres;
        bool climbs = fill is null || (fill.Fill.FreeLiftKg > 0 && fill.Burst is not null);
        When(climbs && ascent < 3, PlanDoubt.AscentSlow);
        When(climbs && ascent > 8, PlanDoubt.AscentFast);
        // The highest of latex balloons reached 51 km (2014).
        When(climbs && top > 45_000, PlanDoubt.BurstTooHigh);
        When(climbs && top <= (plan.LaunchHeight?.Metres ?? double.MinValue), PlanDoubt.BurstBelowLaunch);
        When(descent.Seconds is null, PlanDoubt.GroundAboveBurst);
        When(descent.LandingMps > 7, PlanDoubt.LandingFast);
        When(descent.LandingMps < 3, PlanDoubt.LandingSlow);
        When(plan.TrackerAltitudeLimit is { } limit && limit.Metres < top, PlanDoubt.TrackerLimitBelowBurst);
        When(plan.TrackerAltitudeLimit is null, PlanDoubt.TrackerLimitUnknown);
        bool States(string section) => plan.Stated.Any(k => k.StartsWith(section, StringComparison.Ordinal));
        When(!plan.Stated.Contains("payload.mass_kg") && plan.Load.SumKg is null, PlanDoubt.LoadUnknown);
        When(!States("parachute.d"), PlanDoubt.ParachuteUnknown);
        if (plan is { LaunchSite: { } site, LaunchUtc: { } launch })
        {
            When(FlightTimes.Dark(site, launch), PlanDoubt.LaunchInDarkness);
            When(FlightTimes.Landing(plan, launch) is { } landing && FlightTimes.Dark(site, landing),
                PlanDoubt.LandingInDarkness);
        }

        return [.. doubts];
    }

    private static void Judge(FlightPlan plan, FillResult r, Action<bool, PlanDoubt> when)
    {
        FillPlan p = plan.Fill;
        BalloonFill fill = r.Fill;
        when(fill.FreeLiftKg <= 0, PlanDoubt.NegativeFreeLift);
        double stretch = r.BurstDiameterM / Math.Sqrt(fill.BalloonKg);
        // Makers' sizes lie between 5.7 and 8.3 m/√kg: the film's thickness at burst follows from it.
        when(stretch is < 4 or > 10, PlanDoubt.BurstDiameterImpossible);
        bool inFill = fill.DiameterM >= r.BurstDiameterM;
        bool noEnd = !inFill && fill.BurstHeight(r.BurstDiameterM) is null;
        when(inFill || (r.Burst is null && !noEnd && fill.FreeLiftKg > 0), PlanDoubt.BurstBelowLaunch);
        when(noEnd, PlanDoubt.BurstTooHigh);
        when(p.BurstDiameterM is null, PlanDoubt.BurstDiameterAssumed);
        when(r.Cylinders is not null && r.GaugeAfterPa is null, PlanDoubt.NotEnoughGas);
        when(fill.FreeLiftKg > 0 && Math.Abs(plan.AscentRateMps / fill.AscentRateMps - 1) > 0.1,
            PlanDoubt.AscentDiffers);
        when(r.Burst is { } burst && Math.Abs(plan.BurstHeight.Metres - burst.Metres) > 1500, PlanDoubt.BurstDiffers);
        double standard = SiteAir.Standard(plan.LaunchHeight ?? default).PressurePa;
        // The deepest and highest pressures of the weather lie 8 % around the standard.
        when(Math.Abs(fill.Air.PressurePa / standard - 1) > 0.08, PlanDoubt.SitePressureOdd);
        when(p.Gas.Purity < 0.9, PlanDoubt.GasImpure);
        when(p.Gas.Kind == GasKind.Hydrogen, PlanDoubt.HydrogenBurns);
    }
}
