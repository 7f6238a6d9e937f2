using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Groundstation.Core.Tests.Sentences;
using Xunit;
using static Groundstation.Published.Nmea.HostileTable;

namespace Groundstation.Published.Nmea;

/// <summary>Rows of hostile.tsv on where a sentence begins and ends, its line end, checksum and TAG block.</summary>
public sealed class HostileFramingTests
{
    private const string Good = "$GPGLL,4916.45,N,12311.12,W,225444.12,A,*30";

    [Fact]
    [HostileRow("dollar-twice")]
    public void A_doubled_start_is_one_start()
    {
        var sink = Feed("dollar-twice");
        Assert.Equal(7, sink.Only<Gsa>().SatelliteCount);
        Assert.Empty(sink.Rejections);
    }

    [Fact]
    [HostileRow("glued-no-newline")]
    public void Two_sentences_without_line_end_between_are_two()
    {
        var sink = Feed("glued-no-newline");
        Assert.Collection(sink.Messages,
            m => Assert.Equal(FixDimension.None, Assert.IsType<Gsa>(m).Dimension),
            m => Assert.Equal('V', Assert.IsType<Rmc>(m).Status));
        Assert.Empty(sink.Rejections);
    }

    [Fact]
    [HostileRow("truncated-then-glued")]
    public void A_stump_is_counted_and_the_sentence_behind_it_read()
    {
        var sink = Feed("truncated-then-glued");
        Assert.Equal([(RejectReason.Truncated, "$GPGGA,030130")], sink.Rejections);
        Assert.Equal(26 + (38.1728 / 60), sink.Only<Gll>().LatitudeDeg!.Value, 1e-12);
    }

    [Fact]
    [HostileRow("nul-run")]
    [HostileRow("escape-codes-in-line")]
    [HostileRow("high-bit-set")]
    public void Bytes_that_are_not_printable_spoil_a_sentence_and_nothing_behind_it()
    {
        string highBit = Good[..20] + (char)(Good[20] | 0x80) + Good[21..];
        foreach (string bad in new[] { Sample("nul-run"), Sample("escape-codes-in-line"), highBit })
        {
            var sink = Collector.Of(bad + Good + "\r\n");
            Assert.Equal([(RejectReason.BadByte, bad)], sink.Rejections);
            Assert.Equal(49 + (16.45 / 60), sink.Only<Gll>().LatitudeDeg!.Value, 1e-12);
        }
    }

    [Fact]
    [HostileRow("ff-noise")]
    public void Noise_in_front_is_rejected_for_itself()
    {
        var sink = Feed("ff-noise");
        Assert.Equal([(RejectReason.NotASentence, "\xff\xff")], sink.Rejections);
        Assert.Equal([Good], sink.Accepted);
    }

    [Fact]
    [HostileRow("binary-between")]
    public void Dollars_and_line_ends_inside_binary_do_not_eat_the_next_sentence()
    {
        // A u-blox NAV-STATUS block, its payload holding $, !, CR, LF, * and a backslash.
        const string Binary = "\xb5\x62\x01\x03\x10\x00$\x01\x02\x03!\r\x0a*\\$GP\x00\x7f\x81\x24";
        var sink = Collector.Of(Good + "\r\n" + Binary + Good + "\r\n" + Binary + Good + "\r\n");
        Assert.Equal([Good, Good, Good], sink.Accepted);
        Assert.Equal(0, sink.Rejections.Count % 2);
        Assert.NotEmpty(sink.Rejections);
    }

    [Fact]
    [HostileRow("wrong-baud-start")]
    public void Garbage_and_half_a_line_at_the_start_cost_no_sentence()
    {
        var sink = Collector.Of("\xe6\x06\x98\x18\x66,1,08,0.9,59.9,M,23.7,M,,0000*7D\r\n" + Good + "\r\n");
        Assert.Equal([Good], sink.Accepted);
        Assert.Equal(RejectReason.NotASentence, Assert.Single(sink.Rejections).Reason);
    }

    [Theory]
    [InlineData("cr-only")]
    [InlineData("lf-only")]
    [InlineData("crcrlf")]
    [HostileRow("cr-only")]
    [HostileRow("lf-only")]
    [HostileRow("crcrlf")]
    public void Every_line_end_ends_a_line_at_once(string id)
    {
        var sink = new Collector();
        var stream = new SentenceStream(new SourceId("radio1"), false);
        stream.Push(new Instant(0), System.Text.Encoding.Latin1.GetBytes(Sample(id)), ref sink);
        Assert.Equal([Good], sink.Accepted);
        Assert.Empty(sink.Rejections);
    }

    [Fact]
    [HostileRow("buffer-never-flushed")]
    public void A_line_without_end_is_dropped_at_the_cap_and_the_next_start_is_read()
    {
        string endless = "$GPGGA," + new string('7', 5000);
        var sink = Collector.Of(endless + Good + "\r\n");
        Assert.Equal([Good], sink.Accepted);
        Assert.Equal(RejectReason.TooLong, sink.Rejections[0].Reason);
        Assert.Equal(endless, string.Concat(sink.Rejections.Select(r => r.Bytes)));
    }

    [Fact]
    [HostileRow("over-82")]
    public void More_than_82_characters_are_accepted()
    {
        var gga = Feed("over-82").Only<Gga>();
        Assert.Equal(FixQuality.RtkFixed, gga.Quality);
        Assert.Equal(280.827, gga.AltitudeMslM);
        Assert.Equal(41 + (34.50180323 / 60), gga.LatitudeDeg!.Value, 1e-12);
    }

    [Fact]
    [HostileRow("tag-block")]
    public void A_TAG_block_is_checked_and_its_time_and_source_are_given()
    {
        var sink = Feed("tag-block");
        Assert.Equal([Good], sink.Accepted);
        Assert.Equal([("r003669945", Instant.FromUnixMilliseconds(1696759211_000))], sink.Tags);
        Assert.Empty(sink.Rejections);
    }

    [Fact]
    [HostileRow("aivdm-start")]
    public void Encapsulation_is_counted_as_not_ours()
    {
        var sink = Feed("aivdm-start");
        Assert.Equal(["AIVDM"], sink.Others);
        Assert.Empty(sink.Messages);
    }

    [Fact]
    [HostileRow("checksum-lower-hex")]
    [HostileRow("checksum-zero")]
    public void Lower_case_and_zero_are_checksums()
    {
        Assert.Equal('V', Feed("checksum-lower-hex").Only<Rmc>().NavigationalStatus);
        Assert.Equal('V', Feed("checksum-zero").Only<Rmc>().Status);
    }

    [Theory]
    [InlineData("checksum-one-digit", RejectReason.MalformedChecksum)]
    [InlineData("checksum-too-long", RejectReason.MalformedChecksum)]
    [InlineData("checksum-space-in", RejectReason.MalformedChecksum)]
    [HostileRow("checksum-one-digit")]
    [HostileRow("checksum-too-long")]
    [HostileRow("checksum-space-in")]
    public void A_checksum_is_exactly_two_digits(string id, RejectReason reason)
    {
        foreach (bool allowed in new[] { false, true })
        {
            var sink = Feed(id, allowed);
            Assert.Empty(sink.Accepted);
            Assert.Equal([(reason, Sample(id))], sink.Rejections);
        }
    }

    [Theory]
    [InlineData("checksum-missing")]
    [InlineData("checksum-star-empty")]
    [HostileRow("checksum-missing")]
    [HostileRow("checksum-star-empty")]
    public void No_checksum_is_accepted_by_setting_only_and_marked(string id)
    {
        Assert.Equal([(RejectReason.NoChecksum, Sample(id))], Feed(id).Rejections);
        var sink = Feed(id, allowNoChecksum: true);
        Assert.Equal([Sample(id)], sink.Unverified);
        Assert.Empty(sink.Rejections);
    }

    [Fact]
    [HostileRow("star-in-body")]
    public void The_checksum_is_behind_the_last_star()
    {
        string text = SentenceWriter.Seal("GPTXT,01,01,02,rated 5*10 and *2A") + "\r\n";
        var sink = Collector.Of(text);
        Assert.Equal(["GPTXT"], sink.Others);
        Assert.Empty(sink.Rejections);
    }

    [Fact]
    [HostileRow("receiver-wrong-checksum")]
    public void A_receiver_whose_checksums_are_wrong_shows_line_by_line()
    {
        var sink = Feed("receiver-wrong-checksum");
        Assert.Equal([(RejectReason.Checksum, Sample("receiver-wrong-checksum"))], sink.Rejections);
        // In the recording the row comes from, 23 lines: each is rejected and none is silent.
        var log = Collector.Of(NmeaData.Bytes("firefly-II.log"));
        Assert.Equal(23, log.Rejections.Count(r => r.Reason == RejectReason.Checksum));
    }

    [Fact]
    [HostileRow("linux-port-stale")]
    [HostileRow("hupcl")]
    [HostileRow("readasync-timeout")]
    public void A_link_that_ends_in_the_middle_leaves_a_stump_and_starts_clean_again()
    {
        // What the port itself does at such a moment is shown with the ports; here: the sentence cut by it.
        var sink = new Collector();
        var stream = new SentenceStream(new SourceId("radio1"), false);
        stream.Push(new Instant(0), "$GPGLL,4916.45,N"u8, ref sink);
        stream.Flush(new Instant(5), ref sink);
        stream.Push(new Instant(9), System.Text.Encoding.Latin1.GetBytes(Good + "\r\n"), ref sink);
        Assert.Equal([(RejectReason.Truncated, "$GPGLL,4916.45,N")], sink.Rejections);
        Assert.Equal([Good], sink.Accepted);
    }
}
