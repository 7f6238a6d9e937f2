using Groundstation.Io.Sources;
using Xunit;

namespace Groundstation.Io.Tests.Sources;

/// <summary>What Windows says of its ports; its numbers stand in winerror.h.</summary>
public class SourceTroubleTests
{
    [Fact]
    public void Windows_port_errors_are_told_in_the_same_plain_words()
    {
        Assert.Equal("absent (no such device)",
            SourceTrouble.Words(new FileNotFoundException("Could not find file 'COM7'.")));
        Assert.Equal("busy (another program has it open)",
            SourceTrouble.Words(new UnauthorizedAccessException("Access to the path 'COM3' is denied.")));
        Assert.Equal("unplugged or not working (input/output error)",
            SourceTrouble.Words(new IOException("The device does not recognize the command.", unchecked((int)0x80070016))));
        Assert.Equal("unplugged or not working (input/output error)",
            SourceTrouble.Words(new IOException("A device is not functioning.", unchecked((int)0x8007001F))));
        Assert.Equal("not a serial port (Windows calls them COM1, COM2 …)",
            SourceTrouble.Words(new ArgumentException("The given port name (/dev/ttyUSB0) is invalid.", "portName")));
    }
}
