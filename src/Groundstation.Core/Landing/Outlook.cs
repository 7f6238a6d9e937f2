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
    private const int MostSuppositions = 96;

    // Where it is now: receiver noise and what swing leaves of it, as in Anchor.
    private const double PlaceVarianceM2 = 9;

    // Gusts, which are no part of the column, and carry it aside on the way that is left: aloft, and three times that at
    // the ground, fading over the depth of the boundary layer.
    private const double GustS = 10, GustDepthM = 800;

    private readonly Draws _draws = new(plan.Seed);
    private Scatter _scatter = new();
    private FallSpread _spread = new();
    private NodeWeights _path = new();
    private double[] _sigma = new double[Draws.BurstClasses * MostSuppositions];
    private (double EastM, double NorthM)[] _off =
        new (double EastM, double NorthM)[Draws.BurstClasses * MostSuppositions];
    private double[] _byNode = new double[WindNodes.Count];
    private CauseShares _causes = new();

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
    /// <param name="groundM">Height at which the expected path ends.</param>
    /// <param name="groundMps">Speed of fall there.</param>
    /// <param name="leakLnSigma">What a balloon that lets go on the way adds to the spread of ln(rate of fall).</param>
    public void Cast(FlightTracker flight, ClimbTable? climb, BurstOutlook burst, FallTable fall, double startM,
        double topM, GroundGuess ground, double groundM, double groundMps, double leakLnSigma)
    {
        var end = fall.At(groundM);
        var expected = Legs(climb, fall, topM, end);
        SpreadOfFall(flight, fall, topM, groundM, leakLnSigma);
        int classes = climb is null ? 1 : Draws.BurstClasses;
        for (int c = 0; c < classes; c++)
        {
            double height = climb is null ? topM : burst.Quantile((c + 0.5) / classes);
            SpreadOfWind(flight.Winds, climb, fall, startM, height, groundM, c, classes);
        }
        var wind = flight.Winds.At(groundM);
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
            int cell = Math.Min((int)(_draws.Burst[k] * classes), classes - 1) * MostSuppositions + h;
            double sigma = _sigma[cell] * (mean > 0 ? Math.Max(whole / mean, 0) : 1);
            double earlier = (ground.Quantile(NormalLaw.Below(x[7])) - groundM) / groundMps;

            var windPart = (E: x[5] * sigma + _off[cell].EastM, N: x[6] * sigma + _off[cell].NorthM);
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

    private void SpreadOfFall(FlightTracker flight, FallTable fall, double topM, double groundM, double leakLnSigma)
    {
        _spread.Begin();
        var before = fall.At(topM);
        double first = before.Seconds, from = topM;
        for (int level = Levels.Below(topM); level >= Levels.Below(groundM); level--)
        {
            double to = Math.Max(Levels.HeightM(level), groundM);
            var now = fall.At(to);
            _spread.Add(level, from - to, now.Seconds - before.Seconds, now.EastM - before.EastM, now.NorthM - before.NorthM);
            (before, from) = (now, to);
        }
        _spread.TotalS = before.Seconds - first;
        _spread.Finish(flight.Descent, flight.Descent.LnSigma, leakLnSigma);
    }

    private void SpreadOfWind(WindColumn winds, ClimbTable? climb, FallTable fall, double startM, double topM,
        double groundM, int burstClass, int classes)
    {
        _path.Clear();
        double at = 0, gust = 0;
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
            double middle = Math.Max(Levels.HeightM(level) + Levels.StepM / 2, groundM);
            _path.Add(middle, seconds, at += seconds);
            double times = 1 + 2 * Math.Exp((groundM - middle) / GustDepthM);
            gust += 2 * times * times * GustS * seconds;
            before = now;
        }
        // What the causes are told by is the middle class, or the only one.
        if (burstClass == classes / 2)
        {
            Array.Clear(_byNode);
            winds.DriftVariance(_path, _byNode);
        }
        Span<double> variances = stackalloc double[MostSuppositions];
        winds.DriftVariances(_path, variances);
        for (int h = 0; h < winds.Hypotheses; h++)
        {
            int cell = burstClass * MostSuppositions + h;
            double mps = winds.Habit(h).GustMps;
            _sigma[cell] = Math.Sqrt(variances[h] + mps * mps * gust + PlaceVarianceM2);
            _off[cell] = winds.DriftOffset(_path, h);
        }
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

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public Outlook Copy()
    {
        var copy = (Outlook)MemberwiseClone();
        copy._scatter = _scatter.Copy();
        copy._spread = _spread.Copy();
        copy._path = _path.Copy();
        copy._sigma = [.. _sigma];
        copy._off = [.. _off];
        copy._byNode = [.. _byNode];
        copy._causes = _causes.Copy();
        return copy;
    }
}
