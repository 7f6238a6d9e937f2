using System.Globalization;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Core.Quantities;

/// <summary>
/// A figure in a text (<see cref="Saying"/>): in SI as logs have it, and in customary units as a reader may choose.
/// </summary>
public readonly record struct Measure
{
    private readonly (double Value, string Unit, string Format) _metric, _customary;

    private Measure((double Value, string Unit, string Format) metric,
        (double Value, string Unit, string Format) customary) => (_metric, _customary) = (metric, customary);

    /// <summary>A height from metres: whole metres or feet.</summary>
    public static Measure Height(double metres) => new((metres, " m", "F0"), (metres / FootM, " ft", "F0"));

    /// <summary>A height from metres, as far as people think of the air above: kilometres, or hundreds of feet.</summary>
    public static Measure HeightAloft(double metres) => new((metres / 1000, " km", "F1"),
        (Math.Round(metres / FootM / 100) * 100, " ft", "F0"));

    /// <summary>A height from metres where the thousands say enough: whole kilometres, or thousands of feet.</summary>
    public static Measure Level(double metres) =>
        new((metres / 1000, " km", "F0"), (metres / FootM / 1000, " kft", "F0"));

    /// <summary>A distance from metres: metres or kilometres; feet, from a fifth of a mile statute miles.</summary>
    public static Measure Distance(double metres) => new(
        metres < 1000 ? (metres, " m", "F0") : (metres / 1000, " km", "F1"),
        metres < 0.2 * MileM ? (metres / FootM, " ft", "F0") : (metres / MileM, " mi", "F1"));

    /// <summary>A distance from metres, in tenths of a kilometre or statute mile however short.</summary>
    public static Measure DistanceAfar(double metres) =>
        new((metres / 1000, " km", "F1"), (metres / MileM, " mi", "F1"));

    /// <summary>A distance from metres, in whole metres however long; in customary units as any other.</summary>
    public static Measure Extent(double metres) => new((metres, " m", "F0"), Distance(metres)._customary);

    /// <summary>A vertical rate from m/s: m/s, or feet a minute.</summary>
    public static Measure VerticalRate(double mps) => new((mps, " m/s", "F1"), (mps / FootM * 60, " ft/min", "F0"));

    /// <summary>A speed over ground from m/s: m/s, or miles an hour.</summary>
    public static Measure Speed(double mps) => new((mps, " m/s", "F0"), (mps * 3600 / MileM, " mph", "F0"));

    /// <summary>An area on the ground from m²: km², or square statute miles.</summary>
    public static Measure Area(double m2) => new((m2 / 1e6, " km²", "F2"), (m2 / (MileM * MileM), " sq mi", "F2"));

    /// <summary>A temperature from °C.</summary>
    public static Measure Temperature(double c) => new((c, " °C", "F0"), (c * 9 / 5 + 32, " °F", "F0"));

    /// <summary>A pressure of the air from Pa: hPa, or inches of mercury.</summary>
    public static Measure AirPressure(double pa) =>
        new((pa / 100, " hPa", "F1"), (pa / InchOfMercuryPa, " inHg", "F2"));

    /// <summary>A mass from kilograms: kilograms, or pounds.</summary>
    public static Measure Mass(double kg) => new((kg, " kg", "F3"), (kg / PoundKg, " lb", "F2"));

    /// <summary>The figure without its unit, where the next one in the text has it.</summary>
    public Measure Bare => new(_metric with { Unit = "" }, _customary with { Unit = "" });

    /// <summary>The figure with its sign, also when it is positive.</summary>
    public Measure Signed => new(_metric with { Format = "+0.0;-0.0;0.0" }, _customary with { Format = "+0;-0;0" });

    /// <summary>The figure with other decimals in SI than usual.</summary>
    /// <param name="format">A standard numeric format.</param>
    public Measure Written(string format) => new(_metric with { Format = format }, _customary);

    /// <summary>The figure in given units.</summary>
    public string In(DisplayUnits units)
    {
        (double value, string unit, string format) = units == DisplayUnits.Customary ? _customary : _metric;
        return Figure(value, format) + unit;
    }

    /// <summary>A number alone, without the sign of a zero: "-0.0" makes a reader think.</summary>
    /// <param name="value">The number.</param>
    /// <param name="format">A numeric format.</param>
    public static string Figure(double value, string format)
    {
        string text = value.ToString(format, CultureInfo.InvariantCulture);
        return text[0] == '-' && text.AsSpan(1).TrimStart("0.").IsEmpty ? text[1..] : text;
    }

    /// <summary>The figure in SI, as logs have it.</summary>
    public override string ToString() => In(DisplayUnits.Metric);
}
