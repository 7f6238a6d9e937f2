using System.Collections.Immutable;

namespace Groundstation.Core.Flight;

/// <summary>
/// How the winds of two heights go together: covariance tables over <see cref="WindNodes"/>, one component, row by row.
/// </summary>
internal static class WindKernels
{
    /// <summary>
    /// Correlation lengths over height that a change of wind in time may have, m. Waves and fronts change the wind over
    /// hundreds of metres to a few kilometres; which it is today is inferred from the changes seen. Of exponential
    /// form: vertical spectra of such changes fall with a power of two to three, that is, they are rough.
    /// </summary>
    public static readonly ImmutableArray<double> ChangeLengthsM = [600, 1500, 4000];

    /// <summary>
    /// Spread of one component over the year, m/s, every 5 km from sea level to 35 km. In the stratosphere winds turn with the
    /// season: zonal means at 45° N of −2, −7, −13, −20 m/s in July and 14, 16, 20, 28 m/s in January at 20, 25, 30, 35 km
    /// (CIRA-86, from memory), whose root mean square is shared by two components and by the two strengths of the season.
    /// </summary>
    private static readonly ImmutableArray<double> SpreadMps = [5, 10, 14, 9, 6, 7, 9.5, 13];

    /// <summary>Correlation of a change of wind, for each of <see cref="ChangeLengthsM"/>.</summary>
    public static readonly ImmutableArray<double[]> Change =
        [.. ChangeLengthsM.Select(length => Table((a, b) => Math.Exp(-Math.Abs(a - b) / length)))];

    /// <summary>For each of <see cref="ChangeLengthsM"/>: the correlation of a change at a node and at the one below.</summary>
    private static readonly ImmutableArray<double[]> ToNodeBelow = [.. ChangeLengthsM.Select(length => WindNodes.HeightsM
        .Select((z, i) => i == 0 ? 0 : Math.Exp(-(z - WindNodes.HeightsM[i - 1]) / length)).ToArray())];

    /// <summary>
    /// Σᵢⱼ xᵢ·xⱼ·<see cref="Change"/>ᵢⱼ over nodes from <paramref name="first"/> on. An exponential of a distance is a product
    /// of those between, so that one pass does what the table would in n².
    /// </summary>
    public static double Joined(int length, int first, ReadOnlySpan<double> x)
    {
        double[] below = ToNodeBelow[length];
        double sum = 0, reach = 0;
        for (int i = 0; i < x.Length; i++)
        {
            sum += x[i] * (x[i] + 2 * reach * below[first + i]);
            reach = x[i] + reach * below[first + i];
        }
        return sum;
    }

    /// <summary>
    /// What is known of a wind column before anything is heard, about a mean of zero: 5 to 14 m/s a component (spread
    /// of mid-latitude winds over the year: least at the ground and at 20 km, most at the jet and above 30 km), joined over 3.5 km (a jet is some
    /// kilometres deep), with 2 m/s of fine structure over 400 m.
    /// </summary>
    public static double[] Climatology(double strength) =>
        Table((a, b) => strength * strength * Spread(a) * Spread(b) * Matern(a - b, 3500) + 4 * Math.Exp(-Math.Abs(a - b) / 400));

    /// <summary>Spread of one component over the year, m/s.</summary>
    public static double Spread(double heightM)
    {
        double x = Math.Clamp(heightM / 5000, 0, 6.999);
        int i = (int)x;
        return SpreadMps[i] + (x - i) * (SpreadMps[i + 1] - SpreadMps[i]);
    }

    /// <summary>
    /// Error of one component of a forecast a day ahead, m/s: 2.5 near the ground growing to 4.5 at 15 km and above (usual
    /// root mean square errors).
    /// </summary>
    public static double DayAheadMps(double heightM) => 2.5 + 2 * Math.Clamp(heightM / 15_000, 0, 1);

    /// <summary>
    /// Matérn correlation of order 3/2: once differentiable, as a mean wind is over layers. The length is scaled so
    /// that correlation falls to 1/e about at it.
    /// </summary>
    public static double Matern(double distanceM, double lengthM)
    {
        double r = 2.146 * Math.Abs(distanceM) / lengthM;
        return (1 + r) * Math.Exp(-r);
    }

    private static double[] Table(Func<double, double, double> covariance)
    {
        int n = WindNodes.Count;
        var table = new double[n * n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++) table[i * n + j] = covariance(WindNodes.HeightsM[i], WindNodes.HeightsM[j]);
        }
        return table;
    }
}
