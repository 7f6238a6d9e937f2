namespace Groundstation.Console.Cells;

/// <summary>Writes a pane from top to bottom: a label in its column, the figure behind it.</summary>
internal ref struct Rows(Pane pane, int labelWidth)
{
    /// <summary>The next row.</summary>
    public int Y { get; private set; }

    /// <summary>Rows left.</summary>
    public readonly int Left => pane.Height - Y;

    /// <summary>A panel's title.</summary>
    public void Title(string title, string note = "", Ink noteInk = Ink.Quiet)
    {
        if (Left > 0) pane.Title(Y++, title, note, noteInk);
    }

    /// <summary>A label and its figure.</summary>
    public void Line(string label, string text, Ink ink = Ink.Plain)
    {
        if (Left <= 0) return;
        pane.Text(1, Y, label, Ink.Quiet);
        pane.Text(labelWidth, Y++, text, ink);
    }

    /// <summary>A row of its own.</summary>
    public void Text(string text, Ink ink = Ink.Plain)
    {
        if (Left > 0) pane.Text(1, Y++, text, ink);
    }

    /// <summary>A label and running text behind it.</summary>
    public void Wrap(string label, string text, Ink ink = Ink.Plain, int maxRows = int.MaxValue)
    {
        if (Left <= 0) return;
        pane.Text(1, Y, label, Ink.Quiet);
        Y += Math.Max(1, pane.Wrap(labelWidth, Y, text, ink, maxRows));
    }

    /// <summary>An empty row.</summary>
    public void Gap() => Y++;

    /// <summary>The rest of the pane.</summary>
    public readonly Pane Rest() => pane.Below(Math.Min(Y, pane.Height));
}
