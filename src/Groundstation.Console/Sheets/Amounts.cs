using Groundstation.Console.Cells;
using Groundstation.Core.Quantities;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Console.Sheets;

/// <summary>
/// Masses, volumes and the like for the plan sheet, metric or customary. Takes SI. Heights and rates: <see
/// cref="Figures"/>.
/// </summary>
internal readonly record struct Amounts(DisplayUnits Units)
{
    private bool Customary => Units == DisplayUnits.Customary;

    /// <summary>Heights, rates and distances.</summary>
    public Figures Fig => new(Units, false);

    /// <summary>Mass: grams or kilograms; pounds, or ounces below one pound.</summary>
    public string Mass(double kg) => Customary
        ? Math.Abs(kg) < PoundKg ? Number(kg / PoundKg * 16, 1) + " oz" : Number(kg / PoundKg, 2) + " lb"
        : Math.Abs(kg) < 0.9995 ? Number(kg * 1000, 0) + " g" : Number(kg, 3) + " kg";

    /// <summary>Volume of gas.</summary>
    public string Gas(double m3) =>
        Customary ? Number(m3 / (FootM * FootM * FootM), 1) + " ft³" : Number(m3, 2) + " m³";

    /// <summary>Volume of water in a jug.</summary>
    public string Water(double kg) =>
        Customary ? Number(kg / 0.999 / 3.785411784, 2) + " US gallons" : Number(kg / 0.999, 2) + " litres";

    /// <summary>Diameter or length of a few metres.</summary>
    public string Length(double m) => Customary ? Number(m / FootM, 1) + " ft" : Number(m, 2) + " m";

    /// <summary>Area of a canopy.</summary>
    public string Area(double m2) => Customary ? Number(m2 / (FootM * FootM), 1) + " ft²" : Number(m2, 2) + " m²";

    /// <summary>Rate without a sign.</summary>
    public string Rate(double mps) =>
        Customary ? Number(mps / FootM * 60, 0) + " ft/min" : Number(mps, 1) + " m/s";

    /// <summary>Temperature from °C.</summary>
    public string Temperature(double c) => Customary ? Number(c * 9 / 5 + 32, 0) + " °F" : Number(c, 0) + " °C";

    /// <summary>Pressure of the air.</summary>
    public string AirPressure(double pa) =>
        Customary ? Number(pa / InchOfMercuryPa, 2) + " inHg" : Number(pa / 100, 0) + " hPa";

    /// <summary>Pressure of a cylinder.</summary>
    public string GaugePressure(double pa) =>
        Customary ? Number(pa / 6894.757293168361, 0) + " psi" : Number(pa / 1e5, 0) + " bar";

    /// <summary>Energy, joules or foot-pounds.</summary>
    public string Energy(double j) => Customary ? Number(j / 1.3558179483314, 0) + " ft lbf" : Number(j, 0) + " J";

    /// <summary>A length of time, to the minute.</summary>
    public static string Minutes(double seconds)
    {
        int minutes = (int)Math.Round(seconds / 60);
        return minutes < 60 ? $"{minutes} min" : $"{minutes / 60} h {minutes % 60:D2} min";
    }

    private static string Number(double value, int decimals) => Figures.Number(value, decimals);
}
