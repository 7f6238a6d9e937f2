namespace Groundstation.Core.Landing;

/// <summary>
/// Where the balloon will burst: the plan's normal distribution, cut off below the height it has already reached.
/// </summary>
/// <param name="MeanM">Mean of the uncut distribution, metres above mean sea level.</param>
/// <param name="SigmaM">Its standard deviation, m.</param>
/// <param name="ReachedM">Height reached without bursting.</param>
internal readonly record struct BurstOutlook(double MeanM, double SigmaM, double ReachedM)
{
    /// <summary>The height below which it bursts with a chance of <paramref name="u"/>, 0 &lt; u &lt; 1.</summary>
    public double Quantile(double u)
    {
        double gone = NormalLaw.Below((ReachedM - MeanM) / SigmaM);
        // Far beyond the plan's burst height the cut normal is an exponential tail.
        if (gone > 0.9999)
        {
            double hazard = (ReachedM - MeanM) / SigmaM / SigmaM;
            return ReachedM - Math.Log(1 - u) / hazard;
        }
        return Math.Max(ReachedM, MeanM + SigmaM * NormalLaw.Quantile(gone + u * (1 - gone)));
    }

    /// <summary>Mean of the distribution that is left.</summary>
    public double Expected()
    {
        double sum = 0;
        const int Points = 64;
        for (int i = 0; i < Points; i++) sum += Quantile((i + 0.5) / Points);
        return sum / Points;
    }
}

/// <summary>The standard normal distribution.</summary>
internal static class NormalLaw
{
    /// <summary>Chance of a value below x: Abramowitz and Stegun 26.2.17, error under 7.5·10⁻⁸.</summary>
    public static double Below(double x)
    {
        double t = 1 / (1 + 0.2316419 * Math.Abs(x));
        double tail = Math.Exp(-x * x / 2) / Math.Sqrt(2 * Math.PI) * t * (0.319381530 + t * (-0.356563782 +
            t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
        return x >= 0 ? 1 - tail : tail;
    }

    /// <summary>Inverse of <see cref="Below"/>: Abramowitz and Stegun 26.2.23, error under 4.5·10⁻⁴.</summary>
    public static double Quantile(double p)
    {
        double q = Math.Clamp(p < 0.5 ? p : 1 - p, 1e-12, 0.5);
        double t = Math.Sqrt(-2 * Math.Log(q));
        double x = t - (2.515517 + t * (0.802853 + t * 0.010328)) /
            (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
        return p < 0.5 ? -x : x;
    }
}
