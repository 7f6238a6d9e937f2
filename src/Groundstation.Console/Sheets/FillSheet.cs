using Groundstation.Console.Cells;
using Groundstation.Core.Fill;
using Groundstation.Core.Plan;

namespace Groundstation.Console.Sheets;

/// <summary>The fill: what to weigh, what to hang under the neck, how much gas.</summary>
internal static class FillSheet
{
    /// <summary>The section; says what is missing when the plan states no balloon.</summary>
    public static SheetSection Of(FlightPlan plan)
    {
        SheetSection sheet = new("Fill");
        if (FillResult.Of(plan) is not { } r)
            return sheet.Line("No balloon in the plan: state balloon.mass_kg (and its burst_diameter_m) for the fill.");
        Amounts a = new(plan.Units);
        FillPlan p = plan.Fill;
        BalloonFill fill = r.Fill;
        string purity = p.Gas.Purity < 1 ? $", {Figures.Number(p.Gas.Purity * 100, 1)} % pure" : ", taken as pure";
        sheet.Row("wanted", Wanted(plan, a))
            .Row("gas", (p.Gas.Kind == GasKind.Helium ? "helium" : "hydrogen") + purity)
            .Row("air at the site", $"{a.AirPressure(fill.Air.PressurePa)}, "
                + $"{a.Temperature(fill.Air.TemperatureK - 273.15)}"
                + (p.SitePressurePa is null || p.SiteTemperatureC is null ? " (standard atmosphere where not "
                + "stated)" : ""))
            .Row("balloon", $"{a.Mass(fill.BalloonKg)}, bursts at {a.Length(r.BurstDiameterM)}"
                + (p.BurstDiameterM is null ? " (assumed)" : ""))
            .Row("carried", a.Mass(fill.CarriedKg) + Parts(plan.Load, a));
        if (fill.FreeLiftKg <= 0)
        {
            return sheet.Row("free lift", $"NEGATIVE: {a.Mass(-fill.FreeLiftKg)} too little. It does not leave the "
                + "ground.")
                .Row("gas needed", "more than " + a.Gas(fill.WithFreeLift(0).VolumeM3) + " only to float");
        }

        sheet.Row("gas to fill", $"{a.Gas(fill.VolumeM3)} at the site "
                + $"({a.Gas(fill.VolumeAt0CM3)} at {a.Temperature(0)}, {a.AirPressure(101_325)})")
            .Row("diameter at launch", a.Length(fill.DiameterM))
            .Row("free lift", a.Mass(fill.FreeLiftKg))
            .Row("NECK LIFT", a.Mass(fill.NeckLiftKg))
            .Row("", $"Hang {a.Mass(fill.NeckLiftKg)} under the neck and fill until the balloon just holds it up: "
                + "then the "
                + "fill is right. The weight stands for load and free lift; hose, clamp and jug that hang on the "
                + "neck count "
                + "as part of it. The balloon's own mass is not in it: the balloon lifts itself already.");
        double water = fill.NeckLiftKg - p.JugKg;
        sheet.Row("water jug", water > 0
            ? $"{a.Water(water)} of water in a jug that weighs {a.Mass(p.JugKg)} with hose and clamp"
            : $"not possible: the empty jug ({a.Mass(p.JugKg)}) is heavier than the neck lift");
        Cylinders(sheet, plan, r, a);
        return sheet;
    }

    private static void Cylinders(SheetSection sheet, FlightPlan plan, FillResult r, Amounts a)
    {
        FillPlan p = plan.Fill;
        if (r.Cylinders is { } c)
        {
            string each = c.Count == 1 ? "1 cylinder" : $"{c.Count} cylinders";
            sheet.Row("cylinders", $"{each} at {a.GaugePressure(p.CylinderGaugePa!.Value)}: "
                + $"{a.Gas(r.CylindersGiveM3!.Value)} at the site, compressibility counted");
            sheet.Row("left after the fill", r.GaugeAfterPa is { } left
                ? $"{a.GaugePressure(left)} on the gauge once they are warm again (it shows less while they are cold)"
                : $"NOT ENOUGH GAS: {a.Gas(r.Fill.VolumeM3 - r.CylindersGiveM3.Value)} missing");
        }

        if (p.FlowM3PerS is { } flow)
            sheet.Row("time to fill", Amounts.Minutes(r.Seconds(flow)) + " at the regulator's flow");
    }

    private static string Wanted(FlightPlan plan, Amounts a) => plan.Fill.Wanted switch
    {
        (FillAim.AscentRate, var v) => $"an ascent rate of {a.Rate(v)} at launch",
        (FillAim.FreeLift, var v) => $"a free lift of {a.Mass(v)}",
        (FillAim.BurstHeight, var v) => $"a burst at {a.Fig.Height(v)}",
        (FillAim.Gas, var v) => $"to use {a.Gas(v)} of gas",
        (FillAim.AllCylinders, _) => "to use all the gas in the cylinders",
        _ => $"an ascent rate of {a.Rate(plan.AscentRateMps)} at launch (nothing stated under [fill])",
    };

    private static string Parts(LoadPlan load, Amounts a)
    {
        (string Name, double? Kg)[] parts =
        [
            ("boxes", load.BoxesKg), ("line", load.LineKg), ("parachute", load.ParachuteKg), ("flags", load.FlagsKg),
        ];
        string[] stated = [.. parts.Where(x => x.Kg is not null).Select(x => $"{x.Name} {a.Mass(x.Kg!.Value)}")];
        return stated.Length > 0 ? ": " + string.Join(", ", stated) : "";
    }
}
