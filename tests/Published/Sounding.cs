using System.Collections.Immutable;
using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Simulation;

namespace Groundstation.Published;

/// <summary>
/// A real radiosonde sounding of <c>data/sounding_*.csv</c> (public upper-air archives, each file names its own). Read
/// as the reference files read it: wind components linear in geometric height between levels that have both direction and
/// speed; ln p and T linear, density p/(287.05287·T); clamped outside.
/// </summary>
internal sealed class Sounding
{
    private readonly double[] _z, _lnP, _t;

    private Sounding(PublishedTable table)
    {
        PublishedRow[] air = [.. table.Rows.Where(r => r.Has("alt_geom_m") && r.Has("p_hPa") && r.Has("t_C"))];
        _z = [.. air.Select(r => r.Number("alt_geom_m"))];
        _lnP = [.. air.Select(r => Math.Log(100 * r.Number("p_hPa")))];
        _t = [.. air.Select(r => r.Number("t_C") + 273.15)];
        Winds = [.. table.Rows
            .Where(r => r.Has("alt_geom_m") && r.Has("wind_dir_deg_true") && r.Has("wind_speed_mps"))
            .DistinctBy(r => r.Number("alt_geom_m"))
            .Select(r => new WindLevel(new HeightMsl(r.Number("alt_geom_m")),
                WindVector.FromDirection(r.Number("wind_dir_deg_true"), r.Number("wind_speed_mps"))))];
    }

    public ImmutableArray<WindLevel> Winds { get; }

    /// <summary>By the short name in the reference files.</summary>
    public static Sounding Read(string key) => new(PublishedTable.Read(key switch
    {
        "OUN" => "sounding_OUN_20230522T12Z.csv",
        "BOI" => "sounding_BOI_20101209T12Z.csv",
        "OAX" => "sounding_OAX_20140616T19Z.csv",
        "BRW00" => "sounding_igra_USM00070026_20100601T00Z.csv",
        "BRW12" => "sounding_igra_USM00070026_20100601T12Z.csv",
        _ => throw new ArgumentException($"no sounding {key}", nameof(key)),
    }));

    /// <summary>Wind at a height, linear between levels, clamped outside.</summary>
    public WindVector WindAt(double heightM)
    {
        int i = 1;
        while (i < Winds.Length - 1 && Winds[i].Height.Metres < heightM) i++;
        WindLevel low = Winds[i - 1], high = Winds[i];
        double u = Math.Clamp((heightM - low.Height.Metres) / (high.Height.Metres - low.Height.Metres), 0, 1);
        return new(low.Wind.EastMps + u * (high.Wind.EastMps - low.Wind.EastMps),
            low.Wind.NorthMps + u * (high.Wind.NorthMps - low.Wind.NorthMps));
    }

    public double DensityKgM3(double heightM)
    {
        int i = Array.BinarySearch(_z, heightM);
        i = Math.Clamp(i < 0 ? ~i : i, 1, _z.Length - 1);
        double u = Math.Clamp((heightM - _z[i - 1]) / (_z[i] - _z[i - 1]), 0, 1);
        double p = Math.Exp(_lnP[i - 1] + u * (_lnP[i] - _lnP[i - 1]));
        return p / (287.05287 * (_t[i - 1] + u * (_t[i] - _t[i - 1])));
    }
}
