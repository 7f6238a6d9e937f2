using System.Globalization;
using System.Net;

namespace Groundstation.Io.Sources;

/// <summary>
/// Where bytes come from, as the user types it: <c>serial:DEVICE[@BAUD]</c>, <c>serial:auto</c>, <c>tcp:HOST:PORT</c>,
/// <c>udp:[ADDRESS:]PORT</c>, <c>-</c> for standard input. IPv6 addresses stand in brackets.
/// </summary>
public abstract record SourceAddress
{
    /// <summary>What is allowed, for error lines and help.</summary>
    public const string Forms = "serial:DEVICE[@BAUD], serial:auto, tcp:HOST:PORT, udp:PORT, udp:ADDRESS:PORT, "
        + "mqtt:HOST/TOPIC or -";

    /// <summary>Ports as this system names them, for examples.</summary>
    public static (string Radio, string Car) ExamplePorts =>
        OperatingSystem.IsWindows() ? ("COM3", "COM4") : ("/dev/ttyUSB0", "/dev/ttyACM0");

    private const int SlowestBaud = 300, FastestBaud = 4_000_000;

    /// <summary>Reads an address.</summary>
    /// <exception cref="UserErrorException">It is none of the forms.</exception>
    public static SourceAddress Parse(string text)
    {
        if (text == "-")
            return new StandardInputAddress();
        int colon = text.IndexOf(':', StringComparison.Ordinal);
        string rest = colon < 0 ? "" : text[(colon + 1)..];
        return (colon < 0 ? "" : text[..colon]) switch
        {
            "serial" => Serial(text, rest),
            "tcp" => Tcp(text, rest),
            "udp" => Udp(text, rest),
            "mqtt" => Sharing.MqttAddress.Of(text, rest, tls: false),
            "mqtts" => Sharing.MqttAddress.Of(text, rest, tls: true),
            _ => throw Bad(text, Forms),
        };
    }

    private static SourceAddress Serial(string text, string rest)
    {
        if (rest == "auto")
            return new SerialAutoAddress();
        int at = rest.LastIndexOf('@');
        string device = at < 0 ? rest : rest[..at];
        int baud = SerialAddress.DefaultBaud;
        if (at >= 0 && !TryNumber(rest[(at + 1)..], SlowestBaud, FastestBaud, out baud))
            throw Bad(text, $"the baud rate behind @ is a whole number from {SlowestBaud} to {FastestBaud}");
        if (device.Length == 0 || device.Any(char.IsControl))
            throw Bad(text, $"serial:DEVICE[@BAUD], as serial:{ExamplePorts.Radio}@9600, or serial:auto");
        return new SerialAddress(device, baud);
    }

    private static TcpAddress Tcp(string text, string rest)
    {
        (string host, int port) = HostAndPort(text, rest, "tcp:HOST:PORT, as tcp:192.168.4.1:2000 or tcp:[::1]:2000");
        return new TcpAddress(HostName(text, host), port);
    }

    /// <summary>A host that can be one.</summary>
    private protected static string HostName(string text, string host) =>
        host.Length <= 255 && host.All(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '-' or ':' or '_' or '%')
            ? host : throw Bad(text, "HOST is a name or an address; an IPv6 address stands in brackets");

    private static UdpAddress Udp(string text, string rest)
    {
        const string Form = "udp:PORT (this computer only) or udp:ADDRESS:PORT, as udp:0.0.0.0:10110";
        if (TryNumber(rest, 1, 65535, out int own))
            return new UdpAddress(IPAddress.Loopback, own);
        (string host, int port) = HostAndPort(text, rest, Form);
        return IPAddress.TryParse(host, out IPAddress? address)
            ? new UdpAddress(address, port)
            : throw Bad(text, "ADDRESS is one of this computer's IP addresses, 0.0.0.0 for all");
    }

    private protected static (string Host, int Port) HostAndPort(string text, string rest, string form)
    {
        int colon = rest.LastIndexOf(':');
        if (colon <= 0)
            throw Bad(text, form);
        string host = rest[..colon];
        if (!TryNumber(rest[(colon + 1)..], 1, 65535, out int port))
            throw Bad(text, "PORT is a whole number from 1 to 65535");
        if (host is ['[', .. string inside, ']'])
            return (inside, port);
        return host.Contains(':', StringComparison.Ordinal)
            ? throw Bad(text, "an IPv6 address stands in brackets, as [::1]")
            : (host, port);
    }

    private static bool TryNumber(string text, int min, int max, out int value) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value) && value >= min && value <= max;

    private protected static UserErrorException Bad(string text, string allowed) =>
        new($"source '{(text.Length <= 80 ? text : text[..79] + "…")}': {allowed}");

    /// <summary>The host as it is typed: IPv6 in brackets.</summary>
    private protected static string Typed(string host) =>
        host.Contains(':', StringComparison.Ordinal) ? $"[{host}]" : host;
}

/// <summary>A serial port: 8 data bits, no parity, 1 stop bit (NMEA 0183).</summary>
/// <param name="Device">Device node or port name.</param>
/// <param name="Baud">Baud rate.</param>
public sealed record SerialAddress(string Device, int Baud) : SourceAddress
{
    /// <summary>What most GNSS receivers and telemetry radios are set to.</summary>
    public const int DefaultBaud = 9600;

    /// <inheritdoc/>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"serial:{Device}@{Baud}");
}

/// <summary>Whichever serial port a receiver is heard on.</summary>
public sealed record SerialAutoAddress : SourceAddress
{
    /// <inheritdoc/>
    public override string ToString() => "serial:auto";
}

/// <summary>A TCP server that sends what its receiver says.</summary>
/// <param name="Host">Name or address.</param>
/// <param name="Port">Port.</param>
public sealed record TcpAddress(string Host, int Port) : SourceAddress
{
    /// <inheritdoc/>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"tcp:{Typed(Host)}:{Port}");
}

/// <summary>UDP datagrams sent to this computer.</summary>
/// <param name="Address">The own address to listen on.</param>
/// <param name="Port">Port.</param>
public sealed record UdpAddress(IPAddress Address, int Port) : SourceAddress
{
    /// <inheritdoc/>
    public override string ToString() => IPAddress.Loopback.Equals(Address)
        ? string.Create(CultureInfo.InvariantCulture, $"udp:{Port}")
        : string.Create(CultureInfo.InvariantCulture, $"udp:{Typed(Address.ToString())}:{Port}");
}

/// <summary>Standard input.</summary>
public sealed record StandardInputAddress : SourceAddress
{
    /// <inheritdoc/>
    public override string ToString() => "-";
}
