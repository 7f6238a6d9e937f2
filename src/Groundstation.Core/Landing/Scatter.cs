namespace Groundstation.Core.Landing;

/// <summary>The ensemble's landing places in metres east and north of a point, and the ellipses that hold shares of them.</summary>
internal sealed class Scatter
{
    private double[] _distance = new double[Draws.Count];

    public double[] East { get; private set; } = new double[Draws.Count];

    public double[] North { get; private set; } = new double[Draws.Count];

    public double[] Seconds { get; private set; } = new double[Draws.Count];

    /// <summary>Mean place and time.</summary>
    public (double EastM, double NorthM, double Seconds) Mean()
    {
        double e = 0, n = 0, t = 0;
        for (int i = 0; i < Draws.Count; i++) (e, n, t) = (e + East[i], n + North[i], t + Seconds[i]);
        return (e / Draws.Count, n / Draws.Count, t / Draws.Count);
    }

    /// <summary>Standard deviation of the time, s.</summary>
    public double SecondsSigma(double mean)
    {
        double sum = 0;
        foreach (double s in Seconds) sum += (s - mean) * (s - mean);
        return Math.Sqrt(sum / Draws.Count);
    }

    /// <summary>
    /// The ellipses about a point that hold 50 and 95 % of the members: the shape is the members' covariance, the size
    /// is the one that holds the share, so that long tails are in it.
    /// </summary>
    public (SearchArea Half, SearchArea Most) Areas(double eastM, double northM)
    {
        double ee = 0, nn = 0, en = 0;
        for (int i = 0; i < Draws.Count; i++)
        {
            double e = East[i] - eastM, n = North[i] - northM;
            (ee, nn, en) = (ee + e * e, nn + n * n, en + e * n);
        }
        // A metre either way: no receiver says more, and the shape stays defined.
        (ee, nn, en) = (ee / Draws.Count + 1, nn / Draws.Count + 1, en / Draws.Count);
        double determinant = ee * nn - en * en;
        for (int i = 0; i < Draws.Count; i++)
        {
            double e = East[i] - eastM, n = North[i] - northM;
            _distance[i] = (nn * e * e - 2 * en * e * n + ee * n * n) / determinant;
        }
        Array.Sort(_distance);
        double middle = (ee + nn) / 2, half = Math.Sqrt((ee - nn) * (ee - nn) / 4 + en * en);
        double azimuth = Math.Atan2(2 * en, nn - ee) / 2 * 180 / Math.PI;
        if (azimuth < 0) azimuth += 180;
        double major = Math.Sqrt(middle + half), minor = Math.Sqrt(Math.Max(middle - half, 0));
        SearchArea Of(double share)
        {
            double scale = Math.Sqrt(_distance[(int)(share * Draws.Count)]);
            return new SearchArea(major * scale, minor * scale, azimuth >= 180 ? 0 : azimuth);
        }
        return (Of(0.5), Of(0.95));
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public Scatter Copy()
    {
        var copy = (Scatter)MemberwiseClone();
        copy._distance = [.. _distance];
        copy.East = [.. East];
        copy.North = [.. North];
        copy.Seconds = [.. Seconds];
        return copy;
    }
}
