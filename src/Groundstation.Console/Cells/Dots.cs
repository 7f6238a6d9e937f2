namespace Groundstation.Console.Cells;

/// <summary>
/// A field of dots for plots: two by four dots a cell in braille. In ASCII one sign a cell, chosen by its ink, so that
/// the track, the path and the areas can be told apart without colour.
/// </summary>
internal sealed class Dots(int columns, int rows)
{
    private readonly byte[] _bits = new byte[Math.Max(0, columns) * Math.Max(0, rows)];
    private readonly Ink[] _inks = new Ink[Math.Max(0, columns) * Math.Max(0, rows)];

    /// <summary>Dots across.</summary>
    public int Width => Math.Max(0, columns) * 2;

    /// <summary>Dots down.</summary>
    public int Height => Math.Max(0, rows) * 4;

    /// <summary>One dot, from the upper left; outside the field nothing happens.</summary>
    public void Set(int x, int y, Ink ink)
    {
        if (x < 0 || y < 0 || x >= Width || y >= Height) return;
        int cell = y / 4 * columns + x / 2;
        ReadOnlySpan<byte> bit = [0x01, 0x02, 0x04, 0x40, 0x08, 0x10, 0x20, 0x80];
        _bits[cell] |= bit[x % 2 * 4 + y % 4];
        if (ink > _inks[cell]) _inks[cell] = ink;
    }

    /// <summary>
    /// A straight line, in dots. <paramref name="on"/> dots are drawn, then <paramref name="off"/> left out;
    /// <paramref name="phase"/> carries the count from one piece of a polyline to the next.
    /// </summary>
    public void Line(double x0, double y0, double x1, double y1, Ink ink, int on, int off, ref int phase)
    {
        if (!Clip(ref x0, ref y0, ref x1, ref y1)) return;
        int steps = (int)Math.Ceiling(Math.Max(Math.Abs(x1 - x0), Math.Abs(y1 - y0)));
        for (int i = 0; i <= steps; i++)
        {
            double t = steps == 0 ? 0 : (double)i / steps;
            if (phase % (on + off) < on)
                Set((int)Math.Floor(x0 + (x1 - x0) * t), (int)Math.Floor(y0 + (y1 - y0) * t), ink);
            if (i < steps || steps == 0) phase++;
        }
    }

    /// <summary>A straight unbroken line, in dots.</summary>
    public void Line(double x0, double y0, double x1, double y1, Ink ink)
    {
        int phase = 0;
        Line(x0, y0, x1, y1, ink, 1, 0, ref phase);
    }

    /// <summary>Onto a pane of the same size; empty cells are left as they are.</summary>
    public void Paint(Pane pane)
    {
        for (int y = 0; y < rows; y++)
        {
            for (int x = 0; x < columns; x++)
            {
                int cell = y * columns + x;
                if (_bits[cell] == 0) continue;
                char glyph = pane.Canvas.Ascii ? Sign(_inks[cell]) : (char)(0x2800 + _bits[cell]);
                pane.Put(x, y, glyph, _inks[cell]);
            }
        }
    }

    private static char Sign(Ink ink) => ink switch
    {
        Ink.Track => '*',
        Ink.Path => '+',
        Ink.Area50 => 'o',
        Ink.Area95 => '.',
        Ink.Ring or Ink.Quiet => ',',
        Ink.Map => '%',
        _ => ':',
    };

    /// <summary>Cuts a line to the field (Liang and Barsky 1984); false when none of it lies inside.</summary>
    private bool Clip(ref double x0, ref double y0, ref double x1, ref double y1)
    {
        if (!double.IsFinite(x0 + y0 + x1 + y1)) return false;
        double dx = x1 - x0, dy = y1 - y0, from = 0, to = 1;
        if (!Edge(-dx, x0, ref from, ref to) || !Edge(dx, Width - x0, ref from, ref to)
            || !Edge(-dy, y0, ref from, ref to) || !Edge(dy, Height - y0, ref from, ref to)) return false;
        (x1, y1) = (x0 + to * dx, y0 + to * dy);
        (x0, y0) = (x0 + from * dx, y0 + from * dy);
        return true;

        static bool Edge(double p, double q, ref double from, ref double to)
        {
            if (p == 0) return q >= 0;
            double r = q / p;
            if (p < 0) from = Math.Max(from, r);
            else to = Math.Min(to, r);
            return from <= to;
        }
    }
}
