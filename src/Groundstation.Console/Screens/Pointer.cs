namespace Groundstation.Console.Screens;

/// <summary>
/// What the mouse does: a key named in the footer is pressed by a click on it, the wheel goes closer or scrolls, and the
/// plan view is dragged. Nothing can be done with the mouse alone.
/// </summary>
internal sealed class Pointer(Controls controls)
{
    private (int X, int Y)? _pressed;

    /// <summary>The left button went down at a cell of the terminal.</summary>
    public void Press(int x, int y) => _pressed = (x, y);

    /// <summary>It came up: a click, or the end of a drag. True when something changed.</summary>
    public bool Release(int x, int y, int width, int height, bool replay)
    {
        if (_pressed is not { } from) return false;
        _pressed = null;
        if (width < Painter.LeastWidth || height < Painter.LeastHeight) return false;
        if (from != (x, y)) return controls.Drag(x - from.X, y - from.Y, width, height);
        return y >= height - Footer.Height
            && Footer.KeyAt(x, y - (height - Footer.Height), width, controls.View, replay) is { } key
            && controls.Press(key);
    }

    /// <summary>The wheel: up (+1) or down (−1).</summary>
    public bool Wheel(int step)
    {
        if (controls.View.Prompt is not null || controls.View.HelpPage > 0) return false;
        bool plan = controls.View.Screen == ScreenId.Where;
        return controls.Press(step > 0 ? plan ? "+" : "Up" : plan ? "-" : "Down");
    }
}
