using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Io.Recordings;

/// <summary>
/// Lines of a recording of the station's own, one after the other as they come: the same events as
/// <see cref="RecordingReader"/> gives when the file is whole.
/// </summary>
internal sealed class OwnLines
{
    private readonly LineAssembler _assembler = new();
    private readonly SourceNames _names = new();
    private readonly byte[] _line = new byte[LineScanner.MaxLine + 2];
    private StampedTime _time;

    /// <summary>Takes one line without its end; its events are good during the call only.</summary>
    public void Take(ReadOnlySpan<byte> line, Action<RecordedEvent> give)
    {
        if (line.IsEmpty || line.Length > LineScanner.MaxLine)
            return;
        SourceId source = SourceNames.First;
        if (LineTag.TryRead(line, out ReadOnlySpan<byte> name, out long? ms, out ReadOnlySpan<byte> content))
        {
            _time.Take(ms);
            if (name.SequenceEqual("station"u8) && content.StartsWith("$PGSE"u8))
            {
                give(StationLine.Read(content, _time.Now, _names));
                return;
            }

            source = _names.Find(name);
            if (StationLine.TryReadRaw(content, _line, out int count))
            {
                give(RecordedEvent.Received(source, _time.Now, _line.AsMemory(0, count)));
                return;
            }
        }
        else
        {
            content = line;
        }

        content.CopyTo(_line);
        _line[content.Length] = (byte)'\r';
        _line[content.Length + 1] = (byte)'\n';
        ReadOnlySpan<byte> rest = _line.AsSpan(0, content.Length + 2);
        while (!rest.IsEmpty)
        {
            rest = rest[_assembler.Take(rest, out ReadOnlyMemory<byte> piece)..];
            if (!piece.IsEmpty)
                give(RecordedEvent.Received(source, _time.Now, piece));
        }
    }
}
