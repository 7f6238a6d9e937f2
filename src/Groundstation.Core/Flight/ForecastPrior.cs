using System.Collections.Immutable;
using Groundstation.Core.Air;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Flight;

/// <summary>
/// What wind files tell of the wind column at a moment: mean and covariance over <see cref="WindNodes"/>. Between two
/// valid times it is interpolated, outside them the nearest holds; its spread grows with its age. Above the last level
/// and below the first it goes over to what is known without any file, over 3.5 km: it does not go on silently.
/// </summary>
public sealed class ForecastPrior
{
    /// <summary>
    /// Change of one component over three hours where winds are spread by 10 m/s over the year, m/s, and the power of
    /// time it grows with: root mean square vector changes of 2 m/s over 3 h and 9 m/s over a day in the middle
    /// troposphere (usual figures, from memory; Mercer 1997 found the power of structure functions for shorter times).
    /// Two radiosondes 12 h apart (Utqiagvik, 2010-06-01) differ by 5.7 m/s in the lowest 4 km, 6.5 up to 8 km, 10 up
    /// to 12 km and 2 to 4 above; the rule says 4, 6, 8, and 6 falling to 3.
    /// </summary>
    private const double ChangeMps = 1.4, ChangePower = 0.75;

    /// <summary>
    /// Error of one component of a radiosonde's wind, and what lies between its place and the flight's, m/s.
    /// </summary>
    private const double MeasuredMps = 1;

    /// <summary>Share of a day-ahead forecast's error that is there from the start (common practice).</summary>
    private const double StartShare = 0.6;

    private readonly double[] _sigma = new double[WindNodes.Count];
    private readonly bool[] _told = new bool[WindNodes.Count];

    private ForecastPrior(ForecastPick pick, Instant utc)
    {
        for (int i = 0; i < WindNodes.Count; i++) Fill(i, pick, utc);
        Lowest = Array.IndexOf(_told, true);
        Highest = Array.LastIndexOf(_told, true);
        if (Lowest < 0) Nearest(pick, utc);
        Extend();
        Covariance = Table(pick, utc);
    }

    /// <summary>Eastward mean at each node, m/s.</summary>
    public double[] East { get; } = new double[WindNodes.Count];

    /// <summary>Northward mean at each node, m/s.</summary>
    public double[] North { get; } = new double[WindNodes.Count];

    /// <summary>Covariance of one component over the nodes, row by row, m²/s².</summary>
    public double[] Covariance { get; }

    /// <summary>Lowest node whose wind is told.</summary>
    public int Lowest { get; private set; }

    /// <summary>Highest node whose wind is told.</summary>
    public int Highest { get; private set; }

    /// <summary>What the plan's wind files tell for a moment; null when there are none.</summary>
    public static ForecastPrior? Of(FlightPlan plan, Instant utc) =>
        plan.Winds.IsDefaultOrEmpty ? null : new ForecastPrior(ForecastPick.For(plan, utc), utc);

    private void Fill(int i, ForecastPick pick, Instant utc)
    {
        double z = WindNodes.HeightsM[i];
        var before = AtNode(pick.Before, i);
        var after = pick.After is { } later ? AtNode(later, i) : null;
        if (before is null && after is null) return;
        _told[i] = true;
        if (before is { } b && after is { } a)
        {
            double share = pick.AfterShare;
            (East[i], North[i]) = (b.Wind.EastMps + share * (a.Wind.EastMps - b.Wind.EastMps),
                b.Wind.NorthMps + share * (a.Wind.NorthMps - b.Wind.NorthMps));
            // Between two known winds the change is least known half way: that of a walk tied down at both ends.
            double since = Hours(pick.Before, utc), until = Hours(pick.After!, utc), whole = since + until;
            double own = (1 - share) * Own(pick.Before, z) + share * Own(pick.After!, z);
            _sigma[i] = Math.Sqrt(own * own + Squared(Change(z, whole > 0 ? since * until / whole : 0))
                + Math.Max(b.Gap, a.Gap));
            return;
        }

        (WindForecast only, (WindVector wind, double gap)) = before is { } one
            ? (pick.Before, one) : (pick.After!, after!.Value);
        (East[i], North[i]) = (wind.EastMps, wind.NorthMps);
        _sigma[i] = Math.Sqrt(Squared(Own(only, z)) + Squared(Change(z, Hours(only, utc))) + gap);
    }

    /// <summary>
    /// Levels so close together that no node lies between: the nearest node takes the lowest one's wind.
    /// </summary>
    private void Nearest(ForecastPick pick, Instant utc)
    {
        ForecastLevel level = pick.Before.Levels[0];
        (int node, double upper) = WindNodes.Locate(level.Height.Metres);
        Lowest = Highest = upper > 0.5 ? node + 1 : node;
        (East[Lowest], North[Lowest]) = (level.Wind.EastMps, level.Wind.NorthMps);
        double z = WindNodes.HeightsM[Lowest];
        _sigma[Lowest] = Math.Sqrt(Squared(Own(pick.Before, z)) + Squared(Change(z, Hours(pick.Before, utc))));
    }

    /// <summary>
    /// Beyond the levels told the mean fades to that of the climatology, none, as its correlation does.
    /// </summary>
    private void Extend()
    {
        for (int i = 0; i < WindNodes.Count; i++)
        {
            int end = Math.Clamp(i, Lowest, Highest);
            double share = Share(i, end);
            (East[i], North[i]) = (share * East[end], share * North[end]);
        }
    }

    private double[] Table(ForecastPick pick, Instant utc)
    {
        // Fine structure of a kilometre and less: a sounding has seen it, a forecast has not, and it is another one
        // after some hours.
        double known = pick.Before.Origin == WindOrigin.Measured ? Math.Max(0, 1 - Hours(pick.Before, utc) / 6) : 0;
        double fine = 4 - 3 * known;
        int n = WindNodes.Count;
        var table = new double[n * n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                int a = Math.Clamp(i, Lowest, Highest), b = Math.Clamp(j, Lowest, Highest);
                double zi = WindNodes.HeightsM[i], zj = WindNodes.HeightsM[j];
                double za = WindNodes.HeightsM[a], zb = WindNodes.HeightsM[b];
                double sum = Share(i, a) * Share(j, b) * _sigma[a] * _sigma[b] * WindKernels.Matern(za - zb, 2500);
                // Both beyond the same end: what the end does not tell of them.
                if (i != a && j != b && a == b)
                {
                    sum += WindKernels.Spread(zi) * WindKernels.Spread(zj) * (WindKernels.Matern(zi - zj, 3500)
                        - WindKernels.Matern(zi - za, 3500) * WindKernels.Matern(zj - za, 3500));
                }

                table[i * n + j] = sum + fine * Math.Exp(-Math.Abs(zi - zj) / 400);
            }
        }

        return table;
    }

    private static double Share(int node, int end)
    {
        if (node == end) return 1;
        double z = WindNodes.HeightsM[node], told = WindNodes.HeightsM[end];
        return WindKernels.Spread(z) / WindKernels.Spread(told) * WindKernels.Matern(z - told, 3500);
    }

    /// <summary>
    /// Wind of a node: the mean over its neighbourhood, weighted as the column weighs it, so that the drift through a
    /// layer is that of the levels within it (a node's own height alone would miss a jet of half a kilometre by 1 km).
    /// </summary>
    private static (WindVector Wind, double Gap)? AtNode(WindForecast forecast, int node)
    {
        double z = WindNodes.HeightsM[node];
        if (At(forecast, z) is not { } own) return null;
        double below = node == 0 ? 0 : z - WindNodes.HeightsM[node - 1];
        double above = node == WindNodes.Count - 1 ? 0 : WindNodes.HeightsM[node + 1] - z;
        double weight = 1, east = own.Wind.EastMps, north = own.Wind.NorthMps, gap = own.Gap;
        const int Parts = 4;
        for (int k = 1; k < Parts; k++)
        {
            double f = (double)k / Parts;
            // Both sides or none: a mean from one side would be another height's.
            if (At(forecast, z - f * below) is not { } low || At(forecast, z + f * above) is not { } high) break;
            weight += 2 * (1 - f);
            east += (1 - f) * (low.Wind.EastMps + high.Wind.EastMps);
            north += (1 - f) * (low.Wind.NorthMps + high.Wind.NorthMps);
            gap += (1 - f) * (low.Gap + high.Gap);
        }

        return (new(east / weight, north / weight), gap / weight);
    }

    /// <summary>
    /// Wind at a height, linear between two levels, and the variance that their distance leaves, m²/s².
    /// </summary>
    private static (WindVector Wind, double Gap)? At(WindForecast forecast, double heightM)
    {
        ImmutableArray<ForecastLevel> levels = forecast.Levels;
        if (heightM < levels[0].Height.Metres || heightM > levels[^1].Height.Metres) return null;
        int low = 0, high = levels.Length - 1;
        while (high - low > 1)
        {
            int middle = (low + high) / 2;
            if (levels[middle].Height.Metres <= heightM) low = middle;
            else high = middle;
        }

        double bottom = levels[low].Height.Metres, span = levels[high].Height.Metres - bottom;
        double f = span > 0 ? (heightM - bottom) / span : 0;
        WindVector a = levels[low].Wind, b = levels[high].Wind;
        // Variance of the climatology's value here when the two ends are known.
        double toLow = WindKernels.Matern(heightM - bottom, 3500), toHigh = WindKernels.Matern(bottom
            + span - heightM, 3500);
        double ends = WindKernels.Matern(span, 3500), spread = WindKernels.Spread(heightM);
        double left = ends > 0.999999 ? 0
            : 1 - (toLow * toLow + toHigh * toHigh - 2 * toLow * toHigh * ends) / (1 - ends * ends);
        return (new(a.EastMps + f * (b.EastMps - a.EastMps), a.NorthMps + f * (b.NorthMps - a.NorthMps)),
            spread * spread * Math.Max(0, left));
    }

    /// <summary>Error of one component at the forecast's own time and place, m/s.</summary>
    private static double Own(WindForecast forecast, double heightM)
    {
        if (forecast.Origin == WindOrigin.Measured) return MeasuredMps;
        double lead = 1;
        if (forecast is { Valid: { } valid, BasedOn: { } based })
        {
            // Days of a month, resolved near any moment, lie as far apart as they are.
            Instant at = valid.Near(default);
            lead = Math.Clamp(at.SecondsSince(based.Near(at)) / 86_400, 0, 3);
        }

        return WindKernels.DayAheadMps(heightM) * (StartShare + (1 - StartShare) * lead);
    }

    /// <summary>Change of one component over some hours, m/s; at most what two days far apart differ by.</summary>
    private static double Change(double heightM, double hours)
    {
        double spread = WindKernels.Spread(heightM);
        return Math.Min(ChangeMps * spread / 10 * Math.Pow(hours / 3, ChangePower), 1.3 * spread);
    }

    /// <summary>Hours between a forecast's time and another; 0 when its time is not told: its lead says all.</summary>
    private static double Hours(WindForecast forecast, Instant utc) =>
        forecast.Valid is { } valid ? Math.Abs(valid.Near(utc).SecondsSince(utc)) / 3600 : 0;

    private static double Squared(double x) => x * x;
}
