using System.Text;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Xunit;

namespace Groundstation.Core.Tests.Sentences;

/// <summary>What holds for any bytes at all. Draws are seeded; the seed stands in every failure's message.</summary>
public sealed class SentencePropertyTests
{
    private const int Seed = 20260621;

    // One of each kind, as receivers send them; the XDR and TXT carry commas, letters and stars that a flipped bit
    // could turn into a start, an end or a checksum.
    private static readonly string[] Valid =
    [
        SentenceWriter.Seal("GNGGA,103412.00,5213.12345,N,00012.34567,W,1,12,0.71,31045.3,M,45.9,M,,"),
        SentenceWriter.Seal("GPRMC,103412.00,A,5213.12345,N,00012.34567,W,022.4,084.4,210626,003.1,W,A,V"),
        SentenceWriter.Seal("GNGLL,5213.12345,N,00012.34567,W,103412.00,A,D"),
        SentenceWriter.Seal("GNGNS,103412.00,5213.12345,N,00012.34567,W,ANN,12,0.71,31045.3,45.9,,,V"),
        SentenceWriter.Seal("GNGSA,A,3,17,28,30,13,19,07,11,15,01,51,,,1.56,0.75,1.37,1"),
        SentenceWriter.Seal("GPGSV,4,4,16,30,40,104,47,40,25,159,32,41,15,129,36,195,,,35,1"),
        SentenceWriter.Seal("GPVTG,103.85,T,92.79,M,0.14,N,0.25,K,A"),
        SentenceWriter.Seal("GPZDA,103412.00,21,06,2026,+00,00"),
        SentenceWriter.Seal("GNGST,103412.000,6.1,4.0,4.0,61.0,4.6,4.4,4.8"),
        SentenceWriter.Seal("YXXDR,C,-41.3,C,TEMP,P,0.0123,B,BARO,U,7.41,V,BATT"),
        SentenceWriter.Seal("GPTXT,01,01,02,temp ^2D41 4*5A ABC,DEFGH*41"),
        SentenceWriter.Seal("PUBX,00,103412.00,5213.12345,N"),
        "!AIVDM,1,1,,A,144e<20P00R:Jg0R@kQkTgv625BT,0*48",
    ];

    /// <summary>Bytes that are mostly pieces of sentences, delimiters and noise, so that every branch is met.</summary>
    private static byte[] Soup(Random random)
    {
        var soup = new List<byte>();
        for (int n = random.Next(30); n > 0; n--)
        {
            string sentence = Valid[random.Next(Valid.Length)];
            switch (random.Next(8))
            {
                case 0:
                    for (int k = random.Next(30); k > 0; k--) soup.Add((byte)random.Next(256));
                    break;
                case 1:
                    for (int k = random.Next(8); k > 0; k--) soup.Add("$!\\*,\r\n#^\0"u8[random.Next(10)]);
                    break;
                case 2:
                    soup.AddRange(Encoding.Latin1.GetBytes(sentence[..random.Next(sentence.Length)]));
                    break;
                case 3:
                    soup.AddRange(Enumerable.Repeat((byte)random.Next(256), random.Next(2200)));
                    break;
                case 4:
                    soup.AddRange(Encoding.Latin1.GetBytes(
                        SentenceWriter.Tag(new SourceId("radio1"), new Instant(random.NextInt64(1L << 50)))));
                    break;
                default:
                    soup.AddRange(Encoding.Latin1.GetBytes(sentence));
                    if (random.Next(6) > 0) soup.AddRange("\r\n"u8);
                    break;
            }
        }

        return [.. soup];
    }

    [Fact]
    public void Any_bytes_are_taken_and_all_of_them_accounted_for()
    {
        for (int seed = Seed; seed < Seed + 1500; seed++)
        {
            var random = new Random(seed);
            string text = Encoding.Latin1.GetString(Soup(random));
            var sink = Collector.Of(text, allowNoChecksum: random.Next(2) == 0);
            int at = 0;
            foreach (var piece in sink.Pieces)
            {
                string whole = piece.Tag.Length > 0 ? $"\\{piece.Tag}\\" : "";
                at = Skip(text, at, whole + piece.Bytes, whole.Length, seed);
            }

            Assert.True(text.AsSpan(at).TrimStart("\r\n$!").IsEmpty, $"seed {seed}: bytes left over at {at}");
        }
    }

    /// <summary>
    /// Goes on to behind the next piece; only line ends, repeated starts and a relay's TAG block may be passed.
    /// </summary>
    private static int Skip(string text, int at, string piece, int tagLength, int seed)
    {
        while (true)
        {
            if (text.AsSpan(at).StartsWith(piece)) return at + piece.Length;
            // $ between a TAG block and its sentence: \…\$$GPGGA
            if (tagLength > 0 && text.AsSpan(at).StartsWith(piece.AsSpan(0, tagLength)))
            {
                int behind = at + tagLength;
                while (behind < text.Length && text[behind] is '$' or '!'
                    && !text.AsSpan(behind).StartsWith(piece.AsSpan(tagLength)))
                    behind++;
                if (text.AsSpan(behind).StartsWith(piece.AsSpan(tagLength))) return behind + piece.Length - tagLength;
            }

            bool block = TagBlock.TryRead(Encoding.Latin1.GetBytes(text[at..]), out _, out int length);
            Assert.True(block || (at < text.Length && text[at] is '\r' or '\n' or '$' or '!'),
                $"seed {seed}: byte {at} is in no piece");
            at += block ? length : 1;
        }
    }

    [Fact]
    public void Cutting_the_bytes_differently_changes_only_the_arrival_times()
    {
        for (int seed = Seed; seed < Seed + 1500; seed++)
        {
            var random = new Random(seed);
            byte[] bytes = Soup(random);
            bool allow = random.Next(2) == 0;
            int most = random.Next(2) == 0 ? 3 : 300;
            var ends = new List<int>();
            for (int at = 0; at < bytes.Length; ends.Add(at)) at = Math.Min(bytes.Length, at + 1 + random.Next(most));

            // Byte by byte, a call's arrival time is the index of the byte that completed it; cut coarser, it must be
            // the end of the piece in which that byte lies.
            var expected = Fed(bytes, allow, Enumerable.Range(1, bytes.Length)).Select(call =>
            {
                string[] parts = call.Split(' ', 2);
                int index = int.Parse(parts[0], System.Globalization.CultureInfo.InvariantCulture);
                return $"{ends.First(e => e >= index)} {parts[1]}";
            });
            Assert.True(expected.SequenceEqual(Fed(bytes, allow, ends)), $"seed {seed}");
        }
    }

    private static List<string> Fed(byte[] bytes, bool allow, IEnumerable<int> ends)
    {
        var sink = new Collector();
        var stream = new SentenceStream(new SourceId("radio1"), allow);
        int at = 0;
        foreach (int end in ends)
        {
            stream.Push(new Instant(end), bytes.AsSpan(at, end - at), ref sink);
            at = end;
        }

        stream.Flush(new Instant(bytes.Length), ref sink);
        return sink.Calls;
    }

    [Fact]
    public void A_valid_sentence_behind_any_noise_is_recovered()
    {
        for (int seed = Seed; seed < Seed + 1500; seed++)
        {
            var random = new Random(seed);
            string sentence = Valid[random.Next(Valid.Length)];
            string noise = Encoding.Latin1.GetString(Soup(random));
            var sink = Collector.Of(noise + sentence + "\r\n", allowNoChecksum: random.Next(2) == 0);
            Assert.True(sink.Accepted.Count > 0 && sink.Accepted[^1] == sentence, $"seed {seed}: {sentence} lost");
        }
    }

    [Fact]
    public void A_flipped_bit_never_gives_another_accepted_sentence()
    {
        // Every bit of every kind of sentence, alone, between two others, and glued to them without line end.
        foreach (string sentence in Valid)
            foreach (string ending in new[] { "\r\n", "\n", "" })
            {
                byte[] bytes = Encoding.Latin1.GetBytes(Valid[0] + ending + sentence + ending + Valid[1] + ending);
                var clean = Collector.Of(bytes);
                var allowed = Known(clean);
                for (int bit = 0; bit < bytes.Length * 8; bit++)
                {
                    bytes[bit / 8] ^= (byte)(1 << (bit % 8));
                    var sink = Collector.Of(bytes);
                    Assert.True(Known(sink).IsSubsetOf(allowed), $"{sentence}, bit {bit % 8} of byte {bit / 8}");
                    bytes[bit / 8] ^= (byte)(1 << (bit % 8));
                }
            }
    }

    /// <summary>
    /// Accepted sentences with what they say; a checksum's digits may change their case, they say the same then.
    /// </summary>
    private static HashSet<string> Known(Collector sink) =>
    [
        .. sink.Accepted.Select(t => t[..^2] + t[^2..].ToUpperInvariant()),
        .. sink.Messages.Select(m => m.ToString()!),
    ];
}
