using System.Text;

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
                n += WriteHex(b, to[n..]);
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
                if (i + 2 >= text.Length || !TryHex(text[(i + 1)..(i + 3)], out byte value))
                    return false;
                to[count++] = value;
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

    /// <summary>Two upper-case digits.</summary>
    public static int WriteHex(byte value, Span<byte> to)
    {
        const string Digits = "0123456789ABCDEF";
        to[0] = (byte)Digits[value >> 4];
        to[1] = (byte)Digits[value & 15];
        return 2;
    }

    /// <summary>Exactly two digits of either case.</summary>
    public static bool TryHex(ReadOnlySpan<byte> two, out byte value)
    {
        value = 0;
        if (two.Length != 2)
            return false;
        foreach (byte b in two)
        {
            int digit = b switch
            {
                >= (byte)'0' and <= (byte)'9' => b - '0',
                >= (byte)'A' and <= (byte)'F' => b - 'A' + 10,
                >= (byte)'a' and <= (byte)'f' => b - 'a' + 10,
                _ => -1,
            };
            if (digit < 0)
                return false;
            value = (byte)(value << 4 | digit);
        }

        return true;
    }

    /// <summary>Exclusive or of all bytes: the checksum of NMEA 0183.</summary>
    public static byte Xor(ReadOnlySpan<byte> bytes)
    {
        byte sum = 0;
        foreach (byte b in bytes)
            sum ^= b;
        return sum;
    }

    private static string Cut(string text, int max)
    {
        if (text.Length <= max)
            return text;
        // A pair of surrogates is not split: half of it would come back as another character.
        return text[..(char.IsHighSurrogate(text[max - 1]) ? max - 1 : max)];
    }
}
