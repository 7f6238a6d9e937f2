using System.Text;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Xunit;

namespace Groundstation.Core.Tests.Sentences;

public sealed class TagBlockTests
{
    /// <summary>A block's text with its checksum.</summary>
    private static byte[] Sealed(string text) => Encoding.Latin1.GetBytes(SentenceWriter.Seal(text)[1..]);

    [Theory]
    [InlineData("c:1782000000", 1782000000_000)]
    [InlineData("c:1782000000123", 1782000000_123)]
    [InlineData("c:0", 0)]
    [InlineData("c:99999999999", 99999999999_000)]
    [InlineData("c:100000000000", 100000000000)]
    public void Time_is_in_seconds_or_milliseconds(string text, long milliseconds)
    {
        Assert.True(TagBlock.TryParse(Sealed(text), out var tag));
        Assert.Equal(Instant.FromUnixMilliseconds(milliseconds), tag.Time);
    }

    [Fact]
    public void All_parameters_are_read_and_unknown_ones_passed_over()
    {
        Assert.True(TagBlock.TryParse(Sealed("g:2-3-1234,s:r003669945,n:157,d:x,t:a b,z:9,c:1696759211"), out var tag));
        Assert.Equal("r003669945", Encoding.ASCII.GetString(tag.Source));
        Assert.Equal(157, tag.LineCount);
        Assert.Equal(new TagGroup(2, 3, 1234), tag.Group);
        Assert.Equal(Instant.FromUnixMilliseconds(1696759211_000), tag.Time);
    }

    [Theory]
    [InlineData("c:17820000x")]
    [InlineData("c:")]
    [InlineData("c:-5")]
    [InlineData("c:999999999999999")]
    [InlineData("s:")]
    [InlineData("n:x")]
    [InlineData("g:1-2")]
    [InlineData("g:1--2")]
    [InlineData("nonsense")]
    [InlineData("s:a,,c:1")]
    public void Damage_within_a_good_checksum_is_damage(string text) =>
        Assert.False(TagBlock.TryParse(Sealed(text), out _));

    [Fact]
    public void A_written_block_reads_back_and_tells_where_the_sentence_starts()
    {
        var at = Instant.FromUnixMilliseconds(1782000000123);
        string line = SentenceWriter.Tag(new SourceId("radio1"), at) + "$GPGLL,1";
        Assert.True(TagBlock.TryRead(Encoding.ASCII.GetBytes(line), out var tag, out int length));
        Assert.Equal("$GPGLL,1", line[length..]);
        Assert.Equal(("radio1", at), (Encoding.ASCII.GetString(tag.Source), tag.Time!.Value));
    }

    [Theory]
    [InlineData("")]
    [InlineData("\\")]
    [InlineData("\\s:a*00\\")]
    [InlineData("\\\\")]
    [InlineData("$GPGLL,1")]
    public void What_is_no_block_is_not_read(string line) =>
        Assert.False(TagBlock.TryRead(Encoding.ASCII.GetBytes(line), out _, out _));
}
