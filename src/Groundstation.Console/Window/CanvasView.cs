using System.Drawing;
using Groundstation.Console.Cells;
using Terminal.Gui.Drawing;
using Terminal.Gui.ViewBase;
using Attribute = Terminal.Gui.Drawing.Attribute;
using Glyphs = Groundstation.Console.Cells.Glyphs;

namespace Groundstation.Console.Window;

/// <summary>
/// The one view of the console: hands the driver only the cells that differ from what it already holds. With the
/// library's own labels and frames one redraw cost 18 MiB at 120×40; this way it is a few hundred bytes.
/// </summary>
internal sealed class CanvasView : View
{
    private readonly Canvas _canvas;
    private readonly Palette _palette;
    private readonly Action<Canvas> _paint;

    /// <summary>A view that asks <paramref name="paint"/> for its picture.</summary>
    public CanvasView(Canvas canvas, Palette palette, Action<Canvas> paint)
    {
        (_canvas, _palette, _paint) = (canvas, palette, paint);
        CanFocus = false;
        Width = Dim.Fill();
        Height = Dim.Fill();
    }

    /// <inheritdoc/>
    protected override bool OnClearingViewport() => true;

    /// <inheritdoc/>
    protected override bool OnDrawingText(DrawContext? context) => true;

    /// <inheritdoc/>
    protected override bool OnDrawingContent(DrawContext? context)
    {
        Cell[,]? now = App?.Driver?.Contents;
        if (now is null) return true;
        _canvas.Reset(Viewport.Width, Viewport.Height);
        _paint(_canvas);
        Point origin = ViewportToScreen(Point.Empty);
        int rows = Math.Min(_canvas.Height, now.GetLength(0) - origin.Y);
        int columns = Math.Min(_canvas.Width, now.GetLength(1) - origin.X);
        for (int y = 0; y < rows; y++)
        {
            for (int x = 0; x < columns; x++)
            {
                string glyph = Glyphs.Text(_canvas.Glyph(x, y));
                Attribute attribute = _palette.Of(_canvas.InkAt(x, y));
                ref Cell cell = ref now[origin.Y + y, origin.X + x];
                if (!cell.IsDirty && cell.Grapheme == glyph && cell.Attribute == attribute) continue;
                SetAttribute(attribute);
                AddStr(x, y, glyph);
            }
        }

        return true;
    }
}
