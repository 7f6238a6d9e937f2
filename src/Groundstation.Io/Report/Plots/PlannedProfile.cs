using Groundstation.Core.Air;
using Groundstation.Core.Plan;

namespace Groundstation.Io.Report.Plots;

/// <summary>
/// The planned flight by time: the planned ascent rate up to the planned burst, then the fall v(h) = v₀·√(ρ₀/ρ(h)) in
/// the 1976 atmosphere down to the planned ground.
/// </summary>
internal static class PlannedProfile
{
    private const double StepS = 10;

    /// <summary>Its points from the launch on.</summary>
    public static IEnumerable<(double Seconds, double HeightM, double RateMps)> Of(FlightRecord record,
        FlightFigures figures)
    {
        double ground = figures.Origin?.Height.Metres ?? record.Plan.LaunchHeight?.Metres ?? 0;
        double top = record.Plan.BurstHeight.Metres, up = FlightTimes.MeanAscentMps(record.Plan);
        double climb = (top - ground) / up;
        if (!(climb > 0))
            yield break;
        yield return (0, ground, up);
        yield return (climb, top, up);
        AtmosphereProfile air = new();
        double landing = record.Plan.LandingGround?.Metres ?? ground, height = top, time = climb;
        while (height > landing && time < climb + 6 * 3600)
        {
            double rate = record.Plan.DescentRateSeaLevelMps
                * Math.Sqrt(air.DensityKgM3(0) / air.DensityKgM3(height));
            yield return (time, height, -rate);
            double step = Math.Min(StepS, (height - landing) / rate);
            height -= rate * step;
            time += step;
            if (step < StepS)
            {
                yield return (time, landing, -rate);
                yield break;
            }
        }
    }
}
