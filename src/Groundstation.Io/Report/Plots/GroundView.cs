using Groundstation.Core.Earth;
using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using OxyPlot.Legends;

namespace Groundstation.Io.Report.Plots;

/// <summary>
/// A picture from above: each place as far and in the direction in which it lies from the origin, lengths the same to
/// the east as to the north, with a scale and an arrow to true north.
/// </summary>
internal sealed class GroundView
{
    // The frame around the plot area of a picture as wide as the page, pixels: axis labels and titles, title above.
    private const double FrameX = 115, FrameY = 125;

    private readonly GeoPoint _origin;
    private readonly ReportUnits _units;
    private readonly Axis _east, _north;
    private readonly List<DataPoint> _seen = [];
    private readonly List<(string Text, DataPoint[] Places)> _labels = [];

    /// <summary>An empty picture around an origin.</summary>
    public GroundView(string title, GeoPoint origin, string originName, ReportUnits units)
    {
        (_origin, _units) = (origin, units);
        Model = PlotStyle.Model(title);
        _east = PlotStyle.Axis(AxisPosition.Bottom, $"East of {originName}", units.Far.Name);
        _north = PlotStyle.Axis(AxisPosition.Left, $"North of {originName}", units.Far.Name);
        Model.Axes.Add(_east);
        Model.Axes.Add(_north);
        Model.PlotType = PlotType.Cartesian;
    }

    /// <summary>What is drawn.</summary>
    public PlotModel Model { get; }

    /// <summary>Where a place is drawn; the picture is large enough to show it.</summary>
    public DataPoint See(GeoPoint at)
    {
        DataPoint point = Glimpse(at);
        _seen.Add(point);
        return point;
    }

    /// <summary>Where a place is drawn, if the picture happens to be large enough.</summary>
    public DataPoint Glimpse(GeoPoint at)
    {
        GeodesicLine way = Geodesic.Inverse(_origin, at);
        (double sin, double cos) = Math.SinCos(way.AzimuthDeg * Math.PI / 180);
        return new DataPoint(_units.Far.Of(way.DistanceM * sin), _units.Far.Of(way.DistanceM * cos));
    }

    /// <summary>A mark with its word.</summary>
    public void Mark(DataPoint at, string word, MarkerType marker, HorizontalAlignment side)
    {
        Model.Series.Add(PlotStyle.Mark(null, marker, PlotStyle.Ink, 7, at));
        Model.Annotations.Add(PlotStyle.Word(word, at.X, at.Y, side, VerticalAlignment.Bottom));
    }

    /// <summary>Words for a border, put where it is farthest from everything else.</summary>
    public void Label(string text, IEnumerable<DataPoint> border) => _labels.Add((text, [.. border]));

    /// <summary>Draws the picture around all that is to be seen.</summary>
    public Plot Draw(string name, string text)
    {
        int height = Frame();
        Scale();
        Labels();
        Model.Legends.Add(PlotStyle.Legend(Emptiest()));
        return Plot.Draw(name, text, Model, height);
    }

    /// <summary>Sets the axes so that the scale is the same both ways; returns the picture's height.</summary>
    private int Frame()
    {
        (double minX, double maxX) = (_seen.Min(p => p.X), _seen.Max(p => p.X));
        (double minY, double maxY) = (_seen.Min(p => p.Y), _seen.Max(p => p.Y));
        // Standing still for hours still needs a picture: fifty metres. The margin is for the words beside marks.
        double least = _units.Far.Of(50);
        double width = Math.Max(maxX - minX, least) * 1.2, tall = Math.Max(maxY - minY, least) * 1.2;
        double plotWidth = PlotStyle.Width - FrameX;
        double plotHeight = Math.Clamp(plotWidth * tall / width, 0.42 * plotWidth, 0.8 * plotWidth);
        double perPixel = Math.Max(width / plotWidth, tall / plotHeight);
        (double midX, double midY) = ((minX + maxX) / 2, (minY + maxY) / 2);
        (_east.Minimum, _east.Maximum) = (midX - perPixel * plotWidth / 2, midX + perPixel * plotWidth / 2);
        (_north.Minimum, _north.Maximum) = (midY - perPixel * plotHeight / 2, midY + perPixel * plotHeight / 2);
        if (Small)
        {
            foreach (Axis axis in new[] { _east, _north })
            {
                axis.Title = axis.Title[..^_units.Far.Name.Length] + _units.Near.Name;
                axis.LabelFormatter = far => $"{far * PerFar:0.#}";
            }
        }

        double step = Sixth();
        (_east.MajorStep, _north.MajorStep) = (step, step);
        return (int)(plotHeight + FrameY);
    }

    // Less than two kilometres or miles across: the axes are in metres or feet.
    private bool Small => _east.Maximum - _east.Minimum < 2;

    private double PerFar => _units.Far.Size / _units.Near.Size;

    /// <summary>A round length of about a sixth of the picture.</summary>
    private double Sixth()
    {
        double unit = Small ? PerFar : 1;
        return Nice((_east.Maximum - _east.Minimum) / 6 * unit) / unit;
    }

    private void Scale()
    {
        (double width, double height) = (_east.Maximum - _east.Minimum, _north.Maximum - _north.Minimum);
        double length = Sixth(), x = _east.Minimum + width * 0.03, y = _north.Minimum + height * 0.06;
        double tick = height * 0.012;
        PolylineAnnotation bar = new()
        {
            Color = PlotStyle.Ink,
            StrokeThickness = 2.5,
            LineStyle = LineStyle.Solid,
            MinimumSegmentLength = 0,
        };
        bar.Points.AddRange([new(x, y + tick), new(x, y), new(x + length, y), new(x + length, y + tick)]);
        Model.Annotations.Add(bar);
        string text = Small ? $"{length * PerFar:0} {_units.Near.Name}" : $"{length:0.#} {_units.Far.Name}";
        Model.Annotations.Add(PlotStyle.Word(text, x + length / 2, y, HorizontalAlignment.Center,
            VerticalAlignment.Bottom));
        double ax = _east.Maximum - width * 0.03, ay = _north.Maximum - height * 0.04;
        Model.Annotations.Add(new ArrowAnnotation
        {
            StartPoint = new DataPoint(ax, ay - height * 0.1),
            EndPoint = new DataPoint(ax, ay),
            Color = PlotStyle.Ink,
            StrokeThickness = 2,
            HeadLength = 6,
            HeadWidth = 4,
        });
        Model.Annotations.Add(PlotStyle.Word("true north", ax, ay - height * 0.05, HorizontalAlignment.Right,
            VerticalAlignment.Middle));
    }

    private void Labels()
    {
        (double width, double height) = (_east.Maximum - _east.Minimum, _north.Maximum - _north.Minimum);
        // Corners belong to scale, arrow and legend; a label is a tenth of the picture to either side of its place.
        List<DataPoint> taken = [.. _seen, new(_east.Minimum, _north.Minimum), new(_east.Maximum, _north.Maximum),
            new(_east.Minimum, _north.Maximum), new(_east.Maximum, _north.Minimum)];
        foreach ((string text, DataPoint[] places) in _labels)
        {
            DataPoint[] inside = [.. places.Where(p => Math.Abs(p.X - _east.Minimum - width / 2) < 0.38 * width
                && Math.Abs(p.Y - _north.Minimum - height / 2) < 0.45 * height)];
            if (inside.Length == 0)
                continue;
            DataPoint best = inside.MaxBy(p => taken.Min(t => Math.Pow((t.X - p.X) / width, 2)
                + Math.Pow(2.5 * (t.Y - p.Y) / height, 2)));
            taken.Add(best);
            Model.Annotations.Add(PlotStyle.Word(text, best.X, best.Y, HorizontalAlignment.Center,
                VerticalAlignment.Middle, PlotStyle.Estimate));
        }
    }

    // The scale has the lower left, the arrow the upper right: the legend takes the emptier of the other two corners.
    private LegendPosition Emptiest()
    {
        (double midX, double midY) = ((_east.Minimum + _east.Maximum) / 2, (_north.Minimum + _north.Maximum) / 2);
        int upperLeft = _seen.Count(p => p.X < midX && p.Y > midY);
        int lowerRight = _seen.Count(p => p.X > midX && p.Y < midY);
        return upperLeft <= lowerRight ? LegendPosition.TopLeft : LegendPosition.BottomRight;
    }

    /// <summary>1, 2 or 5 times a power of ten, at most <paramref name="about"/>.</summary>
    private static double Nice(double about)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(about)));
        return (about / power) switch { >= 5 => 5, >= 2 => 2, _ => 1 } * power;
    }
}
