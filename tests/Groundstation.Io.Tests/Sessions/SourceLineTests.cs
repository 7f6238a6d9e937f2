using Groundstation.Core.Quantities;
using Groundstation.Io.Sessions;
using Xunit;

namespace Groundstation.Io.Tests.Sessions;

/// <summary>When a stretch that has no line end yet is recorded all the same.</summary>
public class SourceLineTests
{
    private static readonly Instant _start = Instant.FromUnixMilliseconds(1_782_000_000_000);

    [Fact]
    public void After_half_a_second_without_a_byte()
    {
        SourceLine line = new(new("radio1"));
        Assert.Null(line.Due);
        line.Take("$GPGGA"u8, _start, out _);
        Assert.Equal(0.5, line.Due!.Value.SecondsSince(_start));
        line.Take(",1\r\n"u8, _start.PlusSeconds(0.1), out ReadOnlyMemory<byte> piece);
        Assert.Equal(10, piece.Length);
        Assert.Null(line.Due);
    }

    [Fact]
    public void And_after_nine_tenths_of_one_from_a_sender_that_never_ends_a_line()
    {
        SourceLine line = new(new("radio1"));
        for (double s = 0; s < 2; s += 0.3) line.Take("x"u8, _start.PlusSeconds(s), out _);
        Assert.Equal(0.9, line.Due!.Value.SecondsSince(_start));
    }
}
