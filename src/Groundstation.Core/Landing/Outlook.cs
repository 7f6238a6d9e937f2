using System.Collections.Immutable;
using Groundstation.Core.Flight;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Landing;

/// <summary>
/// The ensemble of landing places around the expected one, metres east and north of it: every member has its own winds,
/// fall, climb, burst height and ground, drawn from what is known of each.
/// </summary>
/// <param name="plan">The plan: seed, burst height, canopy.</param>
internal sealed class Outlook(FlightPlan plan)
{
    private const int CloudCount = 200;
    private const int MostSuppositions = 128;

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
    public Saying Causes { get; private set; } = Saying.None;

    /// <summary>Some members, metres east and north of the expected landing.</summary>
    public ImmutableArray<(double EastM, double NorthM)> Cloud { get; private set; } = [];

    /// <summary>Draws the ensemble anew.</summary>
    /// <param name="flight">What is known of winds, climb and fall.</param>
    /// <param name="ahead">What lies ahead.</param>
    /// <param name="ground">Height of the ground where it comes down.</param>
    /// <param name="groundM">Height at which the expected path ends.</param>
    /// <param name="groundMps">Speed of fall there.</param>
    public void Cast(FlightTracker flight, Ahead ahead, GroundGuess ground, double groundM, double groundMps)
    {
        LegSums expected = ahead.Expected(groundM);
        SpreadOfFall(flight, ahead, groundM);
        int classes = ahead.Classes;
        for (int c = 0; c < classes; c++) SpreadOfWind(flight.Winds, ahead, groundM, c);
        var wind = flight.Winds.At(groundM);
        _causes.Clear();
        for (int k = 0; k < Draws.Count; k++)
        {
            ReadOnlySpan<double> x = _draws.Of(k);
            LegSums own = classes == 1 ? expected : ahead.At(_draws.Burst[k], groundM);
            int h = Pick(flight.Winds.Weights, _draws.Wind[k]), f = Pick(flight.Descent.Weights, _draws.Fall[k]);
            (double ln, double shiftE, double shiftN, double shiftS) = _spread.Member(f, x);
            double slower = Math.Exp(-ln) - 1;
            double climbing = ahead.Climb is null ? 0
                : Math.Exp(-x[4] * flight.Ascent.LnSigma(own.TopM - ahead.StartM)) - 1;
            double whole = own.BeforeS * (1 + climbing) + own.FallS * (1 + slower) + shiftS;
            double mean = own.BeforeS + own.FallS;
            int cell = Math.Min((int)(_draws.Burst[k] * classes), classes - 1) * MostSuppositions + h;
            double sigma = _sigma[cell] * (mean > 0 ? Math.Max(whole / mean, 0) : 1);
            double earlier = (ground.Quantile(NormalLaw.Below(x[7])) - groundM) / groundMps;

            var windPart = (E: x[5] * sigma + _off[cell].EastM, N: x[6] * sigma + _off[cell].NorthM);
            var burstPart = (E: own.BeforeE + own.FallE - expected.BeforeE - expected.FallE,
                N: own.BeforeN + own.FallN - expected.BeforeN - expected.FallN);
            var fallPart = (E: own.FallE * slower, N: own.FallN * slower);
            var climbPart = (E: own.BeforeE * climbing, N: own.BeforeN * climbing);
            var groundPart = (E: -earlier * wind.EastMps, N: -earlier * wind.NorthMps);
            _causes.Add(windPart, burstPart, fallPart, climbPart, (shiftE, shiftN), groundPart);
            _scatter.East[k] = windPart.E + burstPart.E + fallPart.E + climbPart.E + shiftE + groundPart.E;
            _scatter.North[k] = windPart.N + burstPart.N + fallPart.N + climbPart.N + shiftN + groundPart.N;
            _scatter.Seconds[k] = whole - expected.BeforeS - expected.FallS - earlier;
        }
        Mean = _scatter.Mean();
        SecondsSigma = _scatter.SecondsSigma(Mean.Seconds);
        Areas = _scatter.Areas(Mean.EastM, Mean.NorthM);
        Causes = _causes.Words(_byNode, ahead.Unknown);
        Cloud = [.. Enumerable.Range(0, CloudCount).Select(i => i * (Draws.Count / CloudCount))
            .Select(k => (_scatter.East[k], _scatter.North[k]))];
    }

    private void SpreadOfFall(FlightTracker flight, Ahead ahead, double groundM)
    {
        (FallTable fall, double topM) = (ahead.Fall, ahead.TopM);
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
        _spread.Finish(flight.Descent, flight.Descent.LnSigma, ahead.LeakLnSigma);
    }

    private void SpreadOfWind(WindColumn winds, Ahead ahead, double groundM, int burstClass)
    {
        FallTable fall = ahead.Fall;
        double u = (burstClass + 0.5) / ahead.Classes, topM = ahead.Top(u), at = ahead.Waits(u), gust = 0;
        _path.Clear();
        // Of a walk, the drift through a time t has the variance that one at t/3 would give, of a trend at t/2.
        if (at > 0) _path.Add(ahead.StartM, at, at / 2);
        if (ahead.Climb is { } climb)
        {
            var last = climb.At(ahead.StartM);
            for (int level = Levels.Below(ahead.StartM) + 1; level < Levels.Count; level++)
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
        if (burstClass == ahead.Classes / 2)
        {
            Array.Clear(_byNode);
            winds.DriftVariance(_path, _byNode);
        }
        Span<double> variances = stackalloc double[MostSuppositions];
        winds.DriftVariances(_path, variances);
        int first = burstClass * MostSuppositions;
        winds.DriftOffsets(_path, _off.AsSpan(first, MostSuppositions));
        for (int h = 0; h < winds.Hypotheses; h++)
        {
            double mps = winds.Habit(h).GustMps;
            _sigma[first + h] = Math.Sqrt(variances[h] + mps * mps * gust + PlaceVarianceM2);
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
