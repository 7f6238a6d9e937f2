using Groundstation.Core.Flight;

namespace Groundstation.Core.Landing;

/// <summary>
/// How the fall's landing depends on what is not known of canopy and air: for each supposition the joint spread of
/// ln(descent rate) and of the shifts that slope and air density make, so that a member is four normal numbers.
/// </summary>
internal sealed class FallSpread
{
    private const int N = FallState.Size;

    private double[] _east = new double[N];
    private double[] _north = new double[N];
    private double[] _seconds = new double[N];
    private double[] _roots = new double[FallHypotheses.Most * 16];
    private double[] _means = new double[FallHypotheses.Most * 4];
    // What the unsteadiness to come makes of place and time, under the usual noise: covariance of east, north and seconds.
    private double[] _unsteady = new double[9];

    /// <summary>Takes the fall's path: for each level's step its height, seconds and wind.</summary>
    public void Begin()
    {
        Array.Clear(_east);
        Array.Clear(_north);
        Array.Clear(_seconds);
        Array.Clear(_unsteady);
    }

    /// <summary>Adds one step of the path, at a level.</summary>
    public void Add(int level, double metres, double seconds, double eastM, double northM)
    {
        if (seconds <= 0) return;
        ReadOnlySpan<double> late = [eastM / seconds, northM / seconds, 1];
        double variance = FallHypothesis.Unsteadiness(metres / seconds) * seconds;
        for (int a = 0; a < 9; a++) _unsteady[a] += variance * late[a / 3] * late[a % 3];
        ReadOnlySpan<double> row = FallState.LnSpeedRow(level);
        for (int i = FallState.Slope; i < FallState.SensorKelvin; i++)
        {
            _east[i] -= row[i] * eastM;
            _north[i] -= row[i] * northM;
            _seconds[i] -= row[i] * seconds;
        }
    }

    /// <summary>Works out the spread for every supposition.</summary>
    /// <param name="descent">What is known of the fall.</param>
    /// <param name="lnSigmaPlan">Standard deviation of ln(rate) to use instead while it is not measured.</param>
    /// <param name="leakLnSigma">What a balloon that lets go on the way adds to it.</param>
    public void Finish(DescentRate descent, double lnSigmaPlan, double leakLnSigma)
    {
        Span<double> cp = stackalloc double[4 * N];
        Span<double> c = stackalloc double[16];
        for (int h = 0; h < descent.Hypotheses; h++)
        {
            FallHypothesis one = descent[h];
            ReadOnlySpan<double> p = one.Covariance;
            cp.Clear();
            for (int j = FallState.LnRate; j < FallState.SensorKelvin; j++)
            {
                cp[j] = p[FallState.LnRate * N + j];
                for (int i = FallState.Slope; i < FallState.SensorKelvin; i++)
                {
                    double v = p[i * N + j];
                    cp[N + j] += _east[i] * v;
                    cp[2 * N + j] += _north[i] * v;
                    cp[3 * N + j] += _seconds[i] * v;
                }
            }
            for (int a = 0; a < 4; a++)
            {
                c[a * 4] = cp[a * N + FallState.LnRate];
                double e = 0, n = 0, s = 0;
                for (int j = FallState.Slope; j < FallState.SensorKelvin; j++)
                {
                    e += cp[a * N + j] * _east[j];
                    n += cp[a * N + j] * _north[j];
                    s += cp[a * N + j] * _seconds[j];
                }
                (c[a * 4 + 1], c[a * 4 + 2], c[a * 4 + 3]) = (e, n, s);
            }
            Span<double> mean = _means.AsSpan(h * 4, 4);
            mean.Clear();
            if (!descent.Measured)
            {
                for (int a = 1; a < 4; a++) c[a * 4] = c[a] = 0;
                c[0] = lnSigmaPlan * lnSigmaPlan;
            }
            else
            {
                mean[0] = one.Mean[FallState.LnRate] - descent.Mean[FallState.LnRate];
                // The canopy goes on changing on the way down; the mean of a walk over a time has a third of its end's
                // variance.
                c[0] += one.Walk * _total / 3 + leakLnSigma * leakLnSigma;
            }
            for (int a = 0; a < 9; a++) c[(a / 3 + 1) * 4 + a % 3 + 1] += one.Noise * one.Noise * _unsteady[a];
            for (int i = FallState.Slope; i < FallState.SensorKelvin; i++)
            {
                double off = one.Mean[i] - descent.Mean[i];
                mean[1] += off * _east[i];
                mean[2] += off * _north[i];
                mean[3] += off * _seconds[i];
            }
            Root(c, _roots.AsSpan(h * 16, 16));
        }
    }

    private double _total;

    /// <summary>Whole time of the fall, s.</summary>
    public double TotalS
    {
        set => _total = value;
    }

    /// <summary>One member's ln(rate) off the mean, and its shifts east, north (m) and in time (s).</summary>
    public (double Ln, double EastM, double NorthM, double Seconds) Member(int hypothesis, ReadOnlySpan<double> x)
    {
        ReadOnlySpan<double> r = _roots.AsSpan(hypothesis * 16, 16), m = _means.AsSpan(hypothesis * 4, 4);
        return (m[0] + r[0] * x[0], m[1] + r[4] * x[0] + r[5] * x[1],
            m[2] + r[8] * x[0] + r[9] * x[1] + r[10] * x[2],
            m[3] + r[12] * x[0] + r[13] * x[1] + r[14] * x[2] + r[15] * x[3]);
    }

    /// <summary>Cholesky root of a covariance of four, lower triangle; a component without spread of its own gets none.</summary>
    private static void Root(ReadOnlySpan<double> c, Span<double> root)
    {
        root.Clear();
        for (int i = 0; i < 4; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double s = c[i * 4 + j];
                for (int k = 0; k < j; k++) s -= root[i * 4 + k] * root[j * 4 + k];
                if (i == j) root[i * 4 + i] = s > 1e-12 * Math.Abs(c[i * 4 + i]) ? Math.Sqrt(s) : 0;
                else root[i * 4 + j] = root[j * 4 + j] > 0 ? s / root[j * 4 + j] : 0;
            }
        }
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public FallSpread Copy()
    {
        var copy = (FallSpread)MemberwiseClone();
        copy._east = [.. _east];
        copy._north = [.. _north];
        copy._seconds = [.. _seconds];
        copy._unsteady = [.. _unsteady];
        copy._roots = [.. _roots];
        copy._means = [.. _means];
        return copy;
    }
}
