using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Simulation;

/// <summary>A satellite as the receiver sees it.</summary>
/// <param name="Number">Its number, 1 to 30.</param>
/// <param name="ElevationDeg">Elevation, degrees.</param>
/// <param name="AzimuthDeg">Azimuth, degrees true, 0 to 360.</param>
/// <param name="SnrDb">Signal, dB-Hz.</param>
/// <param name="Used">True when it is in the fix.</param>
public readonly record struct SkySatellite(int Number, double ElevationDeg, double AzimuthDeg, double SnrDb, bool Used);

/// <summary>
/// An invented constellation of 30 satellites in six planes: circular orbits of 26 560 km radius and 55° inclination,
/// 11 h 58 min a turn, so that geometry and dilution of precision change as real ones do. Mutable.
/// </summary>
internal sealed class SatelliteSky(SimulatedReceiver receiver, SeededRandom random)
{
    private const double OrbitM = 26_560_000, TurnS = 43_082, SiderealDayS = 86_164;
    private const double MaskDeg = 5, WeakestDb = 30;

    /// <summary>Satellites above the horizon's mask, highest first.</summary>
    public List<SkySatellite> InView { get; } = new(16);

    /// <summary>How many are used.</summary>
    public int UsedCount { get; private set; }

    /// <summary>Dilutions of precision of those used: horizontal and vertical; null with fewer than four.</summary>
    public (double Hdop, double Vdop)? Dilution { get; private set; }

    /// <summary>Looks up from a place at a time; <paramref name="lossDb"/> is taken from each signal.</summary>
    public void Look(GeoPoint from, double heightM, Instant utc, double lossDb)
    {
        InView.Clear();
        double seconds = (utc.UnixMilliseconds % (24 * 3600 * 1000L * 365)) / 1000.0;
        (double sinLat, double cosLat) = Angles.SinCosDeg(from.LatitudeDeg);
        (double sinLon, double cosLon) = Angles.SinCosDeg(from.LongitudeDeg);
        (double sinI, double cosI) = Angles.SinCosDeg(55);
        double r = 6_371_000 + heightM;
        for (int k = 0; k < 30; k++)
        {
            int plane = k / 5;
            (double sinU, double cosU) = Angles.SinCosDeg(k % 5 * 72 + plane * 17 + seconds / TurnS % 1 * 360);
            (double sinO, double cosO) = Angles.SinCosDeg(plane * 60 - seconds / SiderealDayS % 1 * 360);
            double x = OrbitM * (cosU * cosO - sinU * cosI * sinO) - r * cosLat * cosLon;
            double y = OrbitM * (cosU * sinO + sinU * cosI * cosO) - r * cosLat * sinLon;
            double z = OrbitM * sinU * sinI - r * sinLat;
            double east = -sinLon * x + cosLon * y;
            double north = -sinLat * (cosLon * x + sinLon * y) + cosLat * z;
            double up = cosLat * (cosLon * x + sinLon * y) + sinLat * z;
            double elevation = Angles.Atan2Deg(up, double.Hypot(east, north));
            if (elevation < MaskDeg)
                continue;
            double snr = receiver.ZenithSnrDb - 12 * (1 - Math.Sin(elevation * Angles.RadPerDeg))
                + 1.2 * random.NextGaussian() - lossDb;
            InView.Add(new(k + 1, elevation, Angles.Azimuth(Angles.Atan2Deg(east, north)), snr, false));
        }

        InView.Sort((a, b) => b.ElevationDeg.CompareTo(a.ElevationDeg));
        UsedCount = 0;
        for (int i = 0; i < InView.Count; i++)
        {
            bool used = InView[i].SnrDb >= WeakestDb && UsedCount < receiver.Channels;
            InView[i] = InView[i] with { Used = used };
            UsedCount += used ? 1 : 0;
        }

        Dilution = Dilute();
    }

    // √ of the diagonal of (GᵀG)⁻¹ in east, north, up, clock, G holding the unit lines of sight.
    private (double Hdop, double Vdop)? Dilute()
    {
        Span<double> m = stackalloc double[16];
        Span<double> row = stackalloc double[4];
        m.Clear();
        foreach (SkySatellite s in InView)
        {
            if (!s.Used)
                continue;
            (double sinE, double cosE) = Math.SinCos(s.ElevationDeg * Angles.RadPerDeg);
            (double sinA, double cosA) = Math.SinCos(s.AzimuthDeg * Angles.RadPerDeg);
            (row[0], row[1], row[2], row[3]) = (cosE * sinA, cosE * cosA, sinE, 1);
            for (int i = 0; i < 16; i++)
                m[i] += row[i / 4] * row[i % 4];
        }

        // Cholesky, M = L·Lᵀ; then the columns of L⁻¹ give the diagonal of the inverse.
        Span<double> l = stackalloc double[16];
        l.Clear();
        for (int i = 0; i < 4; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double sum = m[4 * i + j];
                for (int k = 0; k < j; k++)
                    sum -= l[4 * i + k] * l[4 * j + k];
                if (i != j)
                    l[4 * i + j] = sum / l[4 * j + j];
                else if (sum < 1e-9)
                    return null;
                else
                    l[4 * i + i] = Math.Sqrt(sum);
            }
        }

        Span<double> variance = stackalloc double[4];
        Span<double> column = stackalloc double[4];
        variance.Clear();
        for (int c = 0; c < 4; c++)
        {
            column.Clear();
            for (int i = c; i < 4; i++)
            {
                double sum = i == c ? 1 : 0;
                for (int k = c; k < i; k++)
                    sum -= l[4 * i + k] * column[k];
                column[i] = sum / l[4 * i + i];
                variance[c] += column[i] * column[i];
            }
        }

        return (Math.Sqrt(variance[0] + variance[1]), Math.Sqrt(variance[2]));
    }
}
