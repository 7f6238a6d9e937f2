using System.Text;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Groundstation.Core.Tests.Sentences;
using Xunit;

namespace Groundstation.Published.Nmea;

/// <summary>Properties that must hold for what real receivers send, not only for bytes made up here.</summary>
public sealed class RecordingPropertyTests
{
    private const int Seed = 20260621;

    public static TheoryData<string> Logs => [.. NmeaData.Logs];

    [Fact]
    public void Decoding_allocates_nothing()
    {
        // Both kinds of sink: a struct, for which the calls are direct, and a class, for which they go by interface.
        byte[][] logs = [.. NmeaData.Logs.Select(NmeaData.Bytes)];
        var counting = new CountingSink();
        ISentenceSink boxed = new CountingSink();
        var streams = new[] { false, true }.Select(a => new SentenceStream(new SourceId("radio1"), a)).ToArray();
        void PushAll()
        {
            foreach (var stream in streams)
                foreach (byte[] log in logs)
                    for (int at = 0; at < log.Length; at += 777)
                    {
                        var bytes = log.AsSpan(at, Math.Min(777, log.Length - at));
                        stream.Push(new Instant(at), bytes, ref counting);
                        stream.Push(new Instant(at), bytes, ref boxed);
                    }
        }

        PushAll();
        int before = counting.Accepted;
        long allocated = GC.GetAllocatedBytesForCurrentThread();
        PushAll();
        allocated = GC.GetAllocatedBytesForCurrentThread() - allocated;
        Assert.Equal(0, allocated);
        Assert.True(counting.Accepted - before > 10_000);
    }

    [Theory]
    [MemberData(nameof(Logs))]
    public void Cutting_a_recording_differently_changes_nothing(string log)
    {
        byte[] bytes = NmeaData.Bytes(log);
        var whole = Collector.Of(bytes);
        foreach (int size in new[] { 1, 7, 64, 1000 })
        {
            var sink = new Collector();
            var stream = new SentenceStream(new SourceId("radio1"), false);
            for (int at = 0; at < bytes.Length; at += size)
                stream.Push(new Instant(1), bytes.AsSpan(at, Math.Min(size, bytes.Length - at)), ref sink);
            stream.Flush(new Instant(1), ref sink);
            Assert.Equal(whole.Calls, sink.Calls);
        }
    }

    [Theory]
    [MemberData(nameof(Logs))]
    public void A_flipped_bit_never_gives_another_accepted_sentence(string log)
    {
        // Each line of the recording with a good sentence and the next, with one bit flipped, drawn at random for each.
        var random = new Random(Seed);
        string[] lines = [.. Encoding.Latin1.GetString(NmeaData.Bytes(log)).Split('\n').Take(300)];
        for (int i = 0; i + 1 < lines.Length; i++)
        {
            byte[] bytes = Encoding.Latin1.GetBytes(lines[i] + "\n" + lines[i + 1] + "\n");
            var clean = Collector.Of(bytes);
            // A sentence that is bad to begin with can become good by a flip: that is a repair and proves nothing.
            if (clean.Rejections.Any(r => r.Reason != RejectReason.NotASentence)) continue;
            var allowed = Known(clean);
            for (int n = 0; n < 12; n++)
            {
                int bit = random.Next(bytes.Length * 8);
                bytes[bit / 8] ^= (byte)(1 << (bit % 8));
                var seen = Known(Collector.Of(bytes));
                Assert.True(seen.IsSubsetOf(allowed),
                    $"{log} line {i + 1}, bit {bit}, seed {Seed}: {string.Join(" ", seen.Except(allowed))}");
                bytes[bit / 8] ^= (byte)(1 << (bit % 8));
            }
        }
    }

    [Fact]
    public void Mutated_recordings_throw_nothing_and_cutting_them_changes_nothing() =>
        Assert.Equal(0, Benchmarks.SentenceFuzz.Run(["--bytes", "2000000", "--seed", "20260621"]));

    /// <summary>Accepted sentences; a checksum's digits may change their case, they say the same then.</summary>
    private static HashSet<string> Known(Collector sink) =>
        [.. sink.Accepted.Select(t => t[..^2] + t[^2..].ToUpperInvariant())];

    private struct CountingSink : ISentenceSink
    {
        public int Accepted;

        public readonly void Rejected(in Rejection rejection) { }

        public void Other(in Sentence sentence) => Accepted++;

        public void Gga(in Sentence sentence, in Gga message) => Accepted++;

        public void Rmc(in Sentence sentence, in Rmc message) => Accepted++;

        public void Gll(in Sentence sentence, in Gll message) => Accepted++;

        public void Gns(in Sentence sentence, in Gns message) => Accepted++;

        public void Gsa(in Sentence sentence, in Gsa message) => Accepted++;

        public void Gsv(in Sentence sentence, in Gsv message) => Accepted++;

        public void Vtg(in Sentence sentence, in Vtg message) => Accepted++;

        public void Zda(in Sentence sentence, in Zda message) => Accepted++;

        public void Gst(in Sentence sentence, in Gst message) => Accepted++;

        public void Xdr(in Sentence sentence, in XdrMeasurement measurement) => Accepted++;
    }
}
