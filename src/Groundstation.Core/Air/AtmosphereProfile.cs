namespace Groundstation.Core.Air;

/// <summary>
/// The layers of the US Standard Atmosphere 1976 (NOAA-S/T 76-1562, Table 4) in hydrostatic balance, with the whole
/// temperature column moved by a constant offset and its own pressure at mean sea level. Offset 0 and 101 325 Pa give
/// the standard itself. Immutable. Heights are geometric metres above mean sea level unless named geopotential.
/// </summary>
/// <remarks>
/// Holds from −5 km to 86 km geometric. Below, the lowest layer's lapse goes on (to 100 km below, where it is cut so
/// that no temperature can turn absurd); above 84.852 km geopotential the column goes on isothermal. The standard's
/// slight fall of mean molar mass from 80 to 86 km is not in it (0.05 % in temperature at 86 km).
/// </remarks>
public sealed class AtmosphereProfile
{
    /// <summary>Acceleration of gravity at sea level in the standard, m/s².</summary>
    public const double StandardGravity = 9.80665;

    /// <summary>Effective Earth radius of the standard, m.</summary>
    public const double EarthRadiusM = 6_356_766;

    /// <summary>Specific gas constant of dry air, J/(kg·K): 8314.32 / 28.9644 as in the standard.</summary>
    public const double GasConstantAir = 8314.32 / 28.9644;

    private static ReadOnlySpan<double> BaseHeightM => [0, 11_000, 20_000, 32_000, 47_000, 51_000, 71_000, 84_852];
    private static ReadOnlySpan<double> LapseKPerM => [-0.0065, 0, 0.001, 0.0028, 0, -0.0028, -0.002, 0];

    private readonly double[] _baseTemperatureK = new double[8];
    private readonly double[] _basePressurePa = new double[8];

    /// <summary>Makes the column.</summary>
    /// <param name="temperatureOffsetK">Added to the standard's temperature at every height, K; −60 to 60.</param>
    /// <param name="seaLevelPressurePa">Pressure at mean sea level, Pa; above 0.</param>
    public AtmosphereProfile(double temperatureOffsetK = 0, double seaLevelPressurePa = 101_325)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(Math.Abs(temperatureOffsetK), 60, nameof(temperatureOffsetK));
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(seaLevelPressurePa);
        TemperatureOffsetK = temperatureOffsetK;
        _baseTemperatureK[0] = 288.15 + temperatureOffsetK;
        _basePressurePa[0] = seaLevelPressurePa;
        for (int i = 1; i < 8; i++)
        {
            double h = BaseHeightM[i];
            _baseTemperatureK[i] = _baseTemperatureK[i - 1] + LapseKPerM[i - 1] * (h - BaseHeightM[i - 1]);
            _basePressurePa[i] = PressureInLayer(i - 1, h);
        }
    }

    /// <summary>Offset from the standard's temperature, K.</summary>
    public double TemperatureOffsetK { get; }

    /// <summary>Geopotential height, m, of a geometric one: r₀·z/(r₀ + z).</summary>
    public static double GeopotentialFromGeometric(double geometricHeightM) =>
        EarthRadiusM * geometricHeightM / (EarthRadiusM + geometricHeightM);

    /// <summary>Geometric height, m, of a geopotential one: r₀·h/(r₀ − h).</summary>
    public static double GeometricFromGeopotential(double geopotentialHeightM) =>
        EarthRadiusM * geopotentialHeightM / (EarthRadiusM - geopotentialHeightM);

    /// <summary>Acceleration of gravity, m/s²: g₀·(r₀/(r₀ + z))².</summary>
    public static double Gravity(double geometricHeightM)
    {
        double ratio = EarthRadiusM / (EarthRadiusM + geometricHeightM);
        return StandardGravity * ratio * ratio;
    }

    /// <summary>Temperature, K.</summary>
    public double TemperatureK(double geometricHeightM)
    {
        double h = Geopotential(geometricHeightM);
        return TemperatureInLayer(LayerAt(h), h);
    }

    /// <summary>Pressure, Pa.</summary>
    public double PressurePa(double geometricHeightM)
    {
        double h = Geopotential(geometricHeightM);
        return PressureInLayer(LayerAt(h), h);
    }

    /// <summary>Density, kg/m³: p/(R·T).</summary>
    public double DensityKgM3(double geometricHeightM)
    {
        double h = Geopotential(geometricHeightM);
        int layer = LayerAt(h);
        return PressureInLayer(layer, h) / (GasConstantAir * TemperatureInLayer(layer, h));
    }

    /// <summary>The geometric height, m, with this pressure.</summary>
    /// <param name="pressurePa">Pressure, Pa; above 0.</param>
    public double HeightFromPressure(double pressurePa)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(pressurePa);
        int layer = 0;
        while (layer < 7 && pressurePa <= _basePressurePa[layer + 1])
            layer++;
        double lapse = LapseKPerM[layer], ratio = pressurePa / _basePressurePa[layer];
        double h = BaseHeightM[layer] + (lapse == 0
            ? -GasConstantAir * _baseTemperatureK[layer] / StandardGravity * Math.Log(ratio)
            : _baseTemperatureK[layer] / lapse * (Math.Pow(ratio, -GasConstantAir * lapse / StandardGravity) - 1));
        return GeometricFromGeopotential(h);
    }

    private static double Geopotential(double geometricHeightM) =>
        GeopotentialFromGeometric(Math.Max(geometricHeightM, -100_000));

    private static int LayerAt(double geopotentialM)
    {
        ReadOnlySpan<double> bases = BaseHeightM;
        int layer = 0;
        while (layer < 7 && geopotentialM >= bases[layer + 1])
            layer++;
        return layer;
    }

    private double TemperatureInLayer(int layer, double geopotentialM) =>
        _baseTemperatureK[layer] + LapseKPerM[layer] * (geopotentialM - BaseHeightM[layer]);

    private double PressureInLayer(int layer, double geopotentialM)
    {
        double lapse = LapseKPerM[layer], above = geopotentialM - BaseHeightM[layer];
        double t = _baseTemperatureK[layer];
        return _basePressurePa[layer] * (lapse == 0
            ? Math.Exp(-StandardGravity * above / (GasConstantAir * t))
            : Math.Pow(t / (t + lapse * above), StandardGravity / (GasConstantAir * lapse)));
    }
}
