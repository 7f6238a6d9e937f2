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
    private const int Rounds = 9;

    public static int Run(string[] args)
    {
        byte[] bytes = Mixed(out var types);
        double floor = double.MaxValue, decode = double.MaxValue, chunked = double.MaxValue;
        var counter = new Counter();
        long allocated = 0;
        for (int round = 0; round < Rounds; round++)
        {
            floor = Math.Min(floor, Seconds(() => Floor(bytes)));
            long before = GC.GetAllocatedBytesForCurrentThread();
            decode = Math.Min(decode, Seconds(() => counter = Decode(bytes, bytes.Length)));
            allocated = GC.GetAllocatedBytesForCurrentThread() - before;
            chunked = Math.Min(chunked, Seconds(() => Decode(bytes, 4096)));
        }

        if (counter.Accepted != Sentences || counter.Refused != 0)
            throw new InvalidOperationException($"{counter.Accepted} accepted, {counter.Refused} rejected");
        string report = Report(bytes.Length, types, floor, decode, chunked, allocated);
        Console.Write(report);
        int write = Array.IndexOf(args, "--write");
        if (write >= 0 && write + 1 < args.Length) File.WriteAllText(args[write + 1], report);
        return 0;
    }

    private static string Report(int length, IEnumerable<KeyValuePair<string, int>> types, double floor, double decode,
        double chunked, long allocated)
    {
        string mix = string.Join(", ", types.OrderByDescending(t => t.Value).ThenBy(t => t.Key, StringComparer.Ordinal)
            .Select(t => $"{t.Key} {100.0 * t.Value / Sentences:F1} %"));
        return string.Create(CultureInfo.InvariantCulture, $"""
            # Bytes to typed messages

            {Machine.Processor()}; {Machine.Runtime()}.
            One core, best of {Rounds} rounds; floor and decoder alternate in one run. {Sentences} sentences,
            {length / 1e6:F1} MB, from the bundled receivers' recordings:
            {mix}.

            | pass | million sentences a second | nanoseconds a sentence |
            |---|---|---|
            | floor: `IndexOf` of the line end, scalar XOR of the body | {Sentences / floor / 1e6:F1} | {floor * 1e3:F0} |
            | framing, checksum, all fields, one buffer | {Sentences / decode / 1e6:F1} | {decode * 1e3:F0} |
            | the same in pieces of 4096 bytes | {Sentences / chunked / 1e6:F1} | {chunked * 1e3:F0} |

            Ratio to the floor: 1:{decode / floor:F2}. Allocated in a whole pass: {allocated} bytes (the stream itself).

            """);
    }

    private static double Seconds(Action pass)
    {
        long start = Stopwatch.GetTimestamp();
        pass();
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    private static Counter Decode(byte[] bytes, int chunk)
    {
        var sink = new Counter();
        var stream = new SentenceStream(new SourceId("radio1"), allowNoChecksum: false);
        for (int at = 0; at < bytes.Length; at += chunk)
            stream.Push(new Instant(at), bytes.AsSpan(at, Math.Min(chunk, bytes.Length - at)), ref sink);
        return sink;
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

    /// <summary>A million accepted sentences with CRLF, the recordings' own sequence repeated.</summary>
    private static byte[] Mixed(out Dictionary<string, int> types)
    {
        var kept = new Keeper();
        foreach (byte[] log in Machine.ReceiverLogs())
        {
            var stream = new SentenceStream(new SourceId("radio1"), allowNoChecksum: false);
            stream.Push(new Instant(0), log, ref kept);
            stream.Flush(new Instant(0), ref kept);
        }

        types = [];
        using var all = new MemoryStream();
        for (int i = 0; i < Sentences; i++)
        {
            byte[] sentence = kept.Sentences[i % kept.Sentences.Count];
            all.Write(sentence);
            all.Write("\r\n"u8);
            string type = sentence[1] == 'P' ? "P…" : System.Text.Encoding.ASCII.GetString(sentence, 3, 3);
            types[type] = types.GetValueOrDefault(type) + 1;
        }

        return all.ToArray();
    }
}
