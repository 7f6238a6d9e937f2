using System.Text;
using Groundstation.Core.Sentences;
using Xunit;

namespace Groundstation.Core.Tests.Sentences;

public sealed class WritingTests
{
    // A widely published example, from memory.
    private const string Known = "$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47";

    [Fact]
    public void A_sealed_sentence_has_the_published_checksum()
    {
        Assert.Equal(Known, SentenceWriter.Seal(Known[1..^3]));
        Span<byte> room = stackalloc byte[100];
        int length = SentenceWriter.Seal(Encoding.ASCII.GetBytes(Known[1..^3]), room);
        Assert.Equal(Known, Encoding.ASCII.GetString(room[..length]));
    }

    [Theory]
    [InlineData("GPTXT,01,01,02,one\r\n$two")]
    [InlineData("GPTXT,01,01,02,bell\a")]
    [InlineData("GPTXT,01,01,02,caf\u00e9")]
    public void What_would_not_read_back_as_one_sentence_is_refused(string body)
    {
        Assert.Throws<ArgumentException>(() => SentenceWriter.Seal(body));
        Assert.Throws<ArgumentException>(() => SentenceWriter.Seal(Encoding.Latin1.GetBytes(body), new byte[100]));
    }

    [Theory]
    [InlineData("$GPGLL,1*00", 80, "$GPGLL,1*00")]
    [InlineData("a\e[2Jb\r\n\0\u00ff^", 80, "a^1B[2Jb^0D^0A^00^FF^5E")]
    [InlineData("abcdef", 6, "abcdef")]
    [InlineData("abcdefg", 6, "abcde…")]
    [InlineData("abc\e\e", 6, "abc…")]
    [InlineData("ab\eg", 6, "ab^1Bg")]
    [InlineData("\e\e", 1, "…")]
    [InlineData("", 1, "")]
    public void Received_bytes_become_printable_and_fit(string bytes, int max, string text) =>
        Assert.Equal(text, Printable.Text(Encoding.Latin1.GetBytes(bytes), max));
}
