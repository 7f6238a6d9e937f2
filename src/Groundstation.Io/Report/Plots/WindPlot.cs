using Groundstation.Core.Flight;
using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Legends;
using OxyPlot.Series;

namespace Groundstation.Io.Report.Plots;

/// <summary>The wind column as the payload's drift told it: speed with its spread, and direction, by height.</summary>
internal static class WindPlot
{
    /// <summary>Draws it; null when no wind was measured.</summary>
    public static Plot? Draw(FlightRecord record, ReportUnits units)
    {
        if (record.Winds.Length == 0)
            return null;
        PlotModel model = PlotStyle.Model("Wind column");
        Axis speed = PlotStyle.Axis(AxisPosition.Bottom, "Wind speed", units.Level.Name, "speed");
        (speed.StartPosition, speed.EndPosition, speed.Minimum) = (0, 0.56, 0);
        Axis from = PlotStyle.Axis(AxisPosition.Bottom, "Wind from", "degrees true (0 north, 90 east)", "from");
        (from.StartPosition, from.EndPosition, from.Minimum, from.Maximum) = (0.62, 1, 0, 360);
        (from.MajorStep, from.MinorStep) = (90, 30);
        model.Axes.Add(speed);
        model.Axes.Add(from);
        model.Axes.Add(PlotStyle.Axis(AxisPosition.Left, "Height above mean sea level", units.Tall.Name));
        Leg("measured on the way up", PlotStyle.Up, MarkerType.Circle, [WindBasis.Ascent, WindBasis.Float]);
        Leg("measured on the way down", PlotStyle.Down, MarkerType.Triangle, [WindBasis.Descent]);
        Legend legend = PlotStyle.Legend(LegendPosition.TopCenter);
        legend.LegendPlacement = LegendPlacement.Outside;
        legend.LegendOrientation = LegendOrientation.Horizontal;
        model.Legends.Add(legend);
        return Plot.Draw("winds", "Wind speed, with two standard deviations, and direction by height.", model,
            620);

        void Leg(string title, OxyColor color, MarkerType marker, WindBasis[] bases)
        {
            (double Z, WindLayer Layer)[] rows = [.. record.Winds.Where(w => bases.Contains(w.Layer.Basis))
                .Select(w => (units.Tall.Of((w.Layer.Bottom.Metres + w.Layer.Top.Metres) / 2), w.Layer))
                .OrderBy(r => r.Item1)];
            if (rows.Length == 0)
                return;
            // A band as a polygon: out along the upper speeds, back along the lower ones.
            AreaSeries band = new()
            {
                XAxisKey = "speed",
                Fill = OxyColor.FromAColor(60, color),
                Color = OxyColors.Transparent,
                Color2 = OxyColors.Transparent,
                StrokeThickness = 0,
                RenderInLegend = false,
            };
            foreach ((double z, WindLayer layer) in rows)
            {
                band.Points.Add(new DataPoint(units.Level.Of(layer.Wind.SpeedMps + 2 * layer.SigmaMps), z));
                band.Points2.Add(new DataPoint(
                    units.Level.Of(Math.Max(0, layer.Wind.SpeedMps - 2 * layer.SigmaMps)), z));
            }

            model.Series.Add(band);
            LineSeries line = PlotStyle.Line(title, color,
                rows.Select(r => new DataPoint(units.Level.Of(r.Layer.Wind.SpeedMps), r.Z)), 1.3);
            (line.XAxisKey, line.MarkerType, line.MarkerSize, line.MarkerFill) = ("speed", marker, 1.8, color);
            model.Series.Add(line);
            ScatterSeries way = PlotStyle.Mark(null, marker, color, 3.6,
                rows.Select(r => new DataPoint(r.Layer.Wind.FromDeg, r.Z)));
            way.XAxisKey = "from";
            model.Series.Add(way);
        }
    }
}
