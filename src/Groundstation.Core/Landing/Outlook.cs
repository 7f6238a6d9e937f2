using System.Collections.Immutable;
using Groundstation.Core.Flight;
using Groundstation.Core.Plan;

namespace Groundstation.Core.Landing;

/// <summary>
/// The ensemble of landing places around the expected one, metres east and north of it: every member has its own winds,
/// fall, climb, burst height and ground, drawn from what is known of each.
/// </summary>
/// <param name="plan">The plan: seed, burst height, canopy.</param>
internal sealed class Outlook(FlightPlan plan)
{
    private const int CloudCount = 200;

    private readonly Draws _draws = new(plan.Seed);
    private readonly Scatter _scatter = new();
    private readonly FallSpread _spread = new();
    private readonly NodeWeights _path = new();
    private readonly double[] _sigma = new double[Draws.BurstClasses * 16];
    private readonly double[] _byNode = new double[WindNodes.Count];
    private readonly CauseShares _causes = new();

    /// <summary>Mean of the members against the expected landing, metres and seconds.</summary>
    public (double EastM, double NorthM, double Seconds) Mean { get; private set; }

    /// <summary>Standard deviation of the landing time, s.</summary>
    public double SecondsSigma { get; private set; }

    /// <summary>The areas around <see cref="Mean"/>.</summary>
    public (SearchArea Half, SearchArea Most) Areas { get; private set; }

    /// <summary>What makes the areas, in words.</summary>
    public string Causes { get; private set; } = "";

    /// <summary>Some members, metres east and north of the expected landing.</summary>
    public ImmutableArray<(double EastM, double NorthM)> Cloud { get; private set; } = [];

    /// <summary>Draws the ensemble anew.</summary>
    /// <param name="flight">What is known of winds, climb and fall.</param>
    /// <param name="climb">The expected climb; null when it falls already.</param>
    /// <param name="burst">Where it will burst, when it climbs.</param>
    /// <param name="fall">The expected fall, from the greatest height on.</param>
    /// <param name="startM">Height now.</param>
    /// <param name="topM">Expected burst height, or the height now.</param>
    /// <param name="ground">Height of the ground where it comes down.</param>
    /// <param name="groundMps">Speed of fall there.</param>
    public void Cast(FlightTracker flight, ClimbTable? climb, BurstOutlook burst, FallTable fall, double startM,
        double topM, GroundGuess ground, double groundMps)
    {
        var end = fall.At(ground.HeightM);
        var expected = Legs(climb, fall, topM, end);
        SpreadOfFall(flight, fall, topM, ground.HeightM);
        int classes = climb is null ? 1 : Draws.BurstClasses;
        for (int c = 0; c < classes; c++)
        {
            double height = climb is null ? topM : burst.Quantile((c + 0.5) / classes);
            SpreadOfWind(flight.Winds, climb, fall, startM, height, ground.HeightM, c);
        }
        var wind = flight.Winds.At(ground.HeightM);
        _causes.Clear();
        for (int k = 0; k < Draws.Count; k++)
        {
            ReadOnlySpan<double> x = _draws.Of(k);
            double top = climb is null ? topM : burst.Quantile(Math.Clamp(_draws.Burst[k], 1e-6, 1 - 1e-6));
            var own = climb is null ? expected : Legs(climb, fall, top, end);
            int h = Pick(flight.Winds.Weights, _draws.Wind[k]), f = Pick(flight.Descent.Weights, _draws.Fall[k]);
            (double ln, double shiftE, double shiftN, double shiftS) = _spread.Member(f, x);
            double slower = Math.Exp(-ln) - 1;
            double climbing = climb is null ? 0 : Math.Exp(-x[4] * flight.Ascent.LnSigma(top - startM)) - 1;
            double whole = own.ClimbS * (1 + climbing) + own.FallS * (1 + slower) + shiftS;
            double mean = own.ClimbS + own.FallS;
            double sigma = _sigma[(climb is null ? 0 : Math.Min((int)(_draws.Burst[k] * classes), classes - 1)) * 16 + h]
                * (mean > 0 ? Math.Max(whole / mean, 0) : 1);
            (double offE, double offN) = flight.Winds.DriftOffset(_path, h);
            double earlier = x[7] * ground.SigmaM / groundMps;

            var windPart = (E: x[5] * sigma + offE, N: x[6] * sigma + offN);
            var burstPart = (E: own.ClimbE + own.FallE - expected.ClimbE - expected.FallE,
                N: own.ClimbN + own.FallN - expected.ClimbN - expected.FallN);
            var fallPart = (E: own.FallE * slower, N: own.FallN * slower);
            var climbPart = (E: own.ClimbE * climbing, N: own.ClimbN * climbing);
            var groundPart = (E: -earlier * wind.EastMps, N: -earlier * wind.NorthMps);
            _causes.Add(windPart, burstPart, fallPart, climbPart, (shiftE, shiftN), groundPart);
            _scatter.East[k] = windPart.E + burstPart.E + fallPart.E + climbPart.E + shiftE + groundPart.E;
            _scatter.North[k] = windPart.N + burstPart.N + fallPart.N + climbPart.N + shiftN + groundPart.N;
            _scatter.Seconds[k] = whole - expected.ClimbS - expected.FallS - earlier;
        }
        Mean = _scatter.Mean();
        SecondsSigma = _scatter.SecondsSigma(Mean.Seconds);
        Areas = _scatter.Areas(Mean.EastM, Mean.NorthM);
        Causes = _causes.Words(_byNode);
        Cloud = [.. Enumerable.Range(0, CloudCount).Select(i => i * (Draws.Count / CloudCount))
            .Select(k => (_scatter.East[k], _scatter.North[k]))];
    }

    private readonly record struct LegSums(double ClimbS, double ClimbE, double ClimbN, double FallS, double FallE,
        double FallN);

    private static LegSums Legs(ClimbTable? climb, FallTable fall, double topM,
        (double Seconds, double EastM, double NorthM) end)
    {
        var up = climb?.At(topM) ?? default;
        var from = fall.At(topM);
        return new(up.Seconds, up.EastM, up.NorthM, end.Seconds - from.Seconds, end.EastM - from.EastM,
            end.NorthM - from.NorthM);
    }

    private void SpreadOfFall(FlightTracker flight, FallTable fall, double topM, double groundM)
    {
        _spread.Begin();
        var before = fall.At(topM);
        double first = before.Seconds;
        for (int level = Levels.Below(topM); level >= Levels.Below(groundM); level--)
        {
            var now = fall.At(Math.Max(Levels.HeightM(level), groundM));
            _spread.Add(level, now.Seconds - before.Seconds, now.EastM - before.EastM, now.NorthM - before.NorthM);
            before = now;
        }
        _spread.TotalS = before.Seconds - first;
        _spread.Finish(flight.Descent, flight.Descent.LnSigma);
    }

    private void SpreadOfWind(WindColumn winds, ClimbTable? climb, FallTable fall, double startM, double topM,
        double groundM, int burstClass)
    {
        _path.Clear();
        double at = 0;
        if (climb is not null)
        {
            var last = climb.At(startM);
            for (int level = Levels.Below(startM) + 1; level < Levels.Count; level++)
            {
                double z = Math.Min(Levels.HeightM(level), topM);
                var now = climb.At(z);
                _path.Add(z - Levels.StepM / 2, now.Seconds - last.Seconds, now.Seconds);
                last = now;
                if (z >= topM) break;
            }
            at = last.Seconds;
        }
        var before = fall.At(topM);
        for (int level = Levels.Below(topM); level >= Levels.Below(groundM); level--)
        {
            var now = fall.At(Math.Max(Levels.HeightM(level), groundM));
            double seconds = now.Seconds - before.Seconds;
            if (seconds <= 0) continue;
            _path.Add(Math.Max(Levels.HeightM(level) + Levels.StepM / 2, groundM), seconds, at += seconds);
            before = now;
        }
        // What the causes are told by is the middle class.
        if (burstClass <= Draws.BurstClasses / 2)
        {
            Array.Clear(_byNode);
            winds.DriftVariance(_path, null, _byNode);
        }
        Span<double> unused = stackalloc double[WindNodes.Count];
        for (int h = 0; h < winds.Hypotheses; h++)
            _sigma[burstClass * 16 + h] = Math.Sqrt(winds.DriftVariance(_path, h, unused));
    }

    private static int Pick(ReadOnlySpan<double> weights, double u)
    {
        int i = 0;
        for (; i < weights.Length - 1; i++)
        {
            u -= weights[i];
            if (u < 0) break;
        }
        return i;
    }
}
