using Groundstation.Core.Quantities;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Io.Report;

/// <summary>Figures of the page in the units that the plan, or the operator in flight, chose. Takes SI.</summary>
/// <param name="Units">The units chosen.</param>
internal readonly record struct ReportUnits(DisplayUnits Units)
{
    /// <summary>Heights on an axis.</summary>
    public AxisUnit Tall => Customary ? new("thousand ft", 1000 * FootM) : new("km", 1000);

    /// <summary>Distances on an axis.</summary>
    public AxisUnit Far => Customary ? new("mi", MileM) : new("km", 1000);

    /// <summary>Distances on the axis of a small picture.</summary>
    public AxisUnit Near => Customary ? new("ft", FootM) : new("m", 1);

    /// <summary>Vertical rates on an axis.</summary>
    public AxisUnit Vertical => Customary ? new("ft/min", FootM / 60) : new("m/s", 1);

    /// <summary>Speeds over ground and of the wind on an axis.</summary>
    public AxisUnit Level => Customary ? new("mph", MileM / 3600) : new("m/s", 1);

    /// <summary>Temperatures, from °C, on an axis.</summary>
    public AxisUnit Warmth => Customary ? new("°F", 5.0 / 9, -32 * 5.0 / 9) : new("°C", 1);

    /// <summary>Pressures of the air on an axis.</summary>
    public AxisUnit Pressure => Customary ? new("inHg", InchOfMercuryPa) : new("hPa", 100);

    /// <summary>True when figures are in feet and miles.</summary>
    public bool Customary => Units == DisplayUnits.Customary;

    /// <summary>The units of a flight.</summary>
    public static ReportUnits Of(FlightRecord record) => new(record.Last.Units ?? record.Plan.Units);

    /// <summary>What the page's figures are in, in words.</summary>
    public string Words => Customary
        ? "units customary (ft feet, mi statute miles, mph miles an hour); CSV and map files beside this page are SI"
        : "units metric";

    /// <summary>A height in whole metres or feet: <c>29 600 m</c>, <c>97 113 ft</c>.</summary>
    public string Height(double metres) => Customary ? Html.Whole(metres / FootM) + " ft" : Html.Metres(metres);

    /// <summary>A distance: <c>94.9 km</c>, <c>59.0 mi</c>.</summary>
    public string Distance(double metres) => !Customary ? Html.Distance(metres)
        : Math.Abs(metres) < 0.2 * MileM ? Html.Whole(metres / FootM) + " ft" : Html.Number(metres / MileM, 1) + " mi";

    /// <summary>A vertical rate: <c>5.2 m/s</c>, <c>1 024 ft/min</c>.</summary>
    public string Rate(double mps) =>
        Customary ? Html.Whole(mps / FootM * 60) + " ft/min" : Html.Number(mps, 1) + " m/s";

    /// <summary>A speed over ground or of the wind: <c>32 m/s</c>, <c>72 mph</c>.</summary>
    public string Speed(double mps) =>
        Customary ? Html.Whole(mps * 3600 / MileM) + " mph" : Html.Number(mps, 0) + " m/s";

    /// <summary>A temperature from °C.</summary>
    public string Temperature(double c) =>
        Customary ? Html.Number(c * 9 / 5 + 32, 0) + " °F" : Html.Number(c, 0) + " °C";

    /// <summary>An area on the ground: <c>6.4 km²</c>, <c>2.5 sq mi</c>.</summary>
    public string Area(double m2) => Customary ? Html.Number(m2 / (MileM * MileM), 1) + " sq mi"
        : Html.Number(m2 / 1e6, 1) + " km²";

    /// <summary>Both half axes of an area.</summary>
    public string Axes(Core.Landing.SearchArea area) => $"±{Distance(area.MajorM)} × ±{Distance(area.MinorM)}";
}
