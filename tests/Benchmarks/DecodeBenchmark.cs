using System.Diagnostics;
using System.Globalization;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;

namespace Groundstation.Benchmarks;

/// <summary>
/// How fast bytes become typed messages, on one core: a million sentences of 24 receivers, decoded in full, against the
/// least that any decoder must do on the same bytes (find the line end, XOR the body), measured in the same run.
/// <c>decode [--write FILE]</c>.
/// </summary>
internal static class DecodeBenchmark
{
    private const int Sentences = 1_000_000;
    private const int Segments = 50;
    private const int Rounds = 15;

    public static int Run(string[] args)
    {
        byte[][] segments = Mixed(out var types);
        var floor = new Best();
        var whole = new Best();
        var chunked = new Best();
        var counter = new Counter();
        for (int round = 0; round < Rounds; round++)
        {
            // Each pass goes through the whole file before the next begins, so that none finds its bytes in the cache.
            counter = new Counter();
            var ignored = new Counter();
            for (int i = 0; i < Segments; i++) floor.Take(i, () => Floor(segments[i]));
            for (int i = 0; i < Segments; i++)
                whole.Take(i, () => Decode(segments[i], segments[i].Length, ref counter));
            for (int i = 0; i < Segments; i++) chunked.Take(i, () => Decode(segments[i], 4096, ref ignored));
        }

        if (counter.Accepted != Sentences || counter.Refused != 0)
            throw new InvalidOperationException($"{counter.Accepted} accepted, {counter.Refused} rejected");
        string report = Report(segments.Sum(s => (long)s.Length), types, floor.Seconds, whole.Seconds, chunked.Seconds);
        Console.Write(report);
        int write = Array.IndexOf(args, "--write");
        if (write >= 0 && write + 1 < args.Length) File.WriteAllText(args[write + 1], report);
        return 0;
    }

    private static string Report(long length, IEnumerable<KeyValuePair<string, int>> types, double floor, double decode,
        double chunked)
    {
        string mix = string.Join(", ", types.OrderByDescending(t => t.Value).ThenBy(t => t.Key, StringComparer.Ordinal)
            .Select(t => $"{t.Key} {100.0 * t.Value / Sentences:F1} %"));
        return string.Create(CultureInfo.InvariantCulture, $"""
            # Bytes to typed messages

            {Machine.Processor()}; {Machine.Runtime()}.
            One core. {Rounds} rounds of the three passes, each over the whole file; its {Segments} segments are timed
            singly and the best time of each is summed up, so that other work on the machine counts little.
            {Sentences} sentences, {length / 1e6:F1} MB, from the bundled recordings:
            {mix}.

            | pass | million sentences a second | nanoseconds a sentence |
            |---|---|---|
            | floor: `IndexOf` of the line end, scalar XOR | {Sentences / floor / 1e6:F1} | {floor * 1e3:F0} |
            | framing, checksum, all fields, a segment in one call | {Sentences / decode / 1e6:F1} | {decode * 1e3:F0} |
            | the same in pieces of 4096 bytes | {Sentences / chunked / 1e6:F1} | {chunked * 1e3:F0} |

            Ratio to the floor: 1:{decode / floor:F2}.

            """);
    }

    private static void Decode(byte[] bytes, int chunk, ref Counter sink)
    {
        var stream = new SentenceStream(new SourceId("radio1"), allowNoChecksum: false);
        for (int at = 0; at < bytes.Length; at += chunk)
            stream.Push(new Instant(at), bytes.AsSpan(at, Math.Min(chunk, bytes.Length - at)), ref sink);
    }

    private static int Floor(ReadOnlySpan<byte> rest)
    {
        int good = 0;
        while (!rest.IsEmpty)
        {
            int end = rest.IndexOf((byte)'\n');
            byte x = 0;
            foreach (byte b in rest[1..(end - 4)]) x ^= b;
            if (x == Hex(rest[end - 3], rest[end - 2])) good++;
            rest = rest[(end + 1)..];
        }

        return good;
    }

    private static int Hex(byte high, byte low) => (Digit(high) << 4) | Digit(low);

    private static int Digit(byte b) => b <= '9' ? b - '0' : (b & 7) + 9;

    /// <summary>A million accepted sentences with CRLF, the recordings' own sequence repeated, in segments.</summary>
    private static byte[][] Mixed(out Dictionary<string, int> types)
    {
        var kept = new Keeper();
        foreach (byte[] log in Machine.ReceiverLogs())
        {
            var stream = new SentenceStream(new SourceId("radio1"), allowNoChecksum: false);
            stream.Push(new Instant(0), log, ref kept);
            stream.Flush(new Instant(0), ref kept);
        }

        types = [];
        byte[][] segments = new byte[Segments][];
        for (int segment = 0, i = 0; segment < Segments; segment++)
        {
            using var bytes = new MemoryStream();
            for (int n = 0; n < Sentences / Segments; n++, i++)
            {
                byte[] sentence = kept.Sentences[i % kept.Sentences.Count];
                bytes.Write(sentence);
                bytes.Write("\r\n"u8);
                string type = sentence[1] == 'P' ? "P…" : System.Text.Encoding.ASCII.GetString(sentence, 3, 3);
                types[type] = types.GetValueOrDefault(type) + 1;
            }

            segments[segment] = bytes.ToArray();
        }

        return segments;
    }

    /// <summary>The shortest time of each segment.</summary>
    private sealed class Best
    {
        private readonly double[] _seconds = [.. Enumerable.Repeat(double.MaxValue, Segments)];

        public double Seconds => _seconds.Sum();

        public void Take(int segment, Action pass)
        {
            long start = Stopwatch.GetTimestamp();
            pass();
            _seconds[segment] = Math.Min(_seconds[segment], Stopwatch.GetElapsedTime(start).TotalSeconds);
        }
    }
}
