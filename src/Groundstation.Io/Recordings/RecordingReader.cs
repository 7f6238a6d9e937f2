using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Recordings;

/// <summary>
/// Reads a recording event by event with flat memory, whatever its size. The station's own recordings give exactly the
/// events that were recorded. Other logs with TAG blocks are placed in time by <c>c:</c>, logs without by the UTC in
/// their sentences (<see cref="SentenceClock"/>); both are framed by a link that comes up and ends. Times never go
/// back.
/// </summary>
public sealed class RecordingReader : IDisposable
{
    private readonly LineScanner _lines;
    private readonly SentenceClock _clock;
    private readonly LineAssembler _assembler = new();
    private readonly byte[] _line = new byte[LineScanner.MaxLine + 2];
    private readonly byte[] _raw = new byte[LineScanner.MaxLine + 2];
    private readonly SourceNames _names = new();
    private readonly List<SourceId> _linked = [];

    private ReadOnlyMemory<byte> _rest;
    private SourceId _source = SourceNames.First;
    private StampedTime _time;
    private bool _stamped;
    private int _ended;

    private RecordingReader(string path, LineScanner lines, SentenceClock clock, long length,
        RecordingHead head)
    {
        Path = path;
        Length = length;
        (IsOwn, Seed) = (head.IsOwn, head.Seed);
        _lines = lines;
        _clock = clock;
        _time = new StampedTime(IsOwn ? default : clock.Now);
    }

    /// <summary>Where it lies.</summary>
    public string Path { get; }

    /// <summary>Size of the file when it was opened, bytes.</summary>
    public long Length { get; }

    /// <summary>Bytes read so far, for progress.</summary>
    public long Position => _lines.Position;

    /// <summary>Number of the line that the newest event comes from, from 1.</summary>
    public long Line => _lines.Line;

    /// <summary>False when nothing in it tells the time, so that durations and rates mean nothing.</summary>
    public bool IsTimed => IsOwn || _stamped || _clock.Timed;

    /// <summary>True for a recording made by the station itself.</summary>
    public bool IsOwn { get; }

    /// <summary>The seed recorded at its beginning; null in other programs' logs.</summary>
    public ulong? Seed { get; }

    /// <summary>Comment lines (<c>#</c> first) passed over in a log without TAG blocks.</summary>
    public long Comments { get; private set; }

    /// <summary>Lines of the station's own that could not be read.</summary>
    public long Damaged { get; private set; }

    /// <summary>True when the last line had no end: cut off by a kill or by whoever made the log.</summary>
    public bool TornEnd { get; private set; }

    /// <summary>How the lines got their times, in words.</summary>
    public string TimeBasis => IsOwn ? "times as recorded" : _stamped ? "times from its TAG blocks" : _clock.Basis;

    /// <summary>Opens a recording.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="UserErrorException">It is missing, unreadable, empty, or of a later format.</exception>
    public static RecordingReader Open(string path)
    {
        try
        {
            RecordingHead head;
            using (LineScanner look = new(OpenFile(path)))
                head = RecordingHead.Of(look, path);
            SentenceClock clock;
            using (LineScanner look = new(OpenFile(path)))
                clock = SentenceClock.For(look, head.IsOwn ? 0 : 4 << 20);
            FileStream file = OpenFile(path);
            return new RecordingReader(path, new LineScanner(file), clock, file.Length, head);
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException($"{path}: cannot be read ({FileTrouble.Words(e)})", e);
        }
    }

    /// <summary>Reads the next event. Its bytes are good until the next call.</summary>
    /// <exception cref="UserErrorException">The file can no longer be read.</exception>
    public bool Read(out RecordedEvent next)
    {
        try
        {
            while (true)
            {
                if (TryPiece(out next))
                    return true;
                if (!_lines.TryNext(out ReadOnlySpan<byte> line, out LineEnd end))
                    return TryEnd(out next);
                if (Take(line, end, out next))
                    return true;
            }
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException($"{Path}: cannot be read on ({FileTrouble.Words(e)})", e);
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _lines.Dispose();

    private static FileStream OpenFile(string path) => new(path, new FileStreamOptions
    {
        Mode = FileMode.Open,
        Access = FileAccess.Read,
        Share = FileShare.ReadWrite | FileShare.Delete,
        BufferSize = 0,
        Options = FileOptions.SequentialScan,
    });

    /// <summary>
    /// Takes a line; true when it is an event by itself, false when its bytes are to be cut into pieces.
    /// </summary>
    private bool Take(ReadOnlySpan<byte> line, LineEnd end, out RecordedEvent next)
    {
        next = default;
        TornEnd |= end == LineEnd.Torn;
        if (LineTag.TryRead(line, out ReadOnlySpan<byte> source, out long? stamp, out ReadOnlySpan<byte> content))
        {
            Stamp(stamp, line);
            if (source.SequenceEqual("station"u8) && content.StartsWith("$PGSE"u8))
            {
                next = StationLine.Read(content, _time.Now, _names);
                Damaged += next.Kind == RecordedKind.Damaged ? 1 : 0;
                return true;
            }

            _source = _names.Find(source);
            if (StationLine.TryReadRaw(content, _raw, out int count))
            {
                _rest = default;
                next = RecordedEvent.Received(_source, _time.Now, _raw.AsMemory(0, count));
                return true;
            }
        }
        else
        {
            if (!IsOwn && line.StartsWith("#"u8))
            {
                Comments++;
                return false;
            }

            Stamp(null, line);
            content = line;
        }

        if (content.IsEmpty)
            return false;
        content.CopyTo(_line);
        int length = content.Length;
        // At the end of the file a line ends, too: whether its CR LF was lost or more cannot be known, and a repaired
        // recording must replay like the torn one.
        if (end != LineEnd.Cut)
        {
            _line[length++] = (byte)'\r';
            _line[length++] = (byte)'\n';
        }

        _rest = _line.AsMemory(0, length);
        if (!IsOwn && !_linked.Contains(_source))
        {
            _linked.Add(_source);
            next = RecordedEvent.Linked(_source, _time.Now, LinkState.Up, "");
            return true;
        }

        return false;
    }

    /// <summary>Cuts what is left of the line by the same rule as live bytes are cut.</summary>
    private bool TryPiece(out RecordedEvent next)
    {
        while (!_rest.IsEmpty)
        {
            int used = _assembler.Take(_rest.Span, out ReadOnlyMemory<byte> piece);
            _rest = _rest[used..];
            if (!piece.IsEmpty)
            {
                next = RecordedEvent.Received(_source, _time.Now, piece);
                return true;
            }
        }

        next = default;
        return false;
    }

    private bool TryEnd(out RecordedEvent next)
    {
        next = default;
        if (_assembler.TryFlush(out ReadOnlyMemory<byte> piece))
        {
            next = RecordedEvent.Received(_source, _time.Now, piece);
            return true;
        }

        if (_ended == _linked.Count)
            return false;
        next = RecordedEvent.Linked(_linked[_ended++], _time.Now, LinkState.Ended, "end of the recording");
        return true;
    }

    private void Stamp(long? unixMilliseconds, ReadOnlySpan<byte> line)
    {
        _stamped |= unixMilliseconds is not null;
        if (IsOwn || _stamped)
        {
            _time.Take(unixMilliseconds);
            return;
        }

        _clock.Step(line, _lines.Peek());
        _time.Take(_clock.Now);
    }
}
