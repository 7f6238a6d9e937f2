using Groundstation.Console.Cells;
using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Fill;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Console.Sheets;

/// <summary>Up and down: rates, heights and times.</summary>
internal static class FlightSheet
{
    /// <summary>Launch, climb and burst.</summary>
    public static SheetSection Flight(FlightPlan plan)
    {
        Amounts a = new(plan.Units);
        FillResult? r = FillResult.Of(plan);
        SheetSection sheet = new("Flight");
        sheet.Row("launch", string.Join(", ", ((string?[])[plan.Notice.Place is { Length: > 0 } words ? words : null,
            plan.LaunchSite is { } site ? Figures.Place(site) : null,
            plan.LaunchHeight is { } h ? a.Fig.Height(h.Metres) : "height not stated, taken as sea level"])
            .Where(x => x is not null)));
        sheet.Row("launch time", plan.LaunchUtc is { } utc ? $"{Figures.Date(utc)} {Figures.Clock(utc)} UTC"
            : "not stated (launch.time_utc)");
        string Origin(string key, bool filled) => Stated(plan, key) ? "stated"
            : r is null ? "assumed" : filled ? "from the fill" : "assumed: the fill does not get there";
        sheet.Row("ascent rate", $"{a.Rate(plan.AscentRateMps)} at launch ±"
            + $"{Figures.Number(2 * plan.AscentRateLnSigma * 100, 0)} %, "
            + Origin("balloon.ascent_rate_mps", r?.Fill.FreeLiftKg > 0));
        sheet.Row("burst", $"at {a.Fig.Height(plan.BurstHeight.Metres)} ±{a.Fig.Height(2 * plan.BurstSigmaM)}, "
            + Origin("balloon.burst_height_m", r?.Burst is not null));
        double air = StandardAtmosphere.TemperatureK(plan.BurstHeight.Metres) - 273.15;
        sheet.Row("air outside there", $"about {a.Temperature(air)} (standard atmosphere)");
        if (FlightTimes.UpSeconds(plan) is { } up)
        {
            sheet.Row("time up", Amounts.Minutes(up) + Clock(plan, up));
            if (DescentResult.Of(plan).Seconds is { } down)
            {
                sheet.Row("time down", Amounts.Minutes(down));
                sheet.Row("in the air", Amounts.Minutes(up + down) + Clock(plan, up + down, "lands at "));
            }
        }

        if (plan is { LaunchSite: { } place, LaunchUtc: { } day }) sheet.Row("daylight there", Daylight(place, day));
        return sheet;
    }

    /// <summary>Sunrise and sunset at a place on the day of a moment.</summary>
    public static string Daylight(GeoPoint at, Instant utc)
    {
        SunDay sun = Sun.DayOf(at, utc);
        return (sun.Rise, sun.Set) is ({ } rise, { } set)
            ? $"sunrise {Figures.Clock(rise)[..5]}, sunset {Figures.Clock(set)[..5]} UTC"
            : sun.AboveAtNoon ? "the Sun does not set" : "the Sun does not rise";
    }

    /// <summary>The parachute.</summary>
    public static SheetSection Descent(FlightPlan plan)
    {
        Amounts a = new(plan.Units);
        DescentResult d = DescentResult.Of(plan);
        CanopyShape shape = plan.Canopy.Shape;
        SheetSection sheet = new("Descent");
        sheet.Row("comes down", a.Mass(plan.DescentMassKg));
        string cd = $"{shape.Name}, Cd {Figures.Number(shape.CdLow, 2)} to {Figures.Number(shape.CdHigh, 2)}";
        if (plan.Canopy.DiameterM is { } diameter)
            sheet.Row("parachute", $"{cd}, {a.Length(diameter)} across (nominal): drag area "
                + $"{a.Area(d.Fall.DragAreaM2)}");
        else if (plan.CanopyDragAreaM2 is { } area)
            sheet.Row("parachute", $"drag area {a.Area(area)} (stated), as of a {shape.Name} one "
                + $"{a.Length(d.DiameterM)} across");
        else
            sheet.Row("diameter for it", $"{a.Length(d.DiameterM)} ({cd}) for {a.Rate(plan.DescentRateSeaLevelMps)} "
                + "at sea level"
                + (Stated(plan, "parachute.descent_rate_mps") ? "" : " (assumed)"));
        sheet.Row("rate at sea level", $"{a.Rate(plan.DescentRateSeaLevelMps)} ±"
            + $"{Figures.Number(2 * plan.DescentRateLnSigma * 100, 0)} %");
        sheet.Row("rate at landing", $"{a.Rate(d.LandingMps)} on ground at {a.Fig.Height(d.Ground.Metres)}"
            + (plan.LandingGround is null ? " (as high as the launch site)" : ""));
        sheet.Row("energy at landing", a.Energy(d.EnergyJ) + ", as a fall from "
            + a.Length(d.LandingMps * d.LandingMps / (2 * AtmosphereProfile.StandardGravity)));
        if (d.Seconds is { } seconds)
        {
            sheet.Row("time down", $"{Amounts.Minutes(seconds)} from the burst; fastest just after it, about "
                + a.Rate(d.Fall.SteadyMps(plan.BurstHeight.Metres)));
        }

        return sheet;
    }

    private static string Clock(FlightPlan plan, double seconds, string verb = "") => plan.LaunchUtc is { } launch
        ? $", {verb}{Figures.Clock(launch.PlusSeconds(Math.Round(seconds / 60) * 60))[..5]} UTC" : "";

    private static bool Stated(FlightPlan plan, string key) => plan.Stated.Contains(key);
}
