using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using static Groundstation.Core.Quantities.Measure;

namespace Groundstation.Io.PlanFile;

/// <summary>What holds where a plan says nothing, and how to tell it.</summary>
public static class PlanDefaults
{
    /// <summary>
    /// Scatter of ln(descent rate) when a rate is planned; see <see cref="FlightPlan.DescentRateLnSigma"/>.
    /// </summary>
    public const double PlannedRateLnSigma = 0.2;

    /// <summary>Scatter of the burst height when one is planned, m; see <see cref="FlightPlan.BurstSigmaM"/>.</summary>
    public const double PlannedBurstSigmaM = 1500;

    private const double Gravity = 9.80665;          // m/s², standard (ISO 80000-3)
    private const double SeaLevelDensity = 1.225;    // kg/m³, US Standard Atmosphere 1976

    /// <summary>
    /// Rate of descent at sea level where weight and drag balance, m·g = ½·ρ₀·CdS·v²: v = √(2·m·g / (ρ₀·CdS)), m/s.
    /// </summary>
    /// <param name="massKg">Mass under the canopy, kg.</param>
    /// <param name="dragAreaM2">Drag area Cd·S, m².</param>
    public static double DescentRate(double massKg, double dragAreaM2) =>
        Math.Sqrt(2 * massKg * Gravity / (SeaLevelDensity * dragAreaM2));

    /// <summary>
    /// One line for each thing that matters to a flight and that the plan does not state. As everywhere that people read,
    /// 95 of 100 lie within what stands behind ±. In the plan's units.
    /// </summary>
    public static IReadOnlyList<string> Describe(FlightPlan plan)
    {
        List<string> lines = [];
        bool Open(params string[] keys) => !keys.Any(key => plan.Stated.Contains(key));
        void Say(Saying line) => lines.Add(line.In(plan.Units));

        if (Open("launch.latitude_deg"))
            Say($"launch site: where the first fixes are");
        if (Open("launch.height_m"))
            Say($"launch height: from the first fixes");
        if (Open("landing.ground_m"))
            Say($"ground where it lands: as high as the launch site");
        bool filled = FillResult.Of(plan) is { Fill.AscentRateMps: > 0, Burst: not null };
        if (!filled && Open("balloon.ascent_rate_mps"))
            Say($"ascent rate until measured: {VerticalRate(plan.AscentRateMps):G} "
                + $"± {2 * plan.AscentRateLnSigma * 100:F0} %");
        if (!filled && Open("balloon.burst_height_m"))
        {
            Measure height = HeightAloft(plan.BurstHeight.Metres), spread = HeightAloft(2 * plan.BurstSigmaM);
            Say($"burst height: {height:G} ± {spread:G}");
        }

        if (Open("parachute.drag_area_m2", "parachute.diameter_m", "parachute.descent_rate_mps"))
        {
            Measure rate = VerticalRate(plan.DescentRateSeaLevelMps);
            Say($"descent rate at sea level until measured: {rate:G} ± {2 * plan.DescentRateLnSigma * 100:F0} %");
        }

        else if (plan.Load.SumKg is null && Open("parachute.descent_rate_mps", "payload.mass_kg"))
        {
            Say($"mass under the parachute: {Mass(plan.DescentMassKg):G}");
        }

        if (Open("tracker.altitude_limit_m"))
            Say($"altitude limit of the tracker's receiver: none known");
        if (Open("tracker.min_satellites", "tracker.max_hdop"))
        {
            (int satellites, double hdop) = (plan.Belief.MinSatellites, plan.Belief.MaxHdop);
            Say($"a fix is believed from {satellites} satellites and up to HDOP {hdop}");
        }

        if (Open("wind", "winds"))
            Say($"wind forecast: none");
        if (Open("landing.keep_out"))
            Say($"areas to keep out of: none");
        if (Open("alarms.battery_low_v"))
            Say($"battery: not watched");
        return lines;
    }
}
