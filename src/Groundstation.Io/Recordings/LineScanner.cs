namespace Groundstation.Io.Recordings;

/// <summary>How a scanned line came to its end.</summary>
internal enum LineEnd
{
    /// <summary>By CR, LF or both.</summary>
    Ended,

    /// <summary>By the end of the file: torn by a kill, or a log cut off there.</summary>
    Torn,

    /// <summary>By the cap: the rest follows as the next line.</summary>
    Cut,
}

/// <summary>
/// Lines of a file of any size through one fixed buffer, with a look at the lines that follow. Empty lines vanish, and
/// the byte order mark with which some editors begin a file.
/// </summary>
internal sealed class LineScanner(Stream stream) : IDisposable
{
    /// <summary>Longest line: any line the station writes fits (<see cref="RecordingWriter.MaxLine"/>).</summary>
    public const int MaxLine = RecordingWriter.MaxLine;

    // What is kept ready behind the current line, so that Peek sees the next epoch even of a talkative receiver.
    private const int Ahead = 32 << 10;

    private readonly byte[] _buffer = new byte[128 << 10];
    private int _start;
    private int _end;
    private bool _atEnd;

    /// <summary>Bytes of the file behind us.</summary>
    public long Position { get; private set; }

    /// <summary>
    /// Number of the current line, from 1, as an editor counts: CR, LF, CRLF and CRCRLF each end one, empty ones count.
    /// </summary>
    public long Line { get; private set; }

    /// <summary>Lines that have ended behind us.</summary>
    private long Ended { get; set; }

    /// <summary>Steps to the next line. The span is good until the next call.</summary>
    public bool TryNext(out ReadOnlySpan<byte> line, out LineEnd end)
    {
        while (true)
        {
            if (_end - _start < Ahead && !_atEnd)
                Fill();
            ReadOnlySpan<byte> rest = _buffer.AsSpan(_start, _end - _start);
            if (rest.IsEmpty)
            {
                line = default;
                end = LineEnd.Torn;
                return false;
            }

            int used = Split(rest, out line, out end);
            Line = Ended + 1;
            // A CR before another line end is only a part of it.
            bool partOfLineEnd = rest[used - 1] == '\r' && used < rest.Length && rest[used] is (byte)'\r' or (byte)'\n';
            if (end == LineEnd.Ended && !partOfLineEnd)
                Ended++;
            _start += used;
            Position += used;
            if (!line.IsEmpty)
                return true;
        }
    }

    /// <summary>The lines that follow the current one, without stepping, as far as they are in the buffer.</summary>
    public Following Peek() => new(_buffer.AsSpan(_start, _end - _start));

    /// <inheritdoc/>
    public void Dispose() => stream.Dispose();

    private static int Split(ReadOnlySpan<byte> rest, out ReadOnlySpan<byte> line, out LineEnd end)
    {
        int at = rest[..Math.Min(rest.Length, MaxLine + 1)].IndexOfAny((byte)'\r', (byte)'\n');
        if (at >= 0)
        {
            line = rest[..at];
            end = LineEnd.Ended;
            return at + 1;
        }

        line = rest[..Math.Min(rest.Length, MaxLine)];
        end = rest.Length > MaxLine ? LineEnd.Cut : LineEnd.Torn;
        return line.Length;
    }

    private void Fill()
    {
        bool first = Position == 0 && _end == 0;
        _buffer.AsSpan(_start, _end - _start).CopyTo(_buffer);
        _end -= _start;
        _start = 0;
        while (_end < _buffer.Length)
        {
            int n = stream.Read(_buffer, _end, _buffer.Length - _end);
            if (n == 0)
            {
                _atEnd = true;
                break;
            }

            _end += n;
        }

        if (first && _buffer.AsSpan(0, _end).StartsWith("\uFEFF"u8))
            Position = _start = 3;
    }

    /// <summary>A walk over the lines ahead.</summary>
    public ref struct Following(ReadOnlySpan<byte> rest)
    {
        private ReadOnlySpan<byte> _rest = rest;

        /// <summary>The next line ahead; false at the end of the buffer.</summary>
        public bool TryNext(out ReadOnlySpan<byte> line)
        {
            line = default;
            while (line.IsEmpty)
            {
                if (_rest.IsEmpty)
                    return false;
                _rest = _rest[Split(_rest, out line, out _)..];
            }

            return true;
        }
    }
}
