using Groundstation.Console.Cells;
using Groundstation.Core.Quantities;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Console.Plots;

/// <summary>Range rings, scale bar and north arrow of the plan view.</summary>
internal static class PlanFurniture
{
    /// <summary>Draws rings around the origin; gives each one's radius and the dot where its label belongs.</summary>
    public static List<(double Radius, double X, double Y)> Rings(Dots dots, in Frame frame, Figures fig)
    {
        List<(double, double, double)> labels = [];
        double far = Math.Max(dots.Width, dots.Height) * frame.Scale;
        (double ox, double oy) = frame.Dot(0, 0);
        double unit = Unit(fig), step = Ticks.NotBelow(far / 5 / unit) * unit;
        double reach = Math.Sqrt(Math.Pow(Math.Max(Math.Abs(ox), Math.Abs(dots.Width - ox)), 2)
            + Math.Pow(Math.Max(Math.Abs(oy), Math.Abs(dots.Height - oy)), 2)) * frame.Scale;
        int first = Math.Max(1, (int)(Nearest(dots, ox, oy) * frame.Scale / step));
        for (int n = first; n <= first + 8 && n * step <= reach; n++)
        {
            double radius = n * step / frame.Scale;
            // Dots about five apart, at places that do not move when the view grows.
            int count = Math.Clamp((int)(2 * Math.PI * radius / 5), 24, 720);
            for (int i = 0; i < count; i++)
            {
                (double sin, double cos) = Math.SinCos(2 * Math.PI * i / count);
                dots.Set((int)Math.Floor(ox + radius * sin), (int)Math.Floor(oy - radius * cos), Ink.Ring);
            }

            if (LabelDot(dots, ox, oy, radius) is { } at) labels.Add((n * step, at.X, at.Y));
        }

        return labels;
    }

    /// <summary>Ring labels, scale bar with its length, north arrow.</summary>
    public static void Labels(Pane pane, in Frame frame, Figures fig, List<(double Radius, double X, double Y)> rings,
        List<Markers.Span> taken)
    {
        foreach ((double radius, double x, double y) in rings)
        {
            string text = fig.Distance(radius).Replace(".0 ", " ", StringComparison.Ordinal);
            int column = Math.Clamp((int)(x / 2) - text.Length / 2, 0, Math.Max(0, pane.Width - text.Length));
            if (Markers.Free(taken, column, column + text.Length - 1, (int)(y / 4)))
                pane.Text(column, (int)(y / 4), text, Ink.Quiet);
        }

        double unit = Unit(fig);
        double room = Math.Max(4, pane.Width / 4) * 2 * frame.Scale / unit;
        double length = Ticks.NotBelow(room / 2.51);
        int cells = (int)Math.Round(length * unit / frame.Scale / 2);
        int row = pane.Height - 1;
        pane.Put(0, row, '├', Ink.Plain);
        for (int i = 1; i < cells; i++) pane.Put(i, row, '─', Ink.Plain);
        pane.Put(cells, row, '┤', Ink.Plain);
        pane.Text(cells + 2, row, fig.Distance(length * unit).Replace(".0 ", " ", StringComparison.Ordinal));
        pane.Put(pane.Width - 2, 0, '↑', Ink.Plain);
        pane.Put(pane.Width - 1, 0, 'N', Ink.Strong);
    }

    /// <summary>Metres in the unit whose round numbers rings and bar show.</summary>
    private static double Unit(Figures fig) => fig.Units == DisplayUnits.Customary ? MileM : 1;

    /// <summary>Dots from the origin to the nearest edge of the view; 0 when the origin is in it.</summary>
    private static double Nearest(Dots dots, double ox, double oy)
    {
        double dx = Math.Max(0, Math.Max(-ox, ox - dots.Width)), dy = Math.Max(0, Math.Max(-oy, oy - dots.Height));
        return Math.Sqrt(dx * dx + dy * dy);
    }

    private static (double X, double Y)? LabelDot(Dots dots, double ox, double oy, double radius)
    {
        foreach (double azimuth in (ReadOnlySpan<double>)[180, 0, 270, 90, 225, 135, 315, 45, 200, 160, 340, 20])
        {
            (double sin, double cos) = Math.SinCos(azimuth * Math.PI / 180);
            (double x, double y) = (ox + radius * sin, oy - radius * cos);
            // Clear of the edges, of the north arrow's row and of the scale bar's.
            if (x >= 8 && y >= 4 && x < dots.Width - 8 && y < dots.Height - 4) return (x, y);
        }

        return null;
    }
}
