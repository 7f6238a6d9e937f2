using System.Buffers.Text;
using Groundstation.Core;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;

namespace Groundstation.Io.Recordings;

/// <summary>Reads the <c>$PGSE</c> sentences that <see cref="RecordingWriter"/> writes.</summary>
internal static class StationLine
{
    /// <summary>
    /// Reads a wrapped piece of received bytes. False when the content is none, or a damaged one: then it is to be
    /// taken as a line that was received like that.
    /// </summary>
    /// <param name="content">The line behind its TAG block.</param>
    /// <param name="to">Takes the bytes, as long as the content.</param>
    /// <param name="count">How many.</param>
    public static bool TryReadRaw(ReadOnlySpan<byte> content, Span<byte> to, out int count)
    {
        count = 0;
        if (!content.StartsWith("$PGSE,RAW,"u8) || !TryBody(content, out ReadOnlySpan<byte> body))
            return false;
        body = body["PGSE,RAW,"u8.Length..];
        bool ended = body.EndsWith(",1"u8);
        if ((!ended && !body.EndsWith(",0"u8)) || !Escape.TryRead(body[..^2], to, out count))
            return false;
        if (ended)
        {
            to[count++] = (byte)'\r';
            to[count++] = (byte)'\n';
        }

        return true;
    }

    /// <summary>Reads an event of the station's own; one that cannot be read comes back as damaged.</summary>
    /// <param name="content">The line behind its TAG block.</param>
    /// <param name="at">Its time.</param>
    /// <param name="names">The recording's sources: links have no more of them than lines.</param>
    public static RecordedEvent Read(ReadOnlySpan<byte> content, Instant at, SourceNames names)
    {
        if (TryBody(content, out ReadOnlySpan<byte> body) && body.StartsWith("PGSE,"u8))
        {
            Span<Range> at4 = stackalloc Range[5];
            ReadOnlySpan<byte> fields = body[5..];
            int n = Split(fields, at4);
            ReadOnlySpan<byte> word = fields[at4[0]];
            if (word.SequenceEqual("TICK"u8) && n == 1)
                return RecordedEvent.OfTime(RecordedKind.Tick, at);
            if (word.SequenceEqual("END"u8) && n == 1)
                return RecordedEvent.OfTime(RecordedKind.Ended, at);
            if (word.SequenceEqual("OPEN"u8) && n == 3
                && Utf8Parser.TryParse(fields[at4[2]], out ulong seed, out int used) && used == fields[at4[2]].Length)
                return RecordedEvent.Opened(at, seed);
            if (word.SequenceEqual("ACT"u8) && n == 3
                && Escape.ReadText(fields[at4[1]]) is { } verb && Escape.ReadText(fields[at4[2]]) is { } argument)
                return RecordedEvent.Acted(at, new OperatorAct(verb, argument));
            if (word.SequenceEqual("LINK"u8) && n == 4 && LineTag.IsName(fields[at4[1]])
                && StateOf(fields[at4[2]]) is { } state && Escape.ReadText(fields[at4[3]]) is { } why)
                return RecordedEvent.Linked(names.Find(fields[at4[1]]), at, state, why);
        }

        return RecordedEvent.OfTime(RecordedKind.Damaged, at);
    }

    private static LinkState? StateOf(ReadOnlySpan<byte> word) =>
        word.SequenceEqual("UP"u8) ? LinkState.Up
        : word.SequenceEqual("OPENING"u8) ? LinkState.Opening
        : word.SequenceEqual("LOST"u8) ? LinkState.Lost
        : word.SequenceEqual("ENDED"u8) ? LinkState.Ended
        : null;

    private static int Split(ReadOnlySpan<byte> fields, Span<Range> to)
    {
        int n = 0, from = 0;
        for (int i = 0; i <= fields.Length && n < to.Length; i++)
        {
            if (i == fields.Length || fields[i] == ',')
            {
                to[n++] = from..i;
                from = i + 1;
            }
        }

        return n;
    }

    private static bool TryBody(ReadOnlySpan<byte> content, out ReadOnlySpan<byte> body)
    {
        body = default;
        if (content.Length < 9 || content[0] != '$' || content[^3] != '*'
            || Checksum.Read(content[^2..]) != Checksum.Of(content[1..^3]))
            return false;
        body = content[1..^3];
        return true;
    }
}
