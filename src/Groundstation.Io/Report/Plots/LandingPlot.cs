using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Legends;
using OxyPlot.Series;

namespace Groundstation.Io.Report.Plots;

/// <summary>How far the landing estimates lay off, by time and by height, with how sure they were.</summary>
internal static class LandingPlot
{
    private const double LeastM = 10;

    /// <summary>Draws it; null when the landing is not known.</summary>
    public static Plot? Draw(FlightFigures figures, IReadOnlyList<LandingScore> scores, ReportUnits units)
    {
        if (scores.Count < 2)
            return null;
        PlotModel model = PlotStyle.Model("Landing estimates against the landing");
        LinearAxis time = PlotStyle.Time(figures, figures.Minutes(scores[0].Estimate.Utc),
            figures.Minutes(scores[^1].Estimate.Utc));
        (time.Key, time.StartPosition, time.EndPosition) = ("time", 0, 0.58);
        if (time.MajorStep < 30)
            (time.MajorStep, time.MinorStep) = (2 * time.MajorStep, time.MajorStep);
        time.Title = "Time since launch, h:min";
        Axis height = PlotStyle.Axis(AxisPosition.Bottom, "Height of the payload in the descent", units.Tall.Name,
            "height");
        (height.StartPosition, height.EndPosition) = (0.63, 1);
        model.Axes.Add(time);
        model.Axes.Add(height);
        Axis distance = PlotStyle.LogAxis(AxisPosition.Left, "Distance from the landing", units.Far.Name);
        distance.LabelFormatter = far => far >= 1 ? $"{far:0}" : $"{far:0.###}";
        model.Axes.Add(distance);
        IReadOnlyList<LandingScore> rows = [.. PlotStyle.Thin(scores, 1500)];
        Both("95 % area, longer half axis", PlotStyle.Planned, s => s.Estimate.Area95.MajorM, 1.6, LineStyle.Dash);
        Both("plain estimate: last wind", PlotStyle.Down, s => s.LastWindErrorM, 1.2, LineStyle.Solid);
        Both("landing estimate", PlotStyle.Estimate, s => s.ErrorM, 2.6, LineStyle.Solid);
        Legend legend = PlotStyle.Legend(LegendPosition.TopCenter);
        legend.LegendPlacement = LegendPlacement.Outside;
        legend.LegendOrientation = LegendOrientation.Horizontal;
        model.Legends.Add(legend);
        return Plot.Draw("landing-error", "Distance of the landing estimates from the landing.", model,
            500);

        void Both(string title, OxyColor color, Func<LandingScore, double?> metres, double width, LineStyle style)
        {
            Add(title, "time", rows, s => figures.Minutes(s.Estimate.Utc));
            Add(null, "height", [.. rows.Where(s => figures.Burst is { } burst && s.Estimate.Utc >= burst.Utc)],
                s => units.Tall.Of(s.Estimate.Altitude.Metres));

            void Add(string? name, string axis, IReadOnlyList<LandingScore> part, Func<LandingScore, double> x)
            {
                LineSeries line = PlotStyle.Line(name, color, part.Where(s => metres(s) is not null)
                    .Select(s => new DataPoint(x(s), units.Far.Of(Math.Max(metres(s)!.Value, LeastM)))), width, style);
                line.XAxisKey = axis;
                model.Series.Add(line);
            }
        }
    }
}
