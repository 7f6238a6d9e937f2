using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Plan;

namespace Groundstation.Io.Report;

/// <summary>Plan against flown.</summary>
internal static class PlanSection
{
    /// <summary>Writes it, where there was a flight.</summary>
    public static void Write(Html page, FlightRecord record, FlightFigures figures)
    {
        if (!figures.Flew)
            return;
        page.Raw("<section>").Heading("Plan against flown");
        page.Table(["", "planned", "flown", "difference"], Rows(record, figures));
        page.Remark("Descent rates are those at sea level in the standard atmosphere; higher up the same canopy falls "
            + "faster, by the square root of the density. “Default” is what the station takes where a plan says "
            + "nothing. ± holds in 95 of 100 flights.");
        page.Raw("</section>");
    }

    private static IEnumerable<IReadOnlyList<string>> Rows(FlightRecord record, FlightFigures figures)
    {
        FlightPlan plan = record.Plan;
        FlightState flight = record.Last.Flight;
        ReportUnits units = ReportUnits.Of(record);
        bool filled = FillResult.Of(plan) is { Fill.FreeLiftKg: > 0, Burst: not null };
        yield return Row("Mean ascent rate", FlightTimes.MeanAscentMps(plan), figures.MeanAscentMps, units.Rate,
            $" ± {Html.Number(2 * plan.AscentRateLnSigma * 100, 0)} %", Origin("balloon.ascent_rate_mps", filled));
        string[] burst = Row("Burst height above mean sea level", plan.BurstHeight.Metres,
            flight.BurstHeard ? flight.Burst?.Height.Metres : null, units.Height,
            $" ± {units.Height(2 * plan.BurstSigmaM)}", Origin("balloon.burst_height_m", filled));
        yield return flight is { BurstHeard: false, Burst: { } falling }
            ? [burst[0], burst[1], $"above {units.Height(falling.Height.Metres)}, not heard", ""] : burst;
        yield return Row("Descent rate at sea level", plan.DescentRateSeaLevelMps,
            figures.DescentRateSeaLevelMps, units.Rate, $" ± {Html.Number(2 * plan.DescentRateLnSigma * 100, 0)} %",
            plan.CanopyDragAreaM2 is not null ? "" : Origin("parachute.descent_rate_mps"));
        if (flight.Launch is { } launch && figures.Burst is { } top && flight.BurstHeard
            && FlightTimes.UpSeconds(plan) is { } up)
        {
            yield return Row("Climb", up, top.Utc.SecondsSince(launch.Utc), Html.Duration, "",
                Origin("balloon.burst_height_m", filled));
        }

        if (plan.LaunchSite is { } site && flight.Launch is { } from)
        {
            yield return ["Launch site", site.ToString(), from.Position.ToString(),
                units.Distance(Geodesic.DistanceM(site, from.Position))];
        }

        if (plan.LandingGround is { } ground)
        {
            yield return Row("Ground at the landing above mean sea level", ground.Metres,
                flight.Landed?.Height.Metres, units.Height, "", "");
        }

        string Origin(string key, bool fromFill = false) => plan.Stated.Contains(key) ? ""
            : fromFill ? " (from the fill)" : " (default)";
    }

    private static string[] Row(string name, double planned, double? flown, Func<double, string> text, string spread,
        string origin) =>
    [
        name, text(planned) + spread + origin,
        flown is { } f ? text(f) : "not measured",
        flown is { } g ? $"{(g >= planned ? "+" : "−")}{text(Math.Abs(g - planned))}"
            + (planned > 0 ? $", {(g >= planned ? "+" : "−")}{Html.Number(Math.Abs(g / planned - 1) * 100, 0)} %" : "") : "",
    ];
}
