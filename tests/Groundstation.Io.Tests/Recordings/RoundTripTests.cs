using System.Text;
using Groundstation.Core;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Recordings;
using Groundstation.Io.Storage;
using Xunit;

namespace Groundstation.Io.Tests.Recordings;

/// <summary>
/// What is recorded comes back: the same events, to the byte, whatever came and however it was chunked.
/// </summary>
public sealed class RoundTripTests : IDisposable
{
    private static readonly SourceId _radio = new("radio1");
    private static readonly Instant _start = Instant.FromUnixMilliseconds(1_782_000_000_123);
    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("$GPGGA,1*00\r\n", "$GPGGA,1*00\r\n")]
    [InlineData("a\rb\nc\r\nd\r\r\ne", "a\r\n|b\r\n|c\r\n|d\r\n|e")]
    [InlineData("\r\n\n\r", "")]
    [InlineData("  \r\n", "  \r\n")]
    public void Line_ends_of_every_kind_become_CR_LF_and_blank_lines_vanish(string sent, string pieces) =>
        Assert.Equal(pieces, string.Join('|', Cut(Bytes.Of(sent), 1000).Select(Encoding.Latin1.GetString)));

    [Fact]
    public void A_line_without_end_is_cut_at_the_cap_and_its_late_end_is_kept()
    {
        byte[] sent = Encoding.ASCII.GetBytes(new string('x', 1024) + "y\r\n" + new string('z', 1024) + "\r\n");
        List<byte[]> pieces = Cut(sent, 7);
        Assert.Equal([1024, 3, 1026], pieces.Select(p => p.Length));

        LineAssembler assembler = new();
        assembler.Take("stump"u8, out _);
        Assert.True(assembler.TryFlush(out ReadOnlyMemory<byte> stump));
        Assert.Equal("stump", Encoding.ASCII.GetString(stump.Span));
        Assert.Equal(2, assembler.Take("\r\n"u8, out ReadOnlyMemory<byte> end) + assembler.Take("\n"u8, out _));
        Assert.Equal("\r\n", Encoding.ASCII.GetString(end.Span));
    }

    [Fact]
    public void Any_bytes_in_any_chunks_give_the_same_calls_and_come_back_from_the_recording()
    {
        Random random = new(20260621);
        for (int round = 0; round < 300; round++)
        {
            byte[] sent = Hostile(random);
            List<byte[]> whole = Cut(sent, sent.Length);
            List<byte[]> chunked = Cut(sent, 1 + random.Next(40));
            Assert.Equal(whole, chunked);

            List<RecordedEvent> events = [RecordedEvent.Opened(_start, 7)];
            for (int i = 0; i < whole.Count; i++)
                events.Add(RecordedEvent.Received(_radio, _start + TimeSpan.FromMilliseconds(i * 37), whole[i]));
            events.Add(RecordedEvent.OfTime(RecordedKind.Ended, events[^1].At));
            AssertSame(events, Back(Record(events)));
        }
    }

    [Fact]
    public void Every_kind_of_event_comes_back_with_its_texts()
    {
        string text = "Größe, *$!\\^ \u001b[31m \ud83c\udf88 " + new string('ü', 400);
        List<RecordedEvent> events =
        [
            RecordedEvent.Opened(_start, ulong.MaxValue),
            RecordedEvent.Linked(_radio, _start, LinkState.Opening, ""),
            RecordedEvent.Linked(_radio, _start, LinkState.Up, ""),
            RecordedEvent.Linked(_radio, _start, LinkState.Lost, text),
            RecordedEvent.Linked(_radio, _start, LinkState.Ended, "end, of *it*"),
            RecordedEvent.Acted(_start, new OperatorAct("note", text)),
            RecordedEvent.Acted(_start, new OperatorAct("acknowledge", "")),
            RecordedEvent.OfTime(RecordedKind.Tick, _start.PlusSeconds(2)),
            RecordedEvent.Received(_radio, _start.PlusSeconds(3), "$PGSE,TICK*2B\r\n"u8.ToArray()),
            RecordedEvent.Received(SourceId.Chase, _start.PlusSeconds(3), "\\s:x,c:1*5A\\$GPGLL*00\r\n"u8.ToArray()),
            RecordedEvent.OfTime(RecordedKind.Ended, _start.PlusSeconds(4)),
        ];
        AssertSame(events, Back(Record(events)));
    }

    [Fact]
    public void A_recording_is_plain_NMEA_with_TAG_blocks()
    {
        string path = Record(
        [
            RecordedEvent.Opened(_start, 1),
            RecordedEvent.Received(_radio, _start, "$GPGLL,4916.45,N,12311.12,W,225444.12,A,*30\r\n"u8.ToArray()),
            RecordedEvent.Received(_radio, _start, "a\u0001,b"u8.ToArray()),
        ]);
        string[] lines = File.ReadAllText(path).Split("\r\n");
        Assert.StartsWith(@"\s:station,c:1782000000123*", lines[0], StringComparison.Ordinal);
        Assert.EndsWith(@"\$PGSE,OPEN,1,1*39", lines[0], StringComparison.Ordinal);
        Assert.EndsWith(@"\$GPGLL,4916.45,N,12311.12,W,225444.12,A,*30", lines[1], StringComparison.Ordinal);
        Assert.Contains(@"\$PGSE,RAW,a^01^2Cb,0*", lines[2], StringComparison.Ordinal);
        foreach (string line in lines[..3])
        {
            foreach (string part in line.Split(@"\", StringSplitOptions.RemoveEmptyEntries))
            {
                string body = part.TrimStart('$').Split('*')[0];
                Assert.Equal(body.Aggregate(0, (sum, c) => sum ^ c), Convert.ToInt32(part[^2..], 16));
            }
        }
    }

    [Fact]
    public void A_recording_torn_at_any_byte_gives_all_whole_lines_and_says_so()
    {
        List<RecordedEvent> events = [RecordedEvent.Opened(_start, 7)];
        for (int i = 0; i < 4; i++)
            events.Add(RecordedEvent.Received(_radio, _start.PlusSeconds(i), Encoding.ASCII.GetBytes($"line {i}\r\n")));
        byte[] all = File.ReadAllBytes(Record(events));
        int second = Array.IndexOf(all, (byte)'\n') + 1;
        for (int length = second; length <= all.Length; length++)
        {
            File.WriteAllBytes(_folder["torn"], all[..length]);
            using RecordingReader reader = RecordingReader.Open(_folder["torn"]);
            List<RecordedEvent> back = ReadAll(reader);
            int whole = all[..length].Count(b => b == '\n');
            AssertSame(events[..whole], back[..whole]);
            Assert.Equal(all[length - 1] is not ((byte)'\n' or (byte)'\r'), reader.TornEnd);
        }
    }

    private static byte[] Hostile(Random random)
    {
        string[] parts =
        [
            "\r", "\n", "\r\n", "\r\r\n", "$PGSE,RAW,^00,1*00", "$PGSE", "\\s:radio1,c:1782000000123*00\\", "^",
            "*", ",",
            "$GPGGA,120000.00,4333.60316,N,11612.60123,W,1,10,0.9,872.5,M,-16.1,M,,*50\r\n", new string('q', 1023),
            "\0", "\u001b[2J", "\u00ff\u00fe",
        ];
        StringBuilder text = new("x");
        for (int n = random.Next(60); n > 0; n--)
        {
            if (random.Next(4) == 0)
                text.Append((char)random.Next(256));
            else
                text.Append(parts[random.Next(parts.Length)]);
        }

        return Encoding.Latin1.GetBytes(text.ToString());
    }

    private static List<byte[]> Cut(byte[] sent, int chunk)
    {
        LineAssembler assembler = new();
        List<byte[]> pieces = [];
        for (int at = 0; at < sent.Length; at += chunk)
        {
            ReadOnlySpan<byte> rest = sent.AsSpan(at, Math.Min(chunk, sent.Length - at));
            while (!rest.IsEmpty)
            {
                rest = rest[assembler.Take(rest, out ReadOnlyMemory<byte> piece)..];
                if (!piece.IsEmpty)
                    pieces.Add(piece.ToArray());
            }
        }

        if (assembler.TryFlush(out ReadOnlyMemory<byte> last))
            pieces.Add(last.ToArray());
        return pieces;
    }

    private string Record(IEnumerable<RecordedEvent> events)
    {
        string path = _folder["recording.nmea"];
        using AppendFile file = new(path, fresh: true, writeThrough: false);
        foreach (RecordedEvent e in events)
            RecordingWriter.Append(file, e);
        return path;
    }

    private static List<RecordedEvent> Back(string path)
    {
        using RecordingReader reader = RecordingReader.Open(path);
        return ReadAll(reader);
    }

    private static List<RecordedEvent> ReadAll(RecordingReader reader)
    {
        List<RecordedEvent> events = [];
        while (reader.Read(out RecordedEvent e))
            events.Add(e with { Bytes = e.Bytes.ToArray() });
        return events;
    }

    private static void AssertSame(IEnumerable<RecordedEvent> expected, IEnumerable<RecordedEvent> actual) =>
        Assert.Equal(expected.Select(Told), actual.Select(Told));

    private static string Told(RecordedEvent e) =>
        $"{e.Kind} {e.At} {e.Source} {e.State} {e.Why} {e.Done} {e.Seed} {Encoding.Latin1.GetString(e.Bytes.Span)}";
}
