using System.Buffers.Text;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Recordings;

/// <summary>
/// Writes events as lines of a recording: plain NMEA 0183 with TAG blocks, readable by other programs. A received line
/// of printable ASCII stands there as it came; anything else is wrapped in <c>$PGSE,RAW</c>. The station's own events
/// are <c>$PGSE</c> sentences of source <c>station</c>.
/// </summary>
public static class RecordingWriter
{
    /// <summary>The source name of the station's own events.</summary>
    public static readonly SourceId OwnSource = new("station");

    /// <summary>Room that any event's line fits in.</summary>
    internal const int MaxLine = 4096;

    /// <summary>Formats an event's line with its CR LF; gives its length.</summary>
    /// <param name="e">The event; received bytes are at most <see cref="LineAssembler.LineCap"/> + 2.</param>
    /// <param name="to">At least 4096 bytes.</param>
    public static int Format(in RecordedEvent e, Span<byte> to)
    {
        int n = LineTag.Write(to, e.Kind == RecordedKind.Received ? e.Source : OwnSource, e.At);
        if (e.Kind == RecordedKind.Received)
            n += FormatReceived(e.Bytes.Span, to[n..]);
        else
            n += FormatOwn(e, to[n..]);
        to[n++] = (byte)'\r';
        to[n++] = (byte)'\n';
        return n;
    }

    /// <summary>Appends an event to a file.</summary>
    internal static void Append(AppendFile file, in RecordedEvent e)
    {
        Span<byte> line = stackalloc byte[MaxLine];
        file.Append(line[..Format(e, line)]);
    }

    private static int FormatReceived(ReadOnlySpan<byte> bytes, Span<byte> to)
    {
        bool ended = bytes.EndsWith("\r\n"u8);
        ReadOnlySpan<byte> content = ended ? bytes[..^2] : bytes;
        if (ended && IsPlain(content))
        {
            content.CopyTo(to);
            return content.Length;
        }

        int n = Put("$PGSE,RAW,"u8, to);
        n += Escape.Write(content, to[n..]);
        n += Put(ended ? ",1"u8 : ",0"u8, to[n..]);
        return Close(to, n);
    }

    private static int FormatOwn(in RecordedEvent e, Span<byte> to)
    {
        int n;
        switch (e.Kind)
        {
            case RecordedKind.Opened:
                // The format's version.
                n = Put("$PGSE,OPEN,1,"u8, to);
                Utf8Formatter.TryFormat(e.Seed, to[n..], out int digits);
                n += digits;
                break;
            case RecordedKind.Link:
                n = Put("$PGSE,LINK,"u8, to);
                n += Escape.Write(e.Source.Name, to[n..]);
                n += Put(e.State switch
                {
                    LinkState.Up => ",UP,"u8,
                    LinkState.Opening => ",OPENING,"u8,
                    LinkState.Lost => ",LOST,"u8,
                    _ => ",ENDED,"u8,
                }, to[n..]);
                n += Escape.Write(e.Why, to[n..]);
                break;
            case RecordedKind.Act:
                n = Put("$PGSE,ACT,"u8, to);
                n += Escape.Write(e.Done!.Verb, to[n..]);
                to[n++] = (byte)',';
                n += Escape.Write(e.Done.Argument, to[n..]);
                break;
            case RecordedKind.Ended:
                n = Put("$PGSE,END"u8, to);
                break;
            default:
                n = Put("$PGSE,TICK"u8, to);
                break;
        }

        return Close(to, n);
    }

    private static bool IsPlain(ReadOnlySpan<byte> content) =>
        content.Length is > 0 and <= LineAssembler.LineCap
        && !content.ContainsAnyExceptInRange((byte)0x20, (byte)0x7E)
        && !content.StartsWith("$PGSE"u8);

    private static int Put(ReadOnlySpan<byte> text, Span<byte> to)
    {
        text.CopyTo(to);
        return text.Length;
    }

    private static int Close(Span<byte> to, int n)
    {
        byte sum = Checksum.Of(to[1..n]);
        to[n++] = (byte)'*';
        Checksum.Write(sum, to[n..]);
        return n + 2;
    }
}
