using System.Globalization;
using System.Text;
using Groundstation.Console.Cells;

namespace Groundstation.Console.Window;

/// <summary>
/// What to send to a terminal so that it shows the next picture in the place of the one before: only the cells that
/// differ. The library's own way sent an attribute with both colours for every change of ink and wrote every stretch by
/// itself: 1.9 kB a picture at 80×24, twice of what 9600 Bd carry at one a second.
/// </summary>
internal sealed class PictureText(Palette palette)
{
    // A move costs six to eight bytes: so many unchanged cells are cheaper sent again.
    private const int Bridge = 5;

    private readonly StringBuilder _text = new();
    private char[] _glyphs = [];
    private Ink[] _inks = [];
    private int _width, _height;

    /// <summary>What the terminal shows is not known any more: the next picture is sent whole.</summary>
    public void Forget() => (_width, _height) = (0, 0);

    /// <summary>The text for a picture; empty when the terminal shows it already.</summary>
    public string Changes(Canvas canvas)
    {
        _text.Clear();
        if ((canvas.Width, canvas.Height) != (_width, _height)) Begin(canvas);
        Ink? pen = null;
        (int X, int Y) at = (-1, -1);
        for (int y = 0; y < _height; y++)
        {
            for (int x = 0; x < _width; x++)
            {
                int i = y * _width + x;
                char glyph = canvas.Glyph(x, y);
                Ink ink = canvas.InkAt(x, y);
                if (glyph == ' ' && !Palette.ShowsOnBlanks(ink)) ink = Ink.Plain;
                if (_glyphs[i] == glyph && _inks[i] == ink) continue;
                if (at != (x, y)) Go(at, x, y, pen);
                (_glyphs[i], _inks[i], at) = (glyph, ink, (x + 1, y));
                if (!Same(i, pen)) _text.Append(palette.Of((pen = ink).Value));
                _text.Append(glyph);
            }
        }

        if (pen is not (null or Ink.Plain)) _text.Append(palette.Of(Ink.Plain));
        return _text.ToString();
    }

    private void Begin(Canvas canvas)
    {
        (_width, _height) = (canvas.Width, canvas.Height);
        (_glyphs, _inks) = (new char[_width * _height], new Ink[_width * _height]);
        Array.Fill(_glyphs, ' ');
        _text.Append(palette.Of(Ink.Plain)).Append("\e[2J");
    }

    private void Go((int X, int Y) from, int x, int y, Ink? pen)
    {
        int first = y * _width + from.X, count = x - from.X;
        bool bridge = from.Y == y && count <= Bridge;
        for (int i = first; bridge && i < first + count; i++) bridge = Same(i, pen);
        if (bridge)
            _text.Append(_glyphs, first, count);
        else
            _text.Append(CultureInfo.InvariantCulture, $"\e[{y + 1};{x + 1}H");
    }

    /// <summary>True when a cell looks the same in this ink: its own, or for a blank any that does not show on blanks.</summary>
    private bool Same(int cell, Ink? pen) => pen == _inks[cell]
        || (pen is { } ink && !Palette.ShowsOnBlanks(ink) && _glyphs[cell] == ' ' && _inks[cell] == Ink.Plain);
}
