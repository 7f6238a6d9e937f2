using System.Text;
using Groundstation.Console.Cells;

namespace Groundstation.Console.Sheets;

/// <summary>A part of a sheet: a title, and rows of a label and a text.</summary>
/// <param name="Title">Title.</param>
internal sealed record SheetSection(string Title)
{
    /// <summary>Width of a sheet: it must be readable on any terminal and print on a page.</summary>
    public const int Width = 80;

    private const int LabelWidth = 22;

    private readonly List<(string Label, string Text)> _rows = [];

    /// <summary>The rows.</summary>
    public IReadOnlyList<(string Label, string Text)> Rows => _rows;

    /// <summary>Adds a row; an empty label is a line of its own, wrapped over the whole width.</summary>
    public SheetSection Row(string label, string text)
    {
        _rows.Add((label, text));
        return this;
    }

    /// <summary>Adds a line over the whole width.</summary>
    public SheetSection Line(string text) => Row("", text);

    /// <summary>The section as lines of at most <see cref="Width"/> characters.</summary>
    public IEnumerable<string> Lines()
    {
        yield return Title.ToUpperInvariant();
        foreach ((string label, string text) in _rows)
        {
            int indent = label.Length == 0 ? 2 : LabelWidth;
            string head = label.Length == 0 ? "  " : ("  " + label).PadRight(LabelWidth);
            // What follows the first line of a bullet stands under its text.
            int hang = label.Length == 0 && text.StartsWith("- ", StringComparison.Ordinal) ? 2 : 0;
            foreach (string line in Wrapped(text, Width - indent - hang))
            {
                yield return Printable((head + line).TrimEnd());
                head = new string(' ', indent + hang);
            }
        }
    }

    /// <summary>Sections as one text, an empty line between them.</summary>
    public static string Join(IEnumerable<SheetSection> sections)
    {
        StringBuilder text = new();
        foreach (SheetSection section in sections)
        {
            if (text.Length > 0) text.Append('\n');
            foreach (string line in section.Lines()) text.Append(line).Append('\n');
        }

        return text.ToString();
    }

    private static IEnumerable<string> Wrapped(string text, int width)
    {
        string line = "";
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > width)
            {
                yield return line;
                line = "";
            }

            line += (line.Length > 0 ? " " : "") + word;
        }

        yield return line;
    }

    private static string Printable(string line) => string.Concat(line.Select(c => Glyphs.Safe(c, false)));
}
