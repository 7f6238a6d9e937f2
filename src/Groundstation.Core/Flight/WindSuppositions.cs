using System.Collections.Immutable;

namespace Groundstation.Core.Flight;

/// <summary>One supposition on the day's wind, and its weight before anything is seen.</summary>
/// <param name="Habit">How winds change, and gusts.</param>
/// <param name="Season">Which of <see cref="WindSuppositions.Priors"/>.</param>
/// <param name="Weight">Its weight; all add up to 1.</param>
internal readonly record struct WindSupposition(WindHabit Habit, int Season, double Weight);

/// <summary>All that is supposed of a day's wind, side by side, until the flight tells which holds.</summary>
internal static class WindSuppositions
{
    /// <summary>
    /// Changes of one component over three hours, m/s, with weights before anything is seen: a vector change of 2 m/s
    /// is the usual figure for the free troposphere; quiet and changeable days lie a factor of two and more away. Steps
    /// of 1.7 so that the right one is never missed by more than a third, which coverage would show.
    /// </summary>
    private static readonly ImmutableArray<(double Mps, double Weight)> Changes =
        [(0.7, 0.15), (1.2, 0.32), (2, 0.36), (3.4, 0.14), (6, 0.03)];

    private static readonly ImmutableArray<double> LengthWeights = [0.3, 0.4, 0.3];

    public static readonly ImmutableArray<ChangeLaw> Laws = [ChangeLaw.Walk, ChangeLaw.Trend];

    private static readonly ImmutableArray<double> LawWeights = [0.6, 0.4];

    /// <summary>Gusts aloft, m/s a component: a quiet day and a lively one.</summary>
    private static readonly ImmutableArray<(double Mps, double Weight)> Gusts = [(0.5, 0.6), (1.1, 0.4)];

    /// <summary>Strength of the winds as a multiple of the climatology: a calm season and a stormy one.</summary>
    private static readonly ImmutableArray<(double Share, double Weight)> Strengths = [(0.75, 0.5), (1.5, 0.5)];

    /// <summary>What is known of the column beforehand under each strength of the season.</summary>
    public static ImmutableArray<double[]> Priors() => [.. Strengths.Select(s => WindKernels.Climatology(s.Share))];

    /// <summary>All combinations; the season's strength counts for as many as there are priors.</summary>
    public static ImmutableArray<WindSupposition> All(int seasons)
    {
        double whole = Strengths.Take(seasons).Sum(s => s.Weight);
        return
        [
            .. from change in Changes
               from length in Enumerable.Range(0, LengthWeights.Length)
               from law in Enumerable.Range(0, Laws.Length)
               from gust in Gusts
               from season in Enumerable.Range(0, seasons)
               select new WindSupposition(new WindHabit(change.Mps, length, Laws[law], gust.Mps), season,
                   change.Weight * LengthWeights[length] * LawWeights[law] * gust.Weight * Strengths[season].Weight / whole),
        ];
    }
}
