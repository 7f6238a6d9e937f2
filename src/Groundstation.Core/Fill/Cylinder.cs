namespace Groundstation.Core.Fill;

/// <summary>Cylinders of compressed gas, all alike.</summary>
/// <param name="WaterM3">Inner volume of one, m³ (its "water capacity").</param>
/// <param name="PressurePa">Absolute pressure in them, Pa. A gauge shows one atmosphere less.</param>
/// <param name="TemperatureK">Their temperature, K.</param>
/// <param name="Count">How many.</param>
public sealed record Cylinder(double WaterM3, double PressurePa, double TemperatureK, int Count = 1)
{
    /// <summary>Gas in all of them, mol: p·V/(Z·R·T).</summary>
    public double AmountMol(GasKind gas) => AmountMol(gas, PressurePa);

    /// <summary>What can leave them before their pressure is that of the air outside, mol.</summary>
    public double UsableMol(GasKind gas, SiteAir outside) =>
        Math.Max(0, AmountMol(gas) - AmountMol(gas, Math.Min(outside.PressurePa, PressurePa)));

    /// <summary>
    /// Pressure left in them, Pa absolute, after an amount has been taken evenly from all and they have warmed again to
    /// their temperature; null when they do not hold so much.
    /// </summary>
    public double? PressureAfterPa(GasKind gas, double takenMol)
    {
        double left = AmountMol(gas) - takenMol;
        if (left < 0) return null;
        double low = 0, high = PressurePa;
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (AmountMol(gas, middle) < left) low = middle;
            else high = middle;
        }

        return high;
    }

    private double AmountMol(GasKind gas, double pressurePa) => Count * pressurePa * WaterM3
        / (Compressibility.Z(gas, pressurePa, TemperatureK) * LiftingGas.GasConstant * TemperatureK);
}

/// <summary>How far a compressed gas is from an ideal one.</summary>
public static class Compressibility
{
    // Lemmon, Huber and Leachman, J. Res. NIST 113:341 (2008): Z = 1 + Σ aᵢ·(100 K/T)^bᵢ·(p/1 MPa)^cᵢ; coefficients
    // from memory, held by the paper's check values.
    private static readonly (double A, double B, double C)[] Hydrogen =
    [
        (0.05888460, 1.325, 1), (-0.06136111, 1.87, 1), (-0.002650473, 2.5, 2), (0.002731125, 2.8, 2),
        (0.001802374, 2.938, 2.42), (-0.001150707, 3.14, 2.63), (0.9588528e-4, 3.37, 3), (-0.1109040e-6, 3.75, 4),
        (0.1264403e-9, 4, 5),
    ];

    /// <summary>
    /// Compression factor Z = p·V/(n·R·T). Hydrogen: 150 to 1000 K, up to 200 MPa. Helium: −40 to 60 °C, up to 30 MPa,
    /// within 0.0005 of a data sheet's values.
    /// </summary>
    /// <param name="gas">The gas.</param>
    /// <param name="pressurePa">Absolute pressure, Pa.</param>
    /// <param name="temperatureK">Temperature, K.</param>
    public static double Z(GasKind gas, double pressurePa, double temperatureK)
    {
        if (gas == GasKind.Hydrogen)
        {
            double z = 1;
            foreach ((double a, double b, double c) in Hydrogen)
                z += a * Math.Pow(100 / temperatureK, b) * Math.Pow(pressurePa / 1e6, c);
            return z;
        }

        // Second virial coefficient, m³/mol, and a small bend, both fitted to the data sheet at 15 and 50 °C.
        double second = 11.77e-6 - 4e-9 * (temperatureK - 288.15);
        return 1 + second * pressurePa / (LiftingGas.GasConstant * temperatureK) - 4.3e-18 * pressurePa * pressurePa;
    }
}
