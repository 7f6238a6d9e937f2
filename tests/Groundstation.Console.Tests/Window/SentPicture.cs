using System.Globalization;
using System.Text;

namespace Groundstation.Console.Tests.Window;

/// <summary>
/// What a terminal shows after all that was sent to it: moves, attributes, clearing and characters, and nothing else, so
/// that anything else fails the test.
/// </summary>
internal sealed class SentPicture
{
    private char[,] _cells = new char[0, 0];
    private string[,] _attributes = new string[0, 0];
    private string _attribute = "";
    private int _row, _column;

    public SentPicture(int width, int height) => Resize(width, height);

    /// <summary>Characters sent since the start.</summary>
    public int Sent { get; private set; }

    public int Width => _cells.GetLength(1);

    public int Height => _cells.GetLength(0);

    public string Screen => string.Join('\n', Enumerable.Range(0, Height).Select(Row));

    /// <summary>A terminal of a new size, with rubbish on it as after a reflow.</summary>
    public void Resize(int width, int height)
    {
        (_cells, _attributes) = (new char[height, width], new string[height, width]);
        for (int y = 0; y < height; y++)
            for (int x = 0; x < width; x++) (_cells[y, x], _attributes[y, x]) = ('#', "?");
    }

    public string Row(int y)
    {
        StringBuilder text = new();
        for (int x = 0; x < Width; x++) text.Append(_cells[y, x]);
        return text.ToString();
    }

    public string Attribute(int x, int y) => _attributes[y, x];

    public void Feed(string text)
    {
        Sent += Encoding.UTF8.GetByteCount(text);
        for (int i = 0; i < text.Length; i++)
        {
            if (text[i] != '\e')
            {
                if (char.IsControl(text[i])) throw new InvalidDataException($"control character {(int)text[i]:X2} sent");
                (_cells[_row, _column], _attributes[_row, _column]) = (text[i], _attribute);
                _column++;
                continue;
            }

            int end = i + 1;
            while (!char.IsAsciiLetter(text[end])) end++;
            string parameters = text[(i + 2)..end];
            switch (text[end])
            {
                case 'H':
                    string[] at = parameters.Split(';');
                    (_row, _column) = (Number(at[0]) - 1, Number(at[1]) - 1);
                    break;
                case 'm': _attribute = parameters; break;
                case 'J' when parameters == "2":
                    for (int y = 0; y < Height; y++)
                        for (int x = 0; x < Width; x++) (_cells[y, x], _attributes[y, x]) = (' ', _attribute);
                    break;
                default: throw new InvalidDataException($"sequence {text[(i + 1)..(end + 1)]} sent");
            }

            i = end;
        }
    }

    private static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);
}
