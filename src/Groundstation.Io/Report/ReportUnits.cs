using Groundstation.Core.Plan;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Io.Report;

/// <summary>
/// Figures of the page: metric, and beside it customary where the plan, or the operator in flight, chose those units. Takes
/// SI.
/// </summary>
/// <param name="Units">The units chosen.</param>
internal readonly record struct ReportUnits(DisplayUnits Units)
{
    /// <summary>The units of a flight.</summary>
    public static ReportUnits Of(FlightRecord record) => new(record.Last.Units ?? record.Plan.Units);

    /// <summary>True when customary units stand beside the metric ones.</summary>
    public bool Both => Units == DisplayUnits.Customary;

    /// <summary>What the page's figures are in, in words.</summary>
    public string Words => Both ? "units metric, beside them customary (ft feet, mi statute miles, mph miles an hour); "
        + "drawings metric" : "units metric";

    /// <summary>A height in whole metres: <c>29 600 m (97 113 ft)</c>.</summary>
    public string Height(double metres) => Html.Metres(metres) + Beside(Html.Whole(metres / FootM) + " ft");

    /// <summary>A distance: <c>94.9 km (59.0 mi)</c>.</summary>
    public string Distance(double metres) => Html.Distance(metres) + Beside(Math.Abs(metres) < 0.2 * MileM
        ? Html.Whole(metres / FootM) + " ft" : Html.Number(metres / MileM, 1) + " mi");

    /// <summary>A vertical rate, with one decimal: <c>5.2 m/s (1 024 ft/min)</c>.</summary>
    public string Rate(double mps) => $"{Html.Number(mps, 1)} m/s" + Beside(Html.Whole(mps / FootM * 60) + " ft/min");

    /// <summary>A speed over ground or of the wind: <c>32 m/s (72 mph)</c>.</summary>
    public string Speed(double mps) => $"{Html.Number(mps, 0)} m/s" + Beside(Html.Whole(mps * 3600 / MileM) + " mph");

    /// <summary>A temperature from °C.</summary>
    public string Temperature(double c) => $"{Html.Number(c, 0)} °C" + Beside(Html.Number(c * 9 / 5 + 32, 0) + " °F");

    /// <summary>Both half axes of an area.</summary>
    public string Axes(Core.Landing.SearchArea area) => $"±{Distance(area.MajorM)} × ±{Distance(area.MinorM)}";

    private string Beside(string customary) => Both ? $" ({customary})" : "";
}
