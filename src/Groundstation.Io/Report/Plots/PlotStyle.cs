using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using OxyPlot.Legends;
using OxyPlot.Series;

namespace Groundstation.Io.Report.Plots;

/// <summary>
/// One look for all plots: white ground, thin grid, colours that stay apart for the colour-blind (Okabe and Ito's) and
/// in grey, and words beside each of them.
/// </summary>
internal static class PlotStyle
{
    public const int Width = 1000;

    public static readonly OxyColor Ink = OxyColor.FromRgb(30, 30, 30);
    public static readonly OxyColor Grid = OxyColor.FromRgb(222, 222, 222);
    public static readonly OxyColor Planned = OxyColor.FromRgb(112, 112, 112);
    public static readonly OxyColor Up = OxyColor.FromRgb(0, 114, 178);
    public static readonly OxyColor Down = OxyColor.FromRgb(213, 94, 0);
    public static readonly OxyColor Estimate = OxyColor.FromRgb(170, 60, 130);
    public static readonly OxyColor Chase = OxyColor.FromRgb(0, 130, 95);

    /// <summary>An empty plot.</summary>
    public static PlotModel Model(string title) => new()
    {
        Title = title,
        TitleFontSize = 17,
        TitleFontWeight = FontWeights.Bold,
        TitlePadding = 8,
        TitleHorizontalAlignment = TitleHorizontalAlignment.CenteredWithinPlotArea,
        DefaultFont = "Liberation Sans, Arial, Helvetica, sans-serif",
        DefaultFontSize = 13,
        TextColor = Ink,
        PlotAreaBorderColor = OxyColor.FromRgb(120, 120, 120),
        Background = OxyColors.White,
        Padding = new OxyThickness(10, 6, 22, 8),
    };

    /// <summary>A linear axis with a grid.</summary>
    public static LinearAxis Axis(AxisPosition position, string title, string? unit, string? key = null) =>
        Dressed(new LinearAxis(), position, title, unit, key);

    /// <summary>A logarithmic axis with a grid.</summary>
    public static LogarithmicAxis LogAxis(AxisPosition position, string title, string? unit, string? key = null) =>
        Dressed(new LogarithmicAxis { MinorTickSize = 3 }, position, title, unit, key);

    /// <summary>An axis of time since launch: minutes in, hours and minutes shown.</summary>
    public static LinearAxis Time(FlightFigures figures, double from, double to)
    {
        string what = figures.Flew ? "launch" : "the first epoch";
        LinearAxis axis = Axis(AxisPosition.Bottom, $"Time since {what} ({Html.Moment(figures.Zero)}), h:min", null);
        double span = Math.Max(to - from, 0.05);
        double step = Array.Find<double>([1, 2, 5, 10, 15, 20, 30, 60, 120, 240, 480, 1440], s => span / s <= 14);
        axis.Minimum = from - span * 0.01;
        axis.Maximum = to + span * 0.01;
        if (span < 4)
        {
            axis.Title = $"Time since {what} ({Html.Moment(figures.Zero)}), min";
            return axis;
        }

        axis.MajorStep = step == 0 ? Math.Ceiling(span / 14 / 1440) * 1440 : step;
        axis.MinorStep = axis.MajorStep / 5;
        axis.LabelFormatter = static minutes =>
        {
            int m = (int)Math.Round(Math.Abs(minutes));
            return $"{(minutes < -0.5 ? "−" : "")}{m / 60}:{m % 60:00}";
        };
        return axis;
    }

    /// <summary>A line.</summary>
    public static LineSeries Line(string? title, OxyColor color, IEnumerable<DataPoint> points, double width = 2,
        LineStyle style = LineStyle.Solid)
    {
        LineSeries line = new()
        {
            Title = title,
            Color = color,
            StrokeThickness = width,
            LineStyle = style,
            RenderInLegend = title is not null,
            MinimumSegmentLength = 1,
        };
        line.Points.AddRange(points);
        return line;
    }

    /// <summary>A legend inside the plot.</summary>
    public static Legend Legend(LegendPosition position, string? key = null) => new()
    {
        Key = key,
        LegendPosition = position,
        LegendBackground = OxyColor.FromAColor(225, OxyColors.White),
        LegendBorder = Grid,
        LegendPadding = 6,
        LegendMargin = 6,
        LegendFontSize = 13,
        LegendSymbolLength = 26,
    };

    /// <summary>A word at a point, on a white ground so that no line runs through it.</summary>
    public static TextAnnotation Word(string text, double x, double y, HorizontalAlignment horizontal,
        VerticalAlignment vertical, OxyColor? color = null) => new()
        {
            Text = text,
            TextPosition = new DataPoint(x, y),
            TextHorizontalAlignment = horizontal,
            TextVerticalAlignment = vertical,
            TextColor = color ?? Ink,
            FontSize = 13,
            StrokeThickness = 0,
            Background = OxyColor.FromAColor(200, OxyColors.White),
            Padding = new OxyThickness(3, 1, 3, 1),
            Offset = new ScreenVector(7 * -(int)horizontal, 7 * -(int)vertical),
        };

    /// <summary>A marked point.</summary>
    public static ScatterSeries Mark(string? title, MarkerType marker, OxyColor color, double size,
        params IEnumerable<DataPoint> points)
    {
        ScatterSeries marks = new()
        {
            Title = title,
            MarkerType = marker,
            MarkerFill = Open(marker) ? OxyColors.Undefined : color,
            MarkerStroke = Open(marker) ? color : OxyColors.White,
            MarkerStrokeThickness = Open(marker) ? 1.5 : size > 4 ? 1 : 0,
            MarkerSize = size,
            RenderInLegend = title is not null,
        };
        marks.Points.AddRange(points.Select(p => new ScatterPoint(p.X, p.Y)));
        return marks;
    }

    private static bool Open(MarkerType marker) => marker is MarkerType.Cross or MarkerType.Plus or MarkerType.Star;

    /// <summary>At most <paramref name="most"/> of the rows, evenly, first and last among them.</summary>
    public static IEnumerable<T> Thin<T>(IReadOnlyList<T> rows, int most)
    {
        if (rows.Count <= most)
            return rows;
        return Enumerable.Range(0, most).Select(i => rows[(int)((long)i * (rows.Count - 1) / (most - 1))]);
    }

    private static T Dressed<T>(T axis, AxisPosition position, string title, string? unit, string? key) where T : Axis
    {
        axis.Position = position;
        axis.Title = unit is null ? title : $"{title}, {unit}";
        axis.Key = key;
        axis.MajorGridlineStyle = LineStyle.Solid;
        axis.MajorGridlineColor = Grid;
        axis.TicklineColor = OxyColor.FromRgb(120, 120, 120);
        axis.AxisTitleDistance = 7;
        axis.TitleFontSize = 13;
        axis.MinimumPadding = 0.03;
        axis.MaximumPadding = 0.05;
        return axis;
    }
}
