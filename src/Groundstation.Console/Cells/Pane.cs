namespace Groundstation.Console.Cells;

/// <summary>A rectangle of a canvas with its own origin; what does not fit is cut off at its edges.</summary>
internal readonly record struct Pane(Canvas Canvas, int X, int Y, int Width, int Height)
{
    /// <summary>A part of it.</summary>
    public Pane Part(int x, int y, int width, int height)
    {
        x = Math.Clamp(x, 0, Math.Max(0, Width));
        y = Math.Clamp(y, 0, Math.Max(0, Height));
        return new Pane(Canvas, X + x, Y + y, Math.Clamp(width, 0, Width - x), Math.Clamp(height, 0, Height - y));
    }

    /// <summary>Everything below a row.</summary>
    public Pane Below(int y) => Part(0, y, Width, Height - y);

    /// <summary>One cell.</summary>
    public void Put(int x, int y, char glyph, Ink ink)
    {
        if (x >= 0 && y >= 0 && x < Width && y < Height) Canvas.Put(X + x, Y + y, glyph, ink);
    }

    /// <summary>
    /// Text on one row; returns the column behind it. A text cut off at the edge ends in an ellipsis.
    /// </summary>
    public int Text(int x, int y, string text, Ink ink = Ink.Plain)
    {
        text = Glyphs.Spelt(text, Canvas.Ascii);
        for (int i = 0; i < text.Length; i++)
        {
            if (x + i == Width - 1 && i < text.Length - 1)
            {
                Put(x + i, y, '…', ink);
                break;
            }

            Put(x + i, y, text[i], ink);
        }

        return x + text.Length;
    }

    /// <summary>Text that ends at the right edge, or at <paramref name="end"/>.</summary>
    public void Right(int y, string text, Ink ink = Ink.Plain, int? end = null) =>
        Text(Math.Max(0, (end ?? Width) - Glyphs.Spelt(text, Canvas.Ascii).Length), y, text, ink);

    /// <summary>A title and a thin rule behind it.</summary>
    public void Title(int y, string title, string note = "", Ink noteInk = Ink.Quiet)
    {
        int x = Text(0, y, title, Ink.Heading);
        Put(x, y, ' ', Ink.Plain);
        for (int i = x + 1; i < Width; i++) Put(i, y, '─', Ink.Quiet);
        note = Glyphs.Spelt(note, Canvas.Ascii);
        // A note that would run into the title is left out, not the title.
        if (note.Length > 0 && note.Length + 2 <= Width - x) Right(y, " " + note, noteInk);
    }

    /// <summary>A thin upright rule.</summary>
    public void Upright(int x)
    {
        for (int y = 0; y < Height; y++) Put(x, y, '│', Ink.Quiet);
    }

    /// <summary>The same cell all over.</summary>
    public void Fill(char glyph, Ink ink)
    {
        for (int y = 0; y < Height; y++)
            for (int x = 0; x < Width; x++) Put(x, y, glyph, ink);
    }

    /// <summary>How many rows a running text takes from a column on, however many there are.</summary>
    public int Rows(int x, string text) =>
        new Pane(new Canvas(Canvas.Ascii), 0, 0, Width, int.MaxValue).Wrap(x, 0, text);

    /// <summary>Running text broken at blanks; returns how many rows it took.</summary>
    public int Wrap(int x, int y, string text, Ink ink = Ink.Plain, int maxRows = int.MaxValue)
    {
        int room = Width - x, row = 0;
        if (room < 1 || maxRows < 1) return 0;
        ReadOnlySpan<char> rest = Glyphs.Spelt(text, Canvas.Ascii).AsSpan().Trim();
        while (rest.Length > 0 && y + row < Height && row < maxRows)
        {
            int take = Math.Min(room, rest.Length);
            bool last = row == maxRows - 1 || y + row == Height - 1;
            if (take < rest.Length && !last)
            {
                int blank = rest[..Math.Min(rest.Length, room + 1)].LastIndexOf(' ');
                if (blank > 0) take = blank;
            }

            Text(x, y + row, last ? rest.ToString() : rest[..take].ToString(), ink);
            rest = rest[take..].TrimStart();
            row++;
        }

        return row;
    }
}
