namespace Groundstation.Benchmarks.Fuzzing;

/// <summary>Faults of the kinds that radios, cables, editors and ill will make, put into a good file at random.</summary>
internal static class Mutations
{
    private static readonly string[] _words =
    [
        "1e308", "-1e308", "NaN", "99999999999999999999", "-0", "0x7fffffff", "1e-320", "../../../../etc/passwd",
        "\e]0;title\a", "\e[2J", "\u202e", "\0", "=cmd()", "[[[[[[[[", "{{{{", "\"\"\"", "'''", "\\u0000", "\r", "\n\n",
        "2026-99-99T99:99:99Z", ",", "*", "$", "!", "\\s:radio1,c:99999999999999999999*00\\", "\\s:../../x,c:1*00\\",
    ];

    /// <summary>A stretch of a good file, or all of it, with a few faults.</summary>
    /// <param name="good">The file.</param>
    /// <param name="most">Most bytes that are taken of it.</param>
    /// <param name="random">Where the faults come from.</param>
    public static byte[] Of(byte[] good, int most, Random random)
    {
        int length = Math.Min(good.Length, most);
        List<byte> piece = [.. good.AsSpan(random.Next(good.Length - length + 1), length)];
        for (int fault = random.Next(1, 12); fault > 0 && piece.Count > 0; fault--) Spoil(piece, random);
        return [.. piece];
    }

    private static void Spoil(List<byte> piece, Random random)
    {
        int at = random.Next(piece.Count);
        switch (random.Next(8))
        {
            case 0:
                piece[at] ^= (byte)(1 << random.Next(8));
                break;
            case 1:
                piece[at] = (byte)random.Next(256);
                break;
            case 2:
                piece.RemoveRange(at, Math.Min(random.Next(200), piece.Count - at));
                break;
            case 3:
                piece.InsertRange(at, System.Text.Encoding.UTF8.GetBytes(_words[random.Next(_words.Length)]));
                break;
            case 4: // a stretch again, elsewhere
                piece.InsertRange(at, piece.GetRange(random.Next(at + 1), Math.Min(random.Next(300), piece.Count - at)));
                break;
            case 5: // one thing very often: depth, length
                string word = _words[random.Next(_words.Length)];
                piece.InsertRange(at, System.Text.Encoding.UTF8.GetBytes(
                    string.Concat(Enumerable.Repeat(word, 1 << random.Next(13)))));
                break;
            case 6: // a number becomes another
                int digit = piece.FindIndex(at, b => b is >= (byte)'0' and <= (byte)'9');
                if (digit >= 0)
                {
                    piece.RemoveAt(digit);
                    piece.InsertRange(digit, System.Text.Encoding.ASCII.GetBytes(_words[random.Next(8)]));
                }

                break;
            default: // cut off
                if (random.Next(4) == 0) piece.RemoveRange(at, piece.Count - at);
                break;
        }
    }
}
