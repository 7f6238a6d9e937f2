using System.IO.Pipes;
using Groundstation.Io.Storage;
using Xunit;

namespace Groundstation.Io.Tests.Storage;

public class SmallFileTests
{
    // As a shell hands over what another program writes: groundstation plan <(program).
    [Fact]
    public void A_pipe_is_read_like_a_file_and_no_farther_than_the_largest_size()
    {
        if (!OperatingSystem.IsLinux())
            Assert.Skip("needs /proc");
        using AnonymousPipeServerStream pipe = new(PipeDirection.Out);
        string path = $"/proc/self/fd/{pipe.GetClientHandleAsString()}";
        pipe.Write("a plan"u8);
        using (FileStream end = File.OpenRead(path))
        {
            pipe.DisposeLocalCopyOfClientHandle();
            pipe.Dispose();
            Assert.Equal("a plan", SmallFile.Text($"/proc/self/fd/{end.SafeFileHandle.DangerousGetHandle()}", 6));
        }

        Assert.Null(SmallFile.Read("/dev/zero", 1000));
    }
}
