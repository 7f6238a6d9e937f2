using System.Text;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Xunit;

namespace Groundstation.Core.Tests.Sentences;

public sealed class SentenceStreamTests
{
    private const string Gga = "$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47";
    private const string Rmc = "$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A";

    private static byte[] Bytes(string text) => Encoding.Latin1.GetBytes(text);

    [Fact]
    public void A_sentence_is_given_at_the_first_byte_of_its_line_end_and_not_before()
    {
        var sink = new Collector();
        var stream = new SentenceStream(new SourceId("radio1"), false);
        stream.Push(new Instant(1), Bytes(Gga), ref sink);
        Assert.Empty(sink.Calls);
        stream.Push(new Instant(2), "\r"u8, ref sink);
        Assert.StartsWith("2 $GPGGA", Assert.Single(sink.Calls), StringComparison.Ordinal);
        stream.Push(new Instant(3), "\n"u8, ref sink);
        Assert.Single(sink.Calls);
    }

    [Fact]
    public void Source_and_arrival_time_reach_sentences_and_rejections()
    {
        var sink = new HeaderSink();
        var stream = new SentenceStream(SourceId.Chase, false);
        stream.Push(new Instant(7), Bytes("noise\r\n" + Gga + "\n"), ref sink);
        Assert.Equal(["rejected chase 7", "GPGGA chase 7 verified"], sink.Lines);
    }

    [Fact]
    public void A_class_a_struct_and_a_ref_struct_can_be_the_sink()
    {
        int count = 0;
        var sink = new CountingSink(ref count);
        new SentenceStream(new SourceId("radio1"), false)
            .Push(new Instant(0), Bytes(Gga + "\n" + Rmc + "\n"), ref sink);
        Assert.Equal(2, count);
    }

    [Fact]
    public void At_the_end_a_whole_sentence_is_accepted_and_a_stump_is_truncated()
    {
        Assert.Equal([Gga], Collector.Of(Gga).Accepted);
        Assert.Equal([(RejectReason.Truncated, Gga[..^1])], Collector.Of(Gga[..^1]).Rejections);
        Assert.Equal([(RejectReason.Truncated, "$")], Collector.Of("$").Rejections);
        // With checksums waived, a stump at the end is still a stump: nothing says that it was whole.
        Assert.Equal([(RejectReason.Truncated, "$GPGGA,1235")], Collector.Of("$GPGGA,1235", true).Rejections);
    }

    [Fact]
    public void Comments_in_a_log_do_no_harm_whatever_they_quote()
    {
        string log = "# Notes: $GLGSV for GLONASS, and $GPGSV, $GPGGA,\r\n# $GPTXT,01,01,02,hello\r\n" + Gga + "\r\n";
        foreach (bool allow in new[] { false, true })
        {
            var sink = Collector.Of(log, allow);
            Assert.Equal([Gga], sink.Accepted);
            Assert.All(sink.Rejections, r => Assert.Equal(RejectReason.NotASentence, r.Reason));
        }

        // Yet noise can begin with # as well: what has its checksum is a sentence.
        Assert.Equal([Gga], Collector.Of("#\xff" + Gga + "\r\n").Accepted);
    }

    [Theory]
    [InlineData("$GPGGA,1235\r\n", RejectReason.Truncated)]
    [InlineData("$GNRMC,001053.00,A,4404.14083,N,12118.85886,W,0.\r\n", RejectReason.Truncated)]
    [InlineData("$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,\r\n", RejectReason.NoChecksum)]
    [InlineData("$STI,IC,error=4\r\n", RejectReason.NoChecksum)]
    [InlineData("$\r\n", RejectReason.NoChecksum)]
    [InlineData("$GPGGA,1235$", RejectReason.Truncated)]
    [InlineData("$GPGGA,1235*4$", RejectReason.Truncated)]
    [InlineData("$GPGGA,1235*\n", RejectReason.NoChecksum)]
    [InlineData("$GPGGA,1235*4\n", RejectReason.MalformedChecksum)]
    [InlineData("$GPGGA,1235*4G\n", RejectReason.MalformedChecksum)]
    [InlineData("$GPGGA,1235*471\n", RejectReason.MalformedChecksum)]
    [InlineData("$GPGGA,1235*00\n", RejectReason.Checksum)]
    [InlineData("$gpgga,1*60\n", RejectReason.Checksum)]
    [InlineData("$*00\n", RejectReason.BadAddress)]
    [InlineData("$GP,1*0A\n", RejectReason.BadAddress)]
    [InlineData("$GPGGA\t,1*00\n", RejectReason.BadByte)]
    [InlineData("hello\n", RejectReason.NotASentence)]
    [InlineData("\\s:x*00\\$GPGGA,1\n", RejectReason.TagBlock)]
    [InlineData("\\s:x$GPGGA,1\n", RejectReason.TagBlock)]
    public void Each_fault_has_its_own_reason(string text, RejectReason reason) =>
        Assert.Equal(reason, Collector.Of(text).Rejections[0].Reason);

    [Fact]
    public void Noise_behind_the_checksum_in_place_of_the_line_end_costs_no_sentence()
    {
        var sink = Collector.Of(Gga + "\0\xff\xff" + Rmc + "\r\n");
        Assert.Equal([Gga, Rmc], sink.Accepted);
        Assert.Equal([(RejectReason.NotASentence, "\0\xff\xff")], sink.Rejections);
    }

    [Fact]
    public void A_line_of_1024_bytes_is_looked_at_and_one_of_1025_is_not()
    {
        string body = "GPTXT,01,01,02," + new string('x', 1024 - 4 - 15);
        string longest = SentenceWriter.Seal(body);
        Assert.Equal(1024, longest.Length);
        Assert.Equal([longest], Collector.Of(longest + "\r\n").Accepted);
        string over = SentenceWriter.Seal(body + "x");
        Assert.Equal([(RejectReason.TooLong, over[..1024]), (RejectReason.NotASentence, over[1024..])],
            Collector.Of(over + "\r\n").Rejections);
    }

    [Fact]
    public void A_damaged_TAG_block_is_rejected_and_the_sentence_behind_it_accepted()
    {
        var sink = Collector.Of("\\s:radio1,c:1782000000123*00\\" + Gga + "\r\n");
        Assert.Equal([(RejectReason.TagBlock, "\\s:radio1,c:1782000000123*00\\")], sink.Rejections);
        Assert.Equal([Gga], sink.Accepted);
        Assert.Equal([("", null)], sink.Tags);
    }

    [Fact]
    public void A_TAG_block_belongs_to_its_own_sentence_only()
    {
        string tag = SentenceWriter.Tag(new SourceId("radio2"), Instant.FromUnixMilliseconds(1782000000123));
        var sink = Collector.Of("\xff" + tag + Gga + "\r\n" + Rmc + "\r\n" + tag + "$" + Gga + Rmc + "\r\n" + tag
            + "\r\n" + Gga + "\n");
        var tagged = ("radio2", (Instant?)Instant.FromUnixMilliseconds(1782000000123));
        Assert.Equal([Gga, Rmc, Gga, Rmc, Gga], sink.Accepted);
        Assert.Equal([tagged, ("", null), tagged, ("", null), ("", null)], sink.Tags);
        Assert.Equal([(RejectReason.NotASentence, "\xff"), (RejectReason.NotASentence, tag)], sink.Rejections);
    }

    [Fact]
    public void A_rejected_sentence_keeps_its_TAG_block()
    {
        string tag = SentenceWriter.Tag(new SourceId("radio2"), Instant.FromUnixMilliseconds(1782000000123));
        var sink = Collector.Of(tag + Gga[..^1] + "0\r\n");
        Assert.Equal([(tag[1..^1], Gga[..^1] + "0")], sink.Pieces);
    }

    private struct HeaderSink : ISentenceSink
    {
        public HeaderSink()
        {
        }

        public List<string> Lines { get; } = [];

        public readonly void Rejected(in Rejection r) => Lines.Add($"rejected {r.Source} {r.Heard.Ticks}");

        public readonly void Other(in Sentence sentence) => Add(sentence);

        public readonly void Gga(in Sentence sentence, in Gga message) => Add(sentence);

        public readonly void Rmc(in Sentence sentence, in Rmc message) => Add(sentence);

        public readonly void Gll(in Sentence sentence, in Gll message) => Add(sentence);

        public readonly void Gns(in Sentence sentence, in Gns message) => Add(sentence);

        public readonly void Gsa(in Sentence sentence, in Gsa message) => Add(sentence);

        public readonly void Gsv(in Sentence sentence, in Gsv message) => Add(sentence);

        public readonly void Vtg(in Sentence sentence, in Vtg message) => Add(sentence);

        public readonly void Zda(in Sentence sentence, in Zda message) => Add(sentence);

        public readonly void Gst(in Sentence sentence, in Gst message) => Add(sentence);

        public readonly void Xdr(in Sentence sentence, in XdrMeasurement measurement) => Add(sentence);

        private readonly void Add(in Sentence s) =>
            Lines.Add($"{Encoding.ASCII.GetString(s.Address)} {s.Source} {s.Heard.Ticks} "
                + (s.Verified ? "verified" : "not"));
    }

    private readonly ref struct CountingSink(ref int count) : ISentenceSink
    {
        private readonly ref int _count = ref count;

        public void Rejected(in Rejection rejection) { }

        public void Other(in Sentence sentence) => _count++;

        public void Gga(in Sentence sentence, in Gga message) => _count++;

        public void Rmc(in Sentence sentence, in Rmc message) => _count++;

        public void Gll(in Sentence sentence, in Gll message) => _count++;

        public void Gns(in Sentence sentence, in Gns message) => _count++;

        public void Gsa(in Sentence sentence, in Gsa message) => _count++;

        public void Gsv(in Sentence sentence, in Gsv message) => _count++;

        public void Vtg(in Sentence sentence, in Vtg message) => _count++;

        public void Zda(in Sentence sentence, in Zda message) => _count++;

        public void Gst(in Sentence sentence, in Gst message) => _count++;

        public void Xdr(in Sentence sentence, in XdrMeasurement measurement) => _count++;
    }
}
