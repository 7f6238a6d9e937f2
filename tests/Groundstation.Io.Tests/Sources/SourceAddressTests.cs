using Groundstation.Io.Sources;
using Xunit;

namespace Groundstation.Io.Tests.Sources;

/// <summary>What a user may type behind <c>--from</c>.</summary>
public sealed class SourceAddressTests
{
    [Theory]
    [InlineData("serial:/dev/ttyUSB0", "serial:/dev/ttyUSB0@9600")]
    [InlineData("serial:/dev/ttyUSB0@4800", "serial:/dev/ttyUSB0@4800")]
    [InlineData("serial:COM12@4800", "serial:COM12@4800")]
    [InlineData("serial:/dev/serial/by-id/usb-a@b@115200", "serial:/dev/serial/by-id/usb-a@b@115200")]
    [InlineData("serial:COM3", "serial:COM3@9600")]
    [InlineData("serial:auto", "serial:auto")]
    [InlineData("tcp:192.168.4.1:2000", "tcp:192.168.4.1:2000")]
    [InlineData("tcp:radio.local:2000", "tcp:radio.local:2000")]
    [InlineData("tcp:[fe80::1]:2000", "tcp:[fe80::1]:2000")]
    [InlineData("udp:10110", "udp:10110")]
    [InlineData("udp:0.0.0.0:10110", "udp:0.0.0.0:10110")]
    [InlineData("udp:[::]:10110", "udp:[::]:10110")]
    [InlineData("-", "-")]
    public void A_good_address_is_read_and_shown_as_it_could_be_typed(string typed, string shown)
    {
        SourceAddress address = SourceAddress.Parse(typed);
        Assert.Equal(shown, address.ToString());
        Assert.Equal(address, SourceAddress.Parse(shown));
    }

    [Fact]
    public void UDP_listens_on_this_computer_only_unless_told_otherwise() =>
        Assert.Equal(new UdpAddress(System.Net.IPAddress.Loopback, 10110), SourceAddress.Parse("udp:10110"));

    [Theory]
    [InlineData("", "serial:DEVICE[@BAUD]")]
    [InlineData("/dev/ttyUSB0", "serial:DEVICE[@BAUD]")]
    [InlineData("usb:1", "serial:DEVICE[@BAUD]")]
    [InlineData("serial:", "serial:DEVICE[@BAUD]")]
    [InlineData("serial:@9600", "serial:DEVICE[@BAUD]")]
    [InlineData("serial:/dev/ttyUSB0@fast", "baud rate")]
    [InlineData("serial:/dev/ttyUSB0@", "baud rate")]
    [InlineData("serial:/dev/ttyUSB0@99999999", "baud rate")]
    [InlineData("serial:/dev/ttyUSB0@-9600", "baud rate")]
    [InlineData("tcp:host", "tcp:HOST:PORT")]
    [InlineData("tcp::2000", "tcp:HOST:PORT")]
    [InlineData("tcp:host:0", "PORT")]
    [InlineData("tcp:host:65536", "PORT")]
    [InlineData("tcp:fe80::1:2000", "brackets")]
    [InlineData("tcp:a b:1", "HOST")]
    [InlineData("udp:", "udp:PORT")]
    [InlineData("udp:99999", "udp:PORT")]
    [InlineData("udp:host:10110", "IP addresses")]
    [InlineData("serial:/dev/\u001b[31m", "serial:DEVICE[@BAUD]")]
    public void A_bad_address_gives_one_line_that_says_what_is_allowed(string typed, string allowed)
    {
        string message = Assert.Throws<UserErrorException>(() => SourceAddress.Parse(typed)).Message;
        Assert.Contains(allowed, message, StringComparison.Ordinal);
        Assert.DoesNotContain(message, char.IsControl);
    }
}
