using Groundstation.Console.Cells;
using Groundstation.Core.Fill;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Console.Sheets;

/// <summary>Doubts about a plan in words, each with its figure and a way out.</summary>
internal static class DoubtWords
{
    /// <summary>The section: what is wrong first, then what deserves a second look.</summary>
    public static SheetSection Of(FlightPlan plan)
    {
        SheetSection sheet = new("What to check");
        foreach (PlanDoubt doubt in PlanDoubts.Of(plan))
            sheet.Line($"- {(PlanDoubts.IsWrong(doubt) ? "WRONG: " : "")}{Say(doubt, plan)}");
        if (sheet.Rows.Count == 0) sheet.Line("- nothing wrong or doubtful was found in what the plan states");
        return sheet;
    }

    /// <summary>One doubt.</summary>
    public static string Say(PlanDoubt doubt, FlightPlan plan)
    {
        Amounts a = new(plan.Units);
        Figures fig = a.Fig;
        FillResult? r = FillResult.Of(plan);
        BalloonFill? fill = r?.Fill;
        return doubt switch
        {
            PlanDoubt.NegativeFreeLift => $"the free lift is negative: the gas lifts {a.Mass(fill!.GrossLiftKg)}, "
                + "balloon and load "
                + $"weigh {a.Mass(fill.BalloonKg + fill.CarriedKg)}. " + (plan.Fill.Wanted?.Aim == FillAim.BurstHeight
                    ? "So high a burst needs a larger balloon or less load." : "More gas, or less load."),
            PlanDoubt.BurstBelowLaunch => r is null || fill!.DiameterM < r.BurstDiameterM
                ? "the burst lies at or below the launch height: check balloon.burst_height and launch.height."
                : $"the fill is {a.Length(fill.DiameterM)} across, the balloon bursts at "
                    + $"{a.Length(r.BurstDiameterM)}: it bursts "
                    + "while being filled. Less gas or a larger balloon; check burst_diameter and its unit.",
            PlanDoubt.BurstDiameterImpossible => $"a balloon of {a.Mass(fill!.BalloonKg)} does not burst at "
                + $"{a.Length(r!.BurstDiameterM)}: makers' sizes give about "
                + $"{a.Length(FillPlan.UsualBurstDiameter * Math.Sqrt(fill.BalloonKg))}. Check both and their units.",
            PlanDoubt.BurstTooHigh => "a burst "
                + (r is { Burst: null } ? "above the atmosphere" : "at " + fig.Height(plan.BurstHeight.Metres))
                + " is beyond what latex balloons reach: check burst diameter, masses and gas.",
            PlanDoubt.GroundAboveBurst => "the landing ground lies above the burst height: check landing.ground.",
            PlanDoubt.NotEnoughGas => $"the cylinders give {a.Gas(r!.CylindersGiveM3!.Value)}, the fill takes "
                + $"{a.Gas(fill!.VolumeM3)}: more cylinders, or a smaller fill.",
            PlanDoubt.AscentSlow => $"ascent at {a.Rate(plan.AscentRateMps)} is under {a.Rate(3)}: a long flight "
                + "that drifts far "
                + "and may float without bursting. More gas.",
            PlanDoubt.AscentFast => $"ascent at {a.Rate(plan.AscentRateMps)} is over {a.Rate(8)}: gas spent for a "
                + "lower burst. "
                + "Less gas.",
            PlanDoubt.LandingFast => $"landing at {a.Rate(DescentResult.Of(plan).LandingMps)} is over {a.Rate(7)}: "
                + "it may harm "
                + "people or the payload. A larger parachute.",
            PlanDoubt.LandingSlow => $"landing at {a.Rate(DescentResult.Of(plan).LandingMps)} is under {a.Rate(3)}: "
                + "it drifts far "
                + "and is hard to foretell. A smaller parachute.",
            PlanDoubt.BurstDiameterAssumed => $"burst diameter assumed ({a.Length(r!.BurstDiameterM)}, the middle of "
                + "makers' "
                + "sizes for this mass): state balloon.burst_diameter.",
            PlanDoubt.AscentDiffers => $"the plan states an ascent rate of {a.Rate(plan.AscentRateMps)}, the fill "
                + "gives "
                + $"{a.Rate(fill!.AscentRateMps)}: the stated one is used in flight.",
            PlanDoubt.BurstDiffers => $"the plan states a burst at {fig.Height(plan.BurstHeight.Metres)}, the fill "
                + "gives "
                + $"{fig.Height(r!.Burst!.Value.Metres)}: the stated one is used in flight.",
            PlanDoubt.SitePressureOdd => $"{a.AirPressure(fill!.Air.PressurePa)} is no pressure of a place "
                + $"{fig.Height(plan.LaunchHeight?.Metres ?? 0)} high (standard "
                + $"{a.AirPressure(SiteAir.Standard(plan.LaunchHeight ?? default).PressurePa)}): was it reduced to "
                + "sea level?",
            PlanDoubt.GasImpure => $"gas of {Figures.Number(plan.Fill.Gas.Purity * 100, 0)} % is poor: check "
                + "fill.purity.",
            PlanDoubt.HydrogenBurns => "hydrogen burns with a flame that is hard to see: no spark, no static, no "
                + "smoking, "
                + "ground the gear, fill outdoors; only people trained in it.",
            PlanDoubt.TrackerLimitBelowBurst => $"the tracker's receiver gives no fix above "
                + $"{fig.Height(plan.TrackerAltitudeLimit!.Value.Metres)}, below the burst: expect silence at the top.",
            PlanDoubt.TrackerLimitUnknown => "the tracker's altitude limit is not stated: many receivers stop at "
                + Measure.Level(18_000).In(plan.Units) + "; read its manual and state tracker.altitude_limit.",
            PlanDoubt.LoadUnknown => $"the load is not stated, {a.Mass(plan.DescentMassKg)} is assumed: weigh it and "
                + "state "
                + "[payload].",
            PlanDoubt.ParachuteUnknown => $"the parachute is not stated, {a.Rate(plan.DescentRateSeaLevelMps)} at "
                + "sea level is "
                + "assumed: state its shape and diameter.",
            PlanDoubt.LandingInDarkness =>
                $"it lands in darkness ({FlightSheet.Daylight(plan.LaunchSite!.Value, plan.LaunchUtc!.Value)}"
                + "): launch earlier, or do not search until it is light.",
            PlanDoubt.LaunchInDarkness => "it is launched in darkness: work on gas, knots and release needs light.",
            _ => throw new ArgumentOutOfRangeException(nameof(doubt), doubt, "has no words"),
        };
    }
}
