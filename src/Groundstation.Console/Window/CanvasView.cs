using Groundstation.Console.Cells;
using Terminal.Gui.Drivers;
using Terminal.Gui.ViewBase;

namespace Groundstation.Console.Window;

/// <summary>
/// The one view of the console, over the whole terminal. It sends its picture itself; the library reads keys and mouse,
/// knows the size and restores the terminal.
/// </summary>
internal sealed class CanvasView : View
{
    private readonly Canvas _canvas;
    private readonly PictureText _text;
    private readonly Action<Canvas> _paint;
    private readonly Action<string>? _send;

    /// <summary>A view that asks <paramref name="paint"/> for its picture.</summary>
    /// <param name="canvas">Painted on.</param>
    /// <param name="palette">How it looks.</param>
    /// <param name="paint">Paints a picture.</param>
    /// <param name="send">Takes what goes to the terminal; null: the library's driver.</param>
    public CanvasView(Canvas canvas, Palette palette, Action<Canvas> paint, Action<string>? send = null)
    {
        (_canvas, _text, _paint, _send) = (canvas, new PictureText(palette), paint, send);
        CanFocus = false;
        Width = Dim.Fill();
        Height = Dim.Fill();
    }

    /// <summary>Sends the whole picture anew with the next change: line noise, or another program, has spoilt it.</summary>
    public void DrawAnew()
    {
        _text.Forget();
        SetNeedsDraw();
    }

    /// <inheritdoc/>
    protected override bool OnClearingViewport() => true;

    /// <inheritdoc/>
    protected override bool OnDrawingText(DrawContext? context) => true;

    /// <inheritdoc/>
    protected override bool OnDrawingContent(DrawContext? context)
    {
        if (App?.Driver is not { } driver) return true;
        _canvas.Reset(Viewport.Width, Viewport.Height);
        _paint(_canvas);
        string changes = _text.Changes(_canvas);
        if (changes.Length > 0) (_send ?? driver.WriteRaw)(changes);
        // The library would send blanks over this picture after a new size.
        Array.Clear(driver.GetOutputBuffer().DirtyLines);
        return true;
    }
}
