using Groundstation.Core.Air;

namespace Groundstation.Core.Flight;

/// <summary>
/// The numbers that say how fast a canopy falls: v(h) = v₀·√(ρ₀/ρ(h)·g(h)/g₀), with the day's density. Where each is in
/// the state, what is known of it beforehand, and the speed that follows.
/// </summary>
internal static class FallState
{
    /// <summary>Height relative to the last anchor, m.</summary>
    public const int Height = 0;

    /// <summary>Upward motion of air, or drag above the mean, as a speed, m/s.</summary>
    public const int Gust = 1;

    /// <summary>ln of the descent rate at sea level in the 1976 atmosphere, m/s.</summary>
    public const int LnRate = 2;

    /// <summary>Change of ln v with ln(ρ/ρ₀) beyond the √ρ law: drag coefficients change a little with speed.</summary>
    public const int Slope = 3;

    /// <summary>Departure of ln(pressure at sea level) from standard.</summary>
    public const int LnPressure = 4;

    /// <summary>Departure of temperature at each of <see cref="AirTables.KnotsM"/>, K.</summary>
    public const int Kelvin = 5;

    /// <summary>Error of the temperature sensor, K.</summary>
    public const int SensorKelvin = 14;

    /// <summary>Error of the pressure sensor, hPa.</summary>
    public const int SensorHectopascal = 15;

    /// <summary>How many numbers.</summary>
    public const int Size = 16;

    private static readonly double[] Sensitivity = MakeSensitivity();

    /// <summary>What is known before anything is heard.</summary>
    public static void Prior(Span<double> mean, Span<double> covariance, double lnRate, double lnSigma)
    {
        mean.Clear();
        covariance.Clear();
        mean[LnRate] = lnRate;
        Set(covariance, LnRate, lnSigma);
        // Sirks et al. 2020 (second-hand): the √ρ law over-predicts by 3.7 % at height, that is 0.9 % per e-fold; here it is
        // left in the middle and given half of that as its spread, since the heights of the flight itself tell it soon.
        Set(covariance, Slope, 0.005);
        // Sea-level pressure varies by about 10 hPa.
        Set(covariance, LnPressure, 0.01);
        // Temperature: 5 K for the whole column (season and air mass), 3 K more that go together over 8 km.
        int knots = AirTables.KnotsM.Length;
        for (int i = 0; i < knots; i++)
        {
            for (int j = 0; j < knots; j++)
            {
                double apart = Math.Abs(AirTables.KnotsM[i] - AirTables.KnotsM[j]);
                covariance[(Kelvin + i) * Size + Kelvin + j] = 25 + 9 * Math.Exp(-apart / 8000);
            }
        }
        // Small sensors: radiation and lag 2.5 K, barometers 1.5 hPa.
        Set(covariance, SensorKelvin, 2.5);
        Set(covariance, SensorHectopascal, 1.5);
    }

    /// <summary>How ln v at a level depends on each number; the same wherever the state is.</summary>
    public static ReadOnlySpan<double> LnSpeedRow(int level) => Sensitivity.AsSpan(level * Size, Size);

    /// <summary>ln of the terminal speed at a level, m/s.</summary>
    public static double LnSpeed(ReadOnlySpan<double> state, int level)
    {
        double sum = 0.5 * (AirTables.LnGravity[level] - AirTables.LnDensity[level]);
        ReadOnlySpan<double> row = LnSpeedRow(level);
        for (int i = LnRate; i < SensorKelvin; i++) sum += row[i] * state[i];
        return sum;
    }

    /// <summary>
    /// Mean speed of a steady fall between two heights, m/s: height over time, time summed in steps of at most 500 m.
    /// </summary>
    /// <param name="state">The state.</param>
    /// <param name="fromM">Height at the start.</param>
    /// <param name="toM">Height at the end; when not lower, the speed at their middle is given.</param>
    /// <param name="row">Takes the derivative of its logarithm by each number.</param>
    public static double MeanSpeed(ReadOnlySpan<double> state, double fromM, double toM, Span<double> row)
    {
        int parts = Math.Max(1, (int)Math.Ceiling((fromM - toM) / 500));
        double time = 0;
        row.Clear();
        for (int k = 0; k < parts; k++)
        {
            double z = fromM + (toM - fromM) * (k + 0.5) / parts;
            int level = Levels.Below(z);
            double f = Math.Clamp((z - Levels.HeightM(level)) / Levels.StepM, 0, 1);
            double ln = (1 - f) * LnSpeed(state, level) + f * LnSpeed(state, level + 1);
            double terminal = Math.Exp(2 * ln);
            // Falling into denser air it is always a little faster than terminal: v² = Y/(1 − Y/(2gH)), the exact
            // solution of dv²/ds = 2g(1 − v²/Y) for Y falling with a scale height H = 7 km.
            double lag = 1 / (1 - Math.Min(terminal / (2 * AtmosphereProfile.StandardGravity * 7000), 0.6));
            double share = 1 / Math.Sqrt(terminal * lag);
            time += share;
            ReadOnlySpan<double> a = LnSpeedRow(level), b = LnSpeedRow(level + 1);
            for (int i = LnRate; i < SensorKelvin; i++) row[i] += share * ((1 - f) * a[i] + f * b[i]);
        }
        for (int i = LnRate; i < SensorKelvin; i++) row[i] /= time;
        return parts / time;
    }

    private static void Set(Span<double> covariance, int index, double sigma) =>
        covariance[index * Size + index] = sigma * sigma;

    private static double[] MakeSensitivity()
    {
        var table = new double[Levels.Count * Size];
        for (int level = 0; level < Levels.Count; level++)
        {
            Span<double> row = table.AsSpan(level * Size, Size);
            row[LnRate] = 1;
            row[Slope] = AirTables.LnDensity[level];
            row[LnPressure] = -0.5;
            for (int k = 0; k < AirTables.KnotsM.Length; k++)
                row[Kelvin + k] = -0.5 * AirTables.LnDensityPerKelvin(level, k);
        }
        return table;
    }
}
