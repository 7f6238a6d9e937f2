using Groundstation.Core.Quantities;

namespace Groundstation.Core.Sentences;

/// <summary>Which line of which group of lines a sentence is (TAG block <c>g:</c>).</summary>
/// <param name="Part">This line's number in its group, from 1.</param>
/// <param name="Of">Lines in the group.</param>
/// <param name="Id">The group's number.</param>
public readonly record struct TagGroup(int Part, int Of, int Id);

/// <summary>
/// What a TAG block (NMEA 0183 4.10, IEC 61162-450) in front of a sentence says. The spans lie in the receive buffer
/// and are gone with the sentence. A block carries its own checksum; only a block that holds it is ever read.
/// </summary>
public readonly ref struct TagBlock
{
    // c: counts seconds or milliseconds and does not say which. 10^11 s is the year 5138, 10^11 ms is 1973-03-03, so
    // the size alone tells them apart for every date that a receiver can mean.
    private const long FirstMilliseconds = 100_000_000_000;
    private const long LastMilliseconds = 253_402_300_799_999; // 9999-12-31T23:59:59.999Z

    /// <summary><c>s:</c> who sent it; empty when not said.</summary>
    public ReadOnlySpan<byte> Source { get; private init; }

    /// <summary><c>c:</c> when it was received, UNIX time in seconds or milliseconds; null when not said.</summary>
    public Instant? Time { get; private init; }

    /// <summary><c>n:</c> line count; null when not said.</summary>
    public int? LineCount { get; private init; }

    /// <summary><c>g:</c> group; null when not said.</summary>
    public TagGroup? Group { get; private init; }

    /// <summary>
    /// Reads a block at the beginning of a line, both backslashes included.
    /// </summary>
    /// <param name="line">The line, from its first byte.</param>
    /// <param name="tag">What the block says.</param>
    /// <param name="length">The block's length with its backslashes: the sentence starts there.</param>
    /// <returns>False when the line does not begin with an undamaged block.</returns>
    public static bool TryRead(ReadOnlySpan<byte> line, out TagBlock tag, out int length)
    {
        tag = default;
        length = 0;
        if (line.IsEmpty || line[0] != (byte)'\\') return false;
        int close = line[1..].IndexOf((byte)'\\');
        if (close < 0 || !TryParse(line.Slice(1, close), out tag)) return false;
        length = close + 2;
        return true;
    }

    /// <summary>Reads what stands between the backslashes: <c>s:radio1,c:1782000000123*hh</c>.</summary>
    /// <returns>False when the checksum or a known parameter's grammar is broken; unknown parameters are let
    /// pass.</returns>
    public static bool TryParse(ReadOnlySpan<byte> text, out TagBlock tag)
    {
        tag = default;
        int star = text.LastIndexOf((byte)'*');
        if (star < 0 || Checksum.Read(text[(star + 1)..]) != Checksum.Of(text[..star])) return false;
        if (text.ContainsAnyExceptInRange((byte)0x20, (byte)0x7E)) return false;

        ReadOnlySpan<byte> source = default;
        Instant? time = null;
        int? lineCount = null;
        TagGroup? group = null;
        var rest = text[..star];
        while (!rest.IsEmpty)
        {
            int comma = rest.IndexOf((byte)',');
            var parameter = comma < 0 ? rest : rest[..comma];
            rest = comma < 0 ? default : rest[(comma + 1)..];
            if (parameter.Length < 2 || parameter[1] != (byte)':') return false;
            var value = parameter[2..];
            switch (parameter[0])
            {
                case (byte)'s':
                    if (value.IsEmpty) return false;
                    source = value;
                    break;
                case (byte)'c':
                    if (!TryTime(value, out time)) return false;
                    break;
                case (byte)'n':
                    if (!Grammar.TryDigits(value, out int n)) return false;
                    lineCount = n;
                    break;
                case (byte)'g':
                    if (!TryGroup(value, out group)) return false;
                    break;
                default:
                    break; // d: destination, t: text, r: relative time, and whatever a later edition adds
            }
        }

        tag = new TagBlock { Source = source, Time = time, LineCount = lineCount, Group = group };
        return true;
    }

    private static bool TryTime(ReadOnlySpan<byte> value, out Instant? time)
    {
        time = null;
        if (value.Length is 0 or > 15) return false;
        long count = 0;
        foreach (byte b in value)
        {
            if (b is < (byte)'0' or > (byte)'9') return false;
            count = (count * 10) + (b - '0');
        }

        if (count > LastMilliseconds) return false;
        time = Instant.FromUnixMilliseconds(count < FirstMilliseconds ? count * 1000 : count);
        return true;
    }

    private static bool TryGroup(ReadOnlySpan<byte> value, out TagGroup? group)
    {
        group = null;
        int first = value.IndexOf((byte)'-');
        int last = value.LastIndexOf((byte)'-');
        if (first < 0 || last == first) return false;
        if (!Grammar.TryDigits(value[..first], out int part)
            || !Grammar.TryDigits(value[(first + 1)..last], out int of)
            || !Grammar.TryDigits(value[(last + 1)..], out int id))
            return false;
        group = new TagGroup(part, of, id);
        return true;
    }
}
