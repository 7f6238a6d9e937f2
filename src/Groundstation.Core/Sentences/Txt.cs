namespace Groundstation.Core.Sentences;

/// <summary>TXT: a message from the receiver. The span lies in the sentence and is gone with it.</summary>
public readonly ref struct Txt
{
    /// <summary>How many sentences the message spans.</summary>
    public int? Parts { get; private init; }

    /// <summary>This sentence's number among them, from 1.</summary>
    public int? Part { get; private init; }

    /// <summary>The kind of message; many makers use 0 error, 1 warning, 2 notice, 7 user.</summary>
    public int? Id { get; private init; }

    /// <summary>The text as sent: <c>^hh</c> stands for one byte.</summary>
    public ReadOnlySpan<byte> Escaped { get; private init; }

    /// <summary>
    /// Decodes an accepted sentence; false when it is no TXT. Receivers exist that send the text alone, without the
    /// three numbers in front: all of it is text then.
    /// </summary>
    public static bool TryDecode(in Sentence sentence, out Txt message)
    {
        message = default;
        if (!SentenceDecoder.Is(sentence, "TXT"u8)) return false;
        var text = sentence.Text;
        int star = text.LastIndexOf((byte)'*');
        int first = sentence.Address.Length + 2;
        int end = star < 0 ? text.Length : star;
        if (first > end) return true; // no field at all
        var body = text[first..end];
        var rest = body;
        message = new Txt { Escaped = body };
        if (!TakeNumber(ref rest, out int? parts) || !TakeNumber(ref rest, out int? part)
            || !TakeNumber(ref rest, out int? id))
            return true;
        message = new Txt { Parts = parts, Part = part, Id = id, Escaped = rest };
        return true;
    }

    /// <summary>
    /// Writes the text with each <c>^hh</c> replaced by its byte (ISO 8859-1). The bytes can be anything, control
    /// characters too: never send them to a screen as they are.
    /// </summary>
    /// <param name="destination">At least as long as <see cref="Escaped"/>.</param>
    /// <returns>The number of bytes written.</returns>
    public int Unescape(Span<byte> destination)
    {
        int length = 0;
        for (int i = 0; i < Escaped.Length; i++)
        {
            int value = Escaped[i] == (byte)'^' && i + 2 < Escaped.Length ? Checksum.Read(Escaped.Slice(i + 1, 2)) : -1;
            destination[length++] = value < 0 ? Escaped[i] : (byte)value;
            if (value >= 0) i += 2;
        }

        return length;
    }

    private static bool TakeNumber(ref ReadOnlySpan<byte> rest, out int? number)
    {
        number = null;
        int comma = rest.IndexOf((byte)',');
        if (comma < 0) return false;
        if (comma > 0)
        {
            if (!Grammar.TryDigits(rest[..comma], out int value)) return false;
            number = value;
        }

        rest = rest[(comma + 1)..];
        return true;
    }
}
