namespace Groundstation.Console.Cells;

/// <summary>
/// A sheet of character cells that screens paint on: no driver, no escape sequences. What is written outside it is
/// dropped, and no character reaches it that <see cref="Glyphs"/> does not let through.
/// </summary>
internal sealed class Canvas(bool ascii = false)
{
    private char[] _glyphs = [];
    private Ink[] _inks = [];

    /// <summary>Columns.</summary>
    public int Width { get; private set; }

    /// <summary>Rows.</summary>
    public int Height { get; private set; }

    /// <summary>True when only ASCII may be shown.</summary>
    public bool Ascii { get; } = ascii;

    /// <summary>The whole sheet.</summary>
    public Pane All => new(this, 0, 0, Width, Height);

    /// <summary>Blank, at a new size.</summary>
    public void Reset(int width, int height)
    {
        Width = Math.Max(0, width);
        Height = Math.Max(0, height);
        int cells = Width * Height;
        if (_glyphs.Length != cells)
        {
            _glyphs = new char[cells];
            _inks = new Ink[cells];
        }

        Array.Fill(_glyphs, ' ');
        Array.Clear(_inks);
    }

    /// <summary>One cell; outside the sheet nothing happens.</summary>
    public void Put(int x, int y, char glyph, Ink ink)
    {
        if (x < 0 || y < 0 || x >= Width || y >= Height) return;
        _glyphs[y * Width + x] = Glyphs.Safe(glyph, Ascii);
        _inks[y * Width + x] = ink;
    }

    /// <summary>
    /// What to show in a cell. Many terminals turn anything that looks like a web address into a live link: the second
    /// stroke of <c>://</c> is therefore shown as a lookalike, so that no data can put a link on the screen.
    /// </summary>
    public char Glyph(int x, int y)
    {
        int i = y * Width + x;
        char glyph = _glyphs[i];
        return glyph == '/' && x >= 2 && _glyphs[i - 1] == '/' && _glyphs[i - 2] == ':' ? Glyphs.Safe('⁄', Ascii)
            : glyph;
    }

    /// <summary>Ink of a cell.</summary>
    public Ink InkAt(int x, int y) => _inks[y * Width + x];

    /// <summary>One row as text, with trailing blanks.</summary>
    public string Row(int y) => string.Create(Width, (this, y), static (span, arg) =>
    {
        for (int x = 0; x < span.Length; x++) span[x] = arg.Item1.Glyph(x, arg.y);
    });

    /// <inheritdoc/>
    public override string ToString() => string.Join('\n', Enumerable.Range(0, Height).Select(y => Row(y).TrimEnd()));
}
