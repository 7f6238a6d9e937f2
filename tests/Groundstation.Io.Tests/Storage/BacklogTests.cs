using Groundstation.Io.Storage;
using Xunit;

namespace Groundstation.Io.Tests.Storage;

/// <summary>What waits in memory while a disk takes nothing: <c>/dev/full</c> is such a one.</summary>
public class BacklogTests
{
    [Fact]
    public void The_beginning_is_never_given_up_and_after_the_first_dropped_piece_nothing_more_is_kept()
    {
        if (!File.Exists("/dev/full")) Assert.Skip("needs /dev/full");
        using AppendFile file = new("/dev/full", fresh: false, writeThrough: true);
        byte[] piece = new byte[1 << 20];
        for (int i = 0; i < 15; i++) file.Append(piece);
        Assert.Equal("no space left on the disk", file.Trouble);
        Assert.Equal(0, file.Dropped);
        file.Append(new byte[(1 << 20) - 10]);
        Assert.Equal(0, file.Dropped);
        file.Append(new byte[11]);
        Assert.Equal(11, file.Dropped);
        // There would be room for these, but a hole in the middle would be worse than an end.
        file.Append(new byte[5]);
        Assert.Equal(16, file.Dropped);
        Assert.Equal((16 << 20) - 10, file.Length);
    }
}
