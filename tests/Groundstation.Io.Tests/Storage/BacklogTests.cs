using Groundstation.Io.Storage;
using Xunit;

namespace Groundstation.Io.Tests.Storage;

/// <summary>What waits in memory while a disk takes nothing: <c>/dev/full</c> is such a one.</summary>
public sealed class BacklogTests : IDisposable
{
    private const int Mebi = 1 << 20;
    private readonly TempFolder _temp = new();

    public BacklogTests()
    {
        if (!File.Exists("/dev/full"))
            Assert.Skip("needs /dev/full");
        File.CreateSymbolicLink(_temp["stick"], "/dev/full");
    }

    public void Dispose() => _temp.Dispose();

    [Fact]
    public void The_beginning_is_never_given_up_and_after_the_first_dropped_piece_nothing_more_is_kept()
    {
        using AppendFile file = new(_temp["stick"], fresh: false, writeThrough: true);
        for (int i = 0; i < 15; i++) file.Append(new byte[Mebi]);
        Assert.Equal("no space left on the disk", file.Trouble);
        Assert.Equal(0, file.Dropped);
        file.Append(new byte[Mebi - 10]);
        Assert.Equal(0, file.Dropped);
        file.Append(new byte[11]);
        Assert.Equal(11, file.Dropped);
        // There would be room for these, but one hole is better than many.
        file.Append(new byte[5]);
        Assert.Equal(16, file.Dropped);
        Assert.Equal(16 * Mebi - 10, file.Length);
    }

    [Fact]
    public void A_stick_that_is_there_again_takes_what_waited_and_what_comes_and_the_loss_is_told_once()
    {
        using AppendFile file = new(_temp["stick"], fresh: false, writeThrough: true);
        for (int i = 0; i < 16; i++) file.Append(new byte[Mebi]);
        file.Append("lost"u8);
        file.Look();
        Assert.Equal("no space left on the disk", file.Trouble);
        Assert.Equal("", file.TakeMishap());

        File.Delete(_temp["stick"]);
        File.WriteAllText(_temp["stick"], "");
        file.Look();
        Assert.Equal("", file.Trouble);
        Assert.Contains("4 bytes are lost", file.TakeMishap(), StringComparison.Ordinal);
        Assert.Equal("", file.TakeMishap());
        file.Append("as before"u8);
        Assert.Equal("as before"u8, File.ReadAllBytes(_temp["stick"]).AsSpan(16 * Mebi));
        Assert.Equal(0, file.Dropped);
    }
}
