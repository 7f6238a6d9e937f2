using System.Collections.Immutable;
using Groundstation.Core;
using Groundstation.Core.Air;
using Groundstation.Core.Flight;
using Groundstation.Core.Plan;

namespace Groundstation.Console.Plots;

/// <summary>One row of the wind column: as many layers put together as the room asks for.</summary>
/// <param name="BottomM">Lower edge, metres above mean sea level.</param>
/// <param name="TopM">Upper edge.</param>
/// <param name="Wind">Mean of the layers, weighted by thickness.</param>
/// <param name="SpreadMps">What 95 of 100 keep within: two of the largest standard deviation among them.</param>
/// <param name="Newest">The newest of them.</param>
/// <param name="HoldsBalloon">True when the balloon is in it.</param>
/// <param name="Layers">How many layers were put together.</param>
internal readonly record struct WindRow(double BottomM, double TopM, WindVector Wind, double SpreadMps, WindLayer Newest,
    bool HoldsBalloon, int Layers);

/// <summary>The wind column as rows, highest first.</summary>
internal static class WindRows
{
    /// <summary>At most <paramref name="most"/> rows that cover the whole column.</summary>
    public static List<WindRow> Of(Snapshot s, int most)
    {
        List<WindRow> rows = [];
        WindLayer[] layers = [.. s.Winds.Where(l => Matters(s, l))];
        if (layers.Length == 0 || most < 1) return rows;
        int each = (layers.Length + most - 1) / most;
        double? height = Screens.Shown.Height(s);
        for (int first = 0; first < layers.Length; first += each)
        {
            double east = 0, north = 0, weight = 0, sigma = 0;
            WindLayer newest = layers[first];
            int last = Math.Min(first + each, layers.Length) - 1;
            for (int i = first; i <= last; i++)
            {
                WindLayer layer = layers[i];
                double thick = Math.Max(1, layer.Top.Metres - layer.Bottom.Metres);
                east += layer.Wind.EastMps * thick;
                north += layer.Wind.NorthMps * thick;
                weight += thick;
                sigma = Math.Max(sigma, layer.SigmaMps);
                if (newest.Measured is null || layer.Measured > newest.Measured) newest = layer;
            }

            double bottom = layers[first].Bottom.Metres, top = layers[last].Top.Metres;
            rows.Add(new WindRow(bottom, top, new WindVector(east / weight, north / weight), 2 * sigma, newest,
                height >= bottom && height < top, last - first + 1));
        }

        rows.Reverse();
        return rows;
    }

    /// <summary>True with nothing measured and no forecast: rows of zero would look like a calm.</summary>
    public static bool NothingKnown(Snapshot s) =>
        s.Winds.All(l => l is { Measured: null, Basis: WindBasis.Neighbours });

    /// <summary>
    /// False for air that this flight does not pass: below the pad, or above all that it has reached and may reach.
    /// </summary>
    private static bool Matters(Snapshot s, WindLayer layer)
    {
        double highest = s.Flight.Highest?.Height.Metres ?? 0;
        double top = s.Flight.Burst is null
            ? Math.Max(highest, s.Plan.BurstHeight.Metres + 2 * s.Plan.BurstSigmaM) : highest;
        double ground = Math.Min(s.Flight.Pad?.Height.Metres ?? 0, s.Landing?.Ground.Metres ?? 0);
        return layer.Bottom.Metres < top && layer.Top.Metres > ground;
    }

    /// <summary>
    /// A forecast's mean over a row's heights, as the row is the mean of its layers; null where it tells none.
    /// </summary>
    public static WindVector? Forecast(ImmutableArray<ForecastLevel> levels, WindRow row)
    {
        double east = 0, north = 0;
        int told = 0;
        const int Points = 16;
        for (int i = 0; i < Points; i++)
        {
            double metres = row.BottomM + (i + 0.5) / Points * (row.TopM - row.BottomM);
            if (Forecast(levels, metres) is not { } wind) continue;
            (east, north, told) = (east + wind.EastMps, north + wind.NorthMps, told + 1);
        }

        return told > 0 ? new WindVector(east / told, north / told) : null;
    }

    /// <summary>A forecast at a height, straight between its levels; null outside them.</summary>
    private static WindVector? Forecast(ImmutableArray<ForecastLevel> levels, double metres)
    {
        for (int i = 1; i < levels.Length; i++)
        {
            ForecastLevel low = levels[i - 1], high = levels[i];
            if (metres < low.Height.Metres || metres > high.Height.Metres) continue;
            double span = high.Height.Metres - low.Height.Metres;
            double t = span > 0 ? (metres - low.Height.Metres) / span : 0;
            return new WindVector(low.Wind.EastMps + t * (high.Wind.EastMps - low.Wind.EastMps),
                low.Wind.NorthMps + t * (high.Wind.NorthMps - low.Wind.NorthMps));
        }

        return null;
    }

    /// <summary>What a row rests on, as a word.</summary>
    public static string Basis(WindBasis basis) => basis switch
    {
        WindBasis.Ascent => "on the way up",
        WindBasis.Descent => "on the way down",
        WindBasis.Float => "in float",
        WindBasis.Forecast => "forecast",
        _ => "from neighbours",
    };

    /// <summary>The same in at most five letters.</summary>
    public static string ShortBasis(WindBasis basis) => basis switch
    {
        WindBasis.Ascent => "up",
        WindBasis.Descent => "down",
        WindBasis.Float => "float",
        WindBasis.Forecast => "plan",
        _ => "near",
    };
}
