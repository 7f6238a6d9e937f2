using System.Buffers.Text;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;

namespace Groundstation.Io.Recordings;

/// <summary>
/// The TAG block in front of a line (NMEA 0183 4.10): <c>\s:radio1,c:1782000000123*hh\</c>. Only <c>s:</c> (source) and
/// <c>c:</c> (UNIX time, seconds or milliseconds) are of use here; other fields are passed over.
/// </summary>
internal static class LineTag
{
    // c: of 2001 in milliseconds is 10¹², in seconds of the year 5138 10¹¹: between them there is no doubt.
    private const long FirstMilliseconds = 100_000_000_000;
    private const long Earliest = 315_532_800_000;  // 1980-01-01, the start of GPS time
    private const long Latest = 7_258_118_400_000;  // 2200-01-01

    /// <summary>Writes a block; gives its length.</summary>
    public static int Write(Span<byte> to, SourceId source, Instant at)
    {
        int n = 0;
        to[n++] = (byte)'\\';
        to[n++] = (byte)'s';
        to[n++] = (byte)':';
        n += System.Text.Encoding.ASCII.GetBytes(source.Name, to[n..]);
        to[n++] = (byte)',';
        to[n++] = (byte)'c';
        to[n++] = (byte)':';
        Utf8Formatter.TryFormat(at.UnixMilliseconds, to[n..], out int digits);
        n += digits;
        byte sum = Checksum.Of(to[1..n]);
        to[n++] = (byte)'*';
        Checksum.Write(sum, to[n..]);
        n += 2;
        to[n++] = (byte)'\\';
        return n;
    }

    /// <summary>
    /// Takes a line apart. False without a block or with a damaged one (checksum, frame, source name or time that
    /// cannot be); then the whole line is to be taken as it is.
    /// </summary>
    public static bool TryRead(ReadOnlySpan<byte> line, out ReadOnlySpan<byte> source, out long? unixMilliseconds,
        out ReadOnlySpan<byte> content)
    {
        source = default;
        unixMilliseconds = null;
        content = default;
        if (line.Length < 5 || line[0] != '\\')
            return false;
        int end = line[1..].IndexOf((byte)'\\') + 1;
        if (end < 5 || line[end - 3] != '*')
            return false;
        ReadOnlySpan<byte> fields = line[1..(end - 3)];
        if (Checksum.Read(line[(end - 2)..end]) != Checksum.Of(fields))
            return false;
        content = line[(end + 1)..];
        while (!fields.IsEmpty)
        {
            int comma = fields.IndexOf((byte)',');
            ReadOnlySpan<byte> field = comma < 0 ? fields : fields[..comma];
            fields = comma < 0 ? default : fields[(comma + 1)..];
            if (field.StartsWith("s:"u8))
                source = field[2..];
            else if (field.StartsWith("c:"u8) && !TryTime(field[2..], out unixMilliseconds))
                return false;
        }

        return true;
    }

    /// <summary>
    /// True for 1 to 15 letters, digits, <c>-</c> or <c>_</c>: nothing that could be a path or an escape.
    /// </summary>
    public static bool IsName(ReadOnlySpan<byte> name)
    {
        if (name.Length is 0 or > 15)
            return false;
        foreach (byte b in name)
        {
            if (!char.IsAsciiLetterOrDigit((char)b) && b is not ((byte)'-' or (byte)'_'))
                return false;
        }

        return true;
    }

    private static bool TryTime(ReadOnlySpan<byte> text, out long? unixMilliseconds)
    {
        unixMilliseconds = null;
        if (!Utf8Parser.TryParse(text, out long value, out int used) || used != text.Length || value < 0)
            return false;
        if (value < FirstMilliseconds)
            value *= 1000;
        if (value is < Earliest or >= Latest)
            return false;
        unixMilliseconds = value;
        return true;
    }
}
