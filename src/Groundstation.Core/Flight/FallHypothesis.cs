namespace Groundstation.Core.Flight;

/// <summary>
/// One posterior of the fall and the day's atmosphere under one supposition of how noisy the fall is and how steady the
/// canopy: an extended Kalman filter over the numbers named in <see cref="FallState"/>.
/// </summary>
internal sealed class FallHypothesis
{
    private const int N = FallState.Size;

    /// <summary>Vertical motion of the air, m/s, and unsteady drag as a share of the speed; both pass within a minute.</summary>
    private const double GustMps = 0.5, UnsteadyShare = 0.02, GustS = 15;

    private readonly double _noise;
    private readonly double _walk;
    private double[] _row = new double[N];
    private double[] _gain = new double[N];

    /// <param name="noise">Noise as a multiple of the usual.</param>
    /// <param name="walk">Variance a second of ln(descent rate).</param>
    /// <param name="lnRate">Mean of ln(descent rate at sea level) before it is measured.</param>
    /// <param name="lnSigma">Its standard deviation.</param>
    public FallHypothesis(double noise, double walk, double lnRate, double lnSigma)
    {
        (_noise, _walk) = (noise, walk);
        FallState.Prior(Mean, Covariance, lnRate, lnSigma);
    }

    /// <summary>Variance a second of ln(descent rate).</summary>
    public double Walk => _walk;

    public double[] Mean { get; private set; } = new double[N];

    public double[] Covariance { get; private set; } = new double[N * N];

    /// <summary>
    /// The fading sum of the newest steps' innovations in standard deviations, each cut at 4: surprises of one sign add up.
    /// </summary>
    public double Surprise { get; private set; }

    /// <summary>Starts measuring at an anchor.</summary>
    public void Begin(double heightVariance)
    {
        Reset(FallState.Height, heightVariance);
        Reset(FallState.Gust, _noise * _noise * GustMps * GustMps);
    }

    /// <summary>The canopy has changed: what was known of its rate counts for little.</summary>
    public void Doubt(double lnVariance)
    {
        Loosen(lnVariance);
        Surprise = 0;
    }

    /// <summary>The rate may have changed by so much.</summary>
    public void Loosen(double lnVariance) => Covariance[FallState.LnRate * N + FallState.LnRate] += lnVariance;

    /// <summary>Noise as a multiple of the usual.</summary>
    public double Noise => _noise;

    /// <summary>
    /// Variance of the time left, s², that each second of a fall at <paramref name="mps"/> adds under the usual noise: what
    /// is unsteady in it, over times longer than its memory.
    /// </summary>
    public static double Unsteadiness(double mps) =>
        2 * GustS * (GustMps * GustMps / (mps * mps) + UnsteadyShare * UnsteadyShare);

    /// <summary>Takes the loss of height between two anchors; gives the logarithm of its likelihood.</summary>
    public double Fall(double fromM, double toM, double seconds, double heightVariance)
    {
        Span<double> b = stackalloc double[N];
        double speed = FallState.MeanSpeed(Mean, fromM, toM, b), measured = (fromM - toM) / seconds, off = 0;
        // With the rate all but unknown the filter must be linearised where the measurement is: from a plan of 5 m/s a
        // first step at 8 m/s would land at 9, believed to a percent. What is foretold stays the mean's, by that tangent.
        if (measured > 0 && Covariance[FallState.LnRate * N + FallState.LnRate] > 0.02)
        {
            off = Math.Clamp(Math.Log(measured / speed), -2, 2);
            double mean = Mean[FallState.LnRate];
            Mean[FallState.LnRate] += off;
            speed = FallState.MeanSpeed(Mean, fromM, toM, b);
            Mean[FallState.LnRate] = mean;
        }
        double phi = Math.Exp(-seconds / GustS), through = GustS * (1 - phi);

        // Transition: height loses speed·seconds, less what the gust lifts; everything else stays.
        Span<double> f = _row;
        for (int i = 0; i < N; i++) f[i] = -speed * seconds * b[i];
        f[FallState.Height] = 1;
        f[FallState.Gust] = through;
        Mean[FallState.Height] += -speed * (1 - off) * seconds + through * Mean[FallState.Gust];
        Mean[FallState.Gust] *= phi;
        Propagate(f, phi);
        double gust = _noise * _noise * (GustMps * GustMps + UnsteadyShare * UnsteadyShare * speed * speed);
        double x = seconds / GustS;
        Covariance[FallState.Height * N + FallState.Height] +=
            gust * GustS * GustS * (2 * x - 3 + 4 * phi - phi * phi);
        double cross = gust * GustS * (1 - phi) * (1 - phi);
        Covariance[FallState.Height * N + FallState.Gust] += cross;
        Covariance[FallState.Gust * N + FallState.Height] += cross;
        Covariance[FallState.Gust * N + FallState.Gust] += gust * (1 - phi * phi);
        Covariance[FallState.LnRate * N + FallState.LnRate] += _walk * seconds;

        _row.AsSpan().Clear();
        _row[FallState.Height] = 1;
        double innovation = toM - fromM - Mean[FallState.Height];
        double likelihood = Update(innovation, heightVariance, 9, out double sigma);
        Surprise = 0.5 * Surprise + Math.Clamp(innovation / sigma, -4, 4);
        // The height is kept relative to the new anchor.
        Mean[FallState.Height] -= toM - fromM;
        return likelihood;
    }

    /// <summary>Takes a linear measurement of the state: its row, what is left unexplained, and its variance.</summary>
    public double Measure(ReadOnlySpan<double> row, double innovation, double variance)
    {
        row.CopyTo(_row);
        return Update(innovation, variance, 9, out _);
    }

    private double Update(double innovation, double variance, double most, out double sigma)
    {
        double s = variance;
        for (int i = 0; i < N; i++)
        {
            double g = 0;
            for (int j = 0; j < N; j++) g += Covariance[i * N + j] * _row[j];
            _gain[i] = g;
        }
        for (int i = 0; i < N; i++) s += _row[i] * _gain[i];
        sigma = Math.Sqrt(s);
        double normalised = innovation * innovation / s;
        double likelihood = -0.5 * (Math.Log(s) + Math.Min(normalised, most));
        // Beyond three sigmas the measurement is taken to be noisier than supposed.
        if (normalised > most) s *= normalised / most;
        for (int i = 0; i < N; i++)
        {
            Mean[i] += _gain[i] * innovation / s;
            for (int j = 0; j < N; j++) Covariance[i * N + j] -= _gain[i] * _gain[j] / s;
        }
        return likelihood;
    }

    /// <summary>P ← F·P·Fᵀ where F is the identity but for the height's row and the gust's decay.</summary>
    private void Propagate(ReadOnlySpan<double> f, double phi)
    {
        Span<double> fp = stackalloc double[N];
        double variance = 0;
        for (int j = 0; j < N; j++)
        {
            double sum = 0;
            for (int i = 0; i < N; i++) sum += f[i] * Covariance[i * N + j];
            fp[j] = sum;
        }
        for (int j = 0; j < N; j++) variance += f[j] * fp[j];
        for (int j = 0; j < N; j++)
        {
            Covariance[FallState.Height * N + j] = fp[j];
            Covariance[j * N + FallState.Height] = fp[j];
        }
        Covariance[FallState.Height * N + FallState.Height] = variance;
        for (int j = 0; j < N; j++)
        {
            Covariance[FallState.Gust * N + j] *= phi;
            Covariance[j * N + FallState.Gust] *= phi;
        }
    }

    private void Reset(int index, double variance)
    {
        for (int j = 0; j < N; j++) Covariance[index * N + j] = Covariance[j * N + index] = 0;
        Covariance[index * N + index] = variance;
        Mean[index] = 0;
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public FallHypothesis Copy()
    {
        var copy = (FallHypothesis)MemberwiseClone();
        copy._row = [.. _row];
        copy._gain = [.. _gain];
        copy.Mean = [.. Mean];
        copy.Covariance = [.. Covariance];
        return copy;
    }
}
