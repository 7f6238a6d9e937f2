using Groundstation.Core.Flight;
using Groundstation.Core.Plan;

namespace Groundstation.Core.Landing;

/// <summary>
/// Where the balloon may burst around the place where it is expected to: an ensemble over winds, ascent rate and burst
/// height, with the same draws as the landing's.
/// </summary>
/// <param name="plan">The plan: seed, burst height.</param>
internal sealed class BurstSpread(FlightPlan plan)
{
    private const double GustMps = 0.6, GustS = 10;

    /// <summary>Areas around the burst that is expected from a height on.</summary>
    /// <param name="flight">What is known of winds and climb.</param>
    /// <param name="startM">Height now, metres above mean sea level.</param>
    public (SearchArea Half, SearchArea Most) Areas(FlightTracker flight, double startM)
    {
        var draws = new Draws(plan.Seed);
        var scatter = new Scatter();
        var climb = new ClimbTable();
        var east = new double[Levels.Count];
        var north = new double[Levels.Count];
        flight.Winds.FillLevels(east, north);
        climb.Fill(startM, flight.Ascent.Mps, east, north);
        var burst = new BurstOutlook(plan.BurstHeight.Metres, plan.BurstSigmaM, startM);
        (_, double expectedE, double expectedN) = climb.At(Top(burst.Expected()));
        var sigma = new double[Draws.BurstClasses];
        for (int c = 0; c < sigma.Length; c++)
            sigma[c] = WindSigma(flight, climb, startM, Top(burst.Quantile((c + 0.5) / sigma.Length)));
        for (int k = 0; k < Draws.Count; k++)
        {
            ReadOnlySpan<double> x = draws.Of(k);
            double top = Top(burst.Quantile(Math.Clamp(draws.Burst[k], 1e-6, 1 - 1e-6)));
            (double seconds, double e, double n) = climb.At(top);
            double slower = Math.Exp(-x[4] * flight.Ascent.LnSigma(top - startM));
            double wind = slower * sigma[Math.Min((int)(draws.Burst[k] * sigma.Length), sigma.Length - 1)];
            scatter.East[k] = e * slower + x[5] * wind - expectedE;
            scatter.North[k] = n * slower + x[6] * wind - expectedN;
            scatter.Seconds[k] = seconds * slower;
        }

        return scatter.Areas(0, 0);
    }

    private static double Top(double heightM) => Math.Min(heightM, Levels.TopM - Levels.StepM);

    private static double WindSigma(FlightTracker flight, ClimbTable climb, double startM, double topM)
    {
        var path = new NodeWeights();
        var last = climb.At(startM);
        for (int level = Levels.Below(startM) + 1; level < Levels.Count; level++)
        {
            double z = Math.Min(Levels.HeightM(level), topM);
            var now = climb.At(z);
            path.Add(z - Levels.StepM / 2, now.Seconds - last.Seconds, now.Seconds);
            last = now;
            if (z >= topM) break;
        }

        var byNode = new double[WindNodes.Count];
        flight.Winds.DriftVariance(path, byNode);
        return Math.Sqrt(byNode.Sum() + 2 * GustMps * GustMps * GustS * last.Seconds);
    }
}
