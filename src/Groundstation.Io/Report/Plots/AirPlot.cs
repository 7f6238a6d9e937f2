using Groundstation.Core.Air;
using Groundstation.Core.Flight;
using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Legends;
using OxyPlot.Series;

namespace Groundstation.Io.Report.Plots;

/// <summary>
/// Temperature and pressure by height as the payload measured them, against the 1976 standard atmosphere.
/// </summary>
internal static class AirPlot
{
    /// <summary>Draws it; null when the payload sent neither.</summary>
    public static Plot? Draw(FlightRecord record, ReportUnits units)
    {
        PayloadRow[] rows = [.. record.Payload.Where(p => p.Telemetry.OutsideC is not null
            || p.Telemetry.PressurePa is not null)];
        if (rows.Length == 0)
            return null;
        (AxisUnit tall, AxisUnit warmth, AxisUnit pressing) = (units.Tall, units.Warmth, units.Pressure);
        PlotModel model = PlotStyle.Model("Air, measured against the standard atmosphere 1976");
        Axis temperature = PlotStyle.Axis(AxisPosition.Bottom, "Temperature", warmth.Name, "t");
        (temperature.StartPosition, temperature.EndPosition, temperature.MinimumRange) = (0, 0.56, 10 / warmth.Size);
        Axis pressure = PlotStyle.LogAxis(AxisPosition.Bottom, "Pressure", pressing.Name, "p");
        (pressure.StartPosition, pressure.EndPosition, pressure.Maximum) = (0.62, 1, pressing.Of(120_000));
        model.Axes.Add(temperature);
        model.Axes.Add(pressure);
        Axis height = PlotStyle.Axis(AxisPosition.Left, "Height above mean sea level", tall.Name);
        height.MinimumRange = tall.Of(200);
        model.Axes.Add(height);

        double low = rows.Min(r => r.Height.Metres), high = Math.Max(rows.Max(r => r.Height.Metres), low + 100);
        AtmosphereProfile standard = new();
        DataPoint[] heights = [.. Enumerable.Range(0, 121).Select(i => new DataPoint(i, low + (high - low) * i / 120))];
        Leg("measured, way up", PlotStyle.Up, MarkerType.Circle, p => p is Phase.Pad or Phase.Ascent or Phase.Float);
        Leg("measured, way down", PlotStyle.Down, MarkerType.Triangle, p => p is Phase.Descent or Phase.Landed);
        // Over the measurements: they would hide it.
        Add(PlotStyle.Line("standard atmosphere", PlotStyle.Ink, heights.Select(h => new DataPoint(
            warmth.Of(standard.TemperatureK(h.Y) - 273.15), tall.Of(h.Y))), 1.4, LineStyle.Dash), "t");
        Add(PlotStyle.Line(null, PlotStyle.Ink, heights.Select(h => new DataPoint(
            pressing.Of(standard.PressurePa(h.Y)), tall.Of(h.Y))), 1.4, LineStyle.Dash), "p");
        Legend legend = PlotStyle.Legend(LegendPosition.TopCenter);
        legend.LegendPlacement = LegendPlacement.Outside;
        legend.LegendOrientation = LegendOrientation.Horizontal;
        model.Legends.Add(legend);
        return Plot.Draw("air", "Temperature and pressure by height, measured and in the standard atmosphere.", model,
            620);

        void Leg(string title, OxyColor color, MarkerType marker, Func<Phase, bool> wanted)
        {
            PayloadRow[] leg = [.. PlotStyle.Thin([.. rows.Where(r => wanted(r.Phase))], 400)];
            if (leg.Length == 0)
                return;
            Add(PlotStyle.Mark(title, marker, color, 2.8, leg.Where(r => r.Telemetry.OutsideC is not null)
                .Select(r => new DataPoint(warmth.Of(r.Telemetry.OutsideC!.Value), tall.Of(r.Height.Metres)))), "t");
            Add(PlotStyle.Mark(null, marker, color, 2.8, leg.Where(r => r.Telemetry.PressurePa is not null)
                .Select(r => new DataPoint(pressing.Of(r.Telemetry.PressurePa!.Value), tall.Of(r.Height.Metres)))),
                "p");
        }

        void Add(XYAxisSeries series, string axis)
        {
            series.XAxisKey = axis;
            model.Series.Add(series);
        }
    }
}
