using System.IO.Ports;
using System.Net;
using System.Net.Sockets;

namespace Groundstation.Io.Sources;

/// <summary>
/// Ways to open each kind of source. Each throws when it cannot; <see cref="SourcePump"/> tries again.
/// </summary>
internal static class Openers
{
    /// <summary>
    /// A half-open connection is found after 10 s of silence and 3 unanswered probes, 2 s apart: well before the
    /// next question is where the balloon is, and a few bytes a minute on a mobile link.
    /// </summary>
    private const int KeepAliveAfterS = 10, KeepAliveEveryS = 2, KeepAliveProbes = 3;

    /// <summary>Opens a serial port.</summary>
    public static async Task<OpenedSource> Serial(string device, int baud, CancellationToken stop) =>
        Opened(device, await Port(device, baud, stop).ConfigureAwait(false));

    /// <summary>A source over a port that is open.</summary>
    public static OpenedSource Opened(string device, SerialPort port)
    {
        Stream stream = port.BaseStream;
        string target = Target(device);
        bool named = OperatingSystem.IsWindows() && IsNamed(device);
        return new OpenedSource(
            buffer => stream.ReadAsync(buffer, CancellationToken.None).AsTask(),
            port.Dispose,
            // An unplugged USB port may stay open and silent for ever: only its node tells, on Windows the list of ports.
            () => (OperatingSystem.IsWindows() ? !named || IsNamed(device)
                : File.Exists(device) && Target(device) == target) ? null : "unplugged (device gone)")
        {
            Detail = FormattableString.Invariant($"{device} at {port.BaudRate} Bd"),
        };
    }

    /// <summary>Opens the port itself. Opening cannot be cancelled, so it runs on a thread of its own.</summary>
    public static async Task<SerialPort> Port(string device, int baud, CancellationToken stop)
    {
        if (!OperatingSystem.IsWindows() && !File.Exists(device))
            throw new SourceTroubleException("absent (no such device)");
        Task<SerialPort> opening = Task.Run(() => Open(device, baud), CancellationToken.None);
        try
        {
            return await opening.WaitAsync(stop).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            // It may still succeed later: then nobody wants it.
            _ = opening.ContinueWith(static late =>
            {
                if (late.IsCompletedSuccessfully)
                    late.Result.Dispose();
                else
                    _ = late.Exception;
            }, TaskScheduler.Default);
            throw;
        }
    }

    /// <summary>Connects to a TCP server.</summary>
    public static async Task<OpenedSource> Tcp(TcpAddress address, CancellationToken stop)
    {
        Socket socket = new(SocketType.Stream, ProtocolType.Tcp);
        try
        {
            KeepAlive(socket);
            await socket.ConnectAsync(address.Host, address.Port, stop).ConfigureAwait(false);
            return new OpenedSource(buffer => socket.ReceiveAsync(buffer, SocketFlags.None).AsTask(), socket.Dispose)
            {
                Detail = Told(socket.RemoteEndPoint),
            };
        }
        catch
        {
            socket.Dispose();
            throw;
        }
    }

    /// <summary>
    /// Asks for the probes. A system that does not know these settings (Windows before 10 1709) goes by its own two hours;
    /// after a minute of silence the connection is made anew all the same.
    /// </summary>
    private static void KeepAlive(Socket socket)
    {
        socket.SetSocketOption(SocketOptionLevel.Socket, SocketOptionName.KeepAlive, true);
        try
        {
            socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveTime, KeepAliveAfterS);
            socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveInterval, KeepAliveEveryS);
            socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveRetryCount, KeepAliveProbes);
        }
        catch (SocketException)
        {
            // The connection is as good without.
        }
    }

    /// <summary>The other end as a user would type it: a socket for both families maps IPv4 into IPv6.</summary>
    private static string Told(EndPoint? end) => end is IPEndPoint { Address.IsIPv4MappedToIPv6: true } mapped
        ? new IPEndPoint(mapped.Address.MapToIPv4(), mapped.Port).ToString() : end?.ToString() ?? "";

    /// <summary>Listens for datagrams. One of length zero says nothing and is no end.</summary>
    public static OpenedSource Udp(UdpAddress address)
    {
        const int LargestDatagram = 65_536;
        Socket socket = new(address.Address.AddressFamily, SocketType.Dgram, ProtocolType.Udp);
        try
        {
            socket.Bind(new IPEndPoint(address.Address, address.Port));
        }
        catch
        {
            socket.Dispose();
            throw;
        }

        return new OpenedSource(async buffer =>
        {
            while (true)
            {
                int n = await socket.ReceiveAsync(buffer, SocketFlags.None).ConfigureAwait(false);
                if (n > 0)
                    return n;
            }
        }, socket.Dispose, bufferSize: LargestDatagram)
        { Detail = "listening on " + socket.LocalEndPoint };
    }

    /// <summary>
    /// Reads a stream to its end: standard input. Its read blocks a pool thread that the program does not wait for.
    /// </summary>
    public static OpenedSource Standard(Stream input) =>
        new(buffer => Task.Run(() => input.Read(buffer.Span)), static () => { }) { EndsForGood = true };

    private static SerialPort Open(string device, int baud)
    {
        try
        {
            // Terminal Ready is raised as every terminal program does: some USB radios send only then.
            return Open(device, baud, ready: true);
        }
        catch (IOException e) when (e is not FileNotFoundException)
        {
            // A pseudo-terminal has no such lines and says so.
            return Open(device, baud, ready: false);
        }
    }

    private static SerialPort Open(string device, int baud, bool ready)
    {
        SerialPort port = new(device, baud, Parity.None, 8, StopBits.One) { DtrEnable = ready, RtsEnable = ready };
        try
        {
            port.Open();
            return port;
        }
        catch
        {
            port.Dispose();
            throw;
        }
    }

    private static bool IsNamed(string device) =>
        SerialPort.GetPortNames().Contains(device, StringComparer.OrdinalIgnoreCase);

    /// <summary>What a name under <c>/dev/serial/by-id</c>, or a link of the user's, leads to at the moment.</summary>
    private static string Target(string device)
    {
        try
        {
            return File.ResolveLinkTarget(device, returnFinalTarget: true)?.FullName ?? device;
        }
        catch (IOException)
        {
            return "";
        }
    }
}
