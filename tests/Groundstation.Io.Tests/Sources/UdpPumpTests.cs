using System.Net;
using System.Net.Sockets;
using Groundstation.Core.Receive;
using Groundstation.Io.Sources;
using Xunit;

namespace Groundstation.Io.Tests.Sources;

/// <summary>Datagrams.</summary>
public sealed class UdpPumpTests : PumpTests
{
    [Fact]
    public async Task UDP_datagrams_come_on_this_computer_and_an_empty_one_is_no_end()
    {
        int port = FreeUdpPort();
        Task pump = Start($"udp:{port}");
        await Heard.State(LinkState.Up, Limit);
        using UdpClient sender = new();
        IPEndPoint to = new(IPAddress.Loopback, port);
        await sender.SendAsync(Bytes.Of("a\r\n"), to, Limit);
        await sender.SendAsync(Array.Empty<byte>(), to, Limit);
        await sender.SendAsync(Bytes.Of(new string('b', 20_000)), to, Limit);
        await Heard.Text("a\r\n" + new string('b', 20_000), Limit);
        await Ends(pump);
    }

    [Fact]
    public async Task A_UDP_port_in_use_is_called_busy()
    {
        using UdpClient holder = new(new IPEndPoint(IPAddress.Loopback, 0));
        Task pump = Start($"udp:{((IPEndPoint)holder.Client.LocalEndPoint!).Port}");
        await Heard.Said("Opening busy (another program listens on that port)", Limit);
        await Ends(pump);
    }

    private static int FreeUdpPort()
    {
        using UdpClient probe = new(new IPEndPoint(IPAddress.Loopback, 0));
        return ((IPEndPoint)probe.Client.LocalEndPoint!).Port;
    }
}
