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
            + "nothing.");
        page.Raw("</section>");
    }

    private static IEnumerable<IReadOnlyList<string>> Rows(FlightRecord record, FlightFigures figures)
    {
        FlightPlan plan = record.Plan;
        FlightState flight = record.Last.Flight;
        yield return Row("Ascent rate", plan.AscentRateMps, figures.MeanAscentMps, "m/s", 1,
            Stated("balloon.ascent_rate_mps"));
        IReadOnlyList<string> burst = Row("Burst height", plan.BurstHeight.Metres,
            flight.BurstHeard ? flight.Burst?.Height.Metres : null, "m", 0, Stated("balloon.burst_height_m"),
            $" ± {Html.Whole(plan.BurstSigmaM)}");
        yield return flight is { BurstHeard: false, Burst: { } falling }
            ? [burst[0], burst[1], $"above {Html.Metres(falling.Height.Metres)}, not heard", ""] : burst;
        yield return Row("Descent rate at sea level", plan.DescentRateSeaLevelMps,
            figures.DescentRateSeaLevelMps, "m/s", 1,
            Stated("parachute.descent_rate_mps") || Stated("parachute.drag_area_m2"),
            $" ± {Html.Number(plan.DescentRateLnSigma * 100, 0)} %");
        if (flight.Launch is { } launch && figures.Burst is { } top && flight.BurstHeard)
        {
            yield return Row("Climb", (plan.BurstHeight.Metres - launch.Height.Metres) / plan.AscentRateMps / 60,
                top.Utc.SecondsSince(launch.Utc) / 60, "min", 0, Stated("balloon.burst_height_m"));
        }

        if (plan.LaunchSite is { } site && flight.Launch is { } from)
        {
            yield return ["Launch site", site.ToString(), from.Position.ToString(),
                Html.Distance(Geodesic.DistanceM(site, from.Position))];
        }

        if (plan.LandingGround is { } ground)
        {
            yield return Row("Ground at the landing", ground.Metres, flight.Landed?.Height.Metres, "m", 0,
                Stated("landing.ground_m"));
        }

        bool Stated(string key) => plan.Stated.Contains(key);
    }

    private static IReadOnlyList<string> Row(string name, double planned, double? flown, string unit, int decimals,
        bool stated, string more = "")
    {
        string Text(double value) => decimals == 0 ? Html.Whole(value) : Html.Number(value, decimals);
        return
        [
            name, $"{Text(planned)}{more} {unit}".Replace("% m/s", "%", StringComparison.Ordinal)
                + (stated ? "" : " (default)"),
            flown is { } f ? $"{Text(f)} {unit}" : "not measured",
            flown is { } g ? $"{(g >= planned ? "+" : "−")}{Text(Math.Abs(g - planned))} {unit} "
                + $"({(g >= planned ? "+" : "−")}{Html.Number(Math.Abs(g / planned - 1) * 100, 0)} %)" : "",
        ];
    }
}
