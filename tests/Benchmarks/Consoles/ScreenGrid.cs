using System.Globalization;
using System.Text;

namespace Groundstation.Benchmarks.Consoles;

/// <summary>
/// The text on an 80×24 terminal, from what a program sends to it: cursor positions, clearing and characters, nothing else. The
/// console sends only the cells that change, so a figure can be looked for on the whole picture only.
/// </summary>
internal sealed class ScreenGrid
{
    public const int Width = 80, Height = 24;

    private readonly char[,] _cells = new char[Height, Width];
    private readonly StringBuilder _sequence = new();
    private readonly Decoder _utf8 = Encoding.UTF8.GetDecoder();
    private readonly Lock _lock = new();
    private bool _escaped;
    private int _row, _column;

    public ScreenGrid() => Blank();

    /// <summary>Answers to the questions that terminals are asked: attributes, size, cursor.</summary>
    public Action<string>? Answer { get; set; }

    /// <summary>True when a row holds the text.</summary>
    public bool Shows(string text)
    {
        lock (_lock)
        {
            Span<char> row = stackalloc char[Width];
            for (int y = 0; y < Height; y++)
            {
                for (int x = 0; x < Width; x++) row[x] = _cells[y, x];
                if (row.IndexOf(text, StringComparison.Ordinal) >= 0) return true;
            }

            return false;
        }
    }

    public void Feed(ReadOnlySpan<byte> bytes)
    {
        lock (_lock)
        {
            char[] text = new char[bytes.Length + 2];
            int n = _utf8.GetChars(bytes, text, flush: false);
            foreach (char c in text.AsSpan(0, n)) Take(c);
        }
    }

    private void Take(char c)
    {
        if (_escaped)
        {
            _sequence.Append(c);
            bool control = _sequence[0] == '[';
            bool told = _sequence[0] is ']' or 'P' or '_';
            if (told ? c is '\a' or '\\' : control ? _sequence.Length > 1 && c is >= '@' and <= '~' : true)
            {
                _escaped = false;
                if (control) Control(_sequence.ToString(1, _sequence.Length - 2), c);
            }
        }
        else if (c == '\e')
        {
            _escaped = true;
            _sequence.Clear();
        }
        else if (c >= ' ')
        {
            if (_column < Width && _row < Height) _cells[_row, _column] = c;
            _column++;
        }
        else if (c == '\r')
        {
            _column = 0;
        }
    }

    private void Control(string parameters, char final)
    {
        switch (final)
        {
            case 'H' or 'f':
                string[] at = parameters.Split(';');
                _row = Number(at[0]) - 1;
                _column = Number(at.Length > 1 ? at[1] : "") - 1;
                break;
            case 'J' when parameters == "2":
                Blank();
                break;
            case 'c' when parameters.Length == 0:
                Answer?.Invoke("\e[?62;22c");
                break;
            case 't' when parameters == "18":
                Answer?.Invoke(string.Create(CultureInfo.InvariantCulture, $"\e[8;{Height};{Width}t"));
                break;
            case 'n' when parameters == "6":
                Answer?.Invoke(string.Create(CultureInfo.InvariantCulture, $"\e[{_row + 1};{_column + 1}R"));
                break;
        }
    }

    private void Blank()
    {
        for (int y = 0; y < Height; y++)
            for (int x = 0; x < Width; x++) _cells[y, x] = ' ';
    }

    private static int Number(string text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int n) && n > 0 ? n : 1;
}
