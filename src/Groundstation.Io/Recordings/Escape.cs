using System.Text;
using Groundstation.Core.Sentences;

namespace Groundstation.Io.Recordings;

/// <summary>
/// The <c>^HH</c> form of bytes inside a sentence's field (IEC 61162-1 code delimiter): every byte outside 0x20–0x7E
/// and each of <c>, * \ ^ $ !</c> is written as a caret and two upper-case hexadecimal digits.
/// </summary>
internal static class Escape
{
    /// <summary>Longest text of the station's own that is recorded, in characters; the rest is cut.</summary>
    public const int MaxText = 300;

    /// <summary>Writes bytes; the target must hold three times as many. Gives the count written.</summary>
    public static int Write(ReadOnlySpan<byte> bytes, Span<byte> to)
    {
        int n = 0;
        foreach (byte b in bytes)
        {
            if (b is >= 0x20 and <= 0x7E and not ((byte)',' or (byte)'*' or (byte)'\\' or (byte)'^' or (byte)'$'
                or (byte)'!'))
            {
                to[n++] = b;
            }
            else
            {
                to[n++] = (byte)'^';
                Checksum.Write(b, to[n..]);
                n += 2;
            }
        }

        return n;
    }

    /// <summary>Writes text as UTF-8; the target must hold nine times its characters.</summary>
    public static int Write(string text, Span<byte> to)
    {
        Span<byte> utf8 = stackalloc byte[MaxText * 3];
        return Write(utf8[..Encoding.UTF8.GetBytes(Cut(text, MaxText), utf8)], to);
    }

    /// <summary>Reads the escaped form back. False when it is damaged.</summary>
    public static bool TryRead(ReadOnlySpan<byte> text, Span<byte> to, out int count)
    {
        count = 0;
        for (int i = 0; i < text.Length; i++)
        {
            if (text[i] != '^')
            {
                to[count++] = text[i];
            }
            else
            {
                int value = i + 2 < text.Length ? Checksum.Read(text[(i + 1)..(i + 3)]) : -1;
                if (value < 0)
                    return false;
                to[count++] = (byte)value;
                i += 2;
            }
        }

        return true;
    }

    /// <summary>Reads text back; null when it is damaged.</summary>
    public static string? ReadText(ReadOnlySpan<byte> text)
    {
        byte[] to = new byte[text.Length];
        return TryRead(text, to, out int n) ? Encoding.UTF8.GetString(to, 0, n) : null;
    }

    /// <summary>
    /// The text as it comes back from a recording: at most <see cref="MaxText"/> characters, lone surrogates replaced.
    /// What the core gets live goes through this first, so that a replay gets the same.
    /// </summary>
    public static string Recordable(string text, int max = MaxText) =>
        Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(Cut(text, max)));

    private static string Cut(string text, int max)
    {
        if (text.Length <= max)
            return text;
        // A pair of surrogates is not split: half of it would come back as another character.
        return text[..(char.IsHighSurrogate(text[max - 1]) ? max - 1 : max)];
    }
}
