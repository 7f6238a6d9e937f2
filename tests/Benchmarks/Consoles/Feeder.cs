using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Groundstation.Benchmarks.Consoles;

/// <summary>A tracker on a TCP port of this computer: a climb at 5 m/s, sent when asked.</summary>
internal sealed class Feeder : IDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private NetworkStream? _visitor;

    public Feeder() => _listener.Start();

    public string Address => $"tcp:127.0.0.1:{((IPEndPoint)_listener.LocalEndpoint).Port}";

    /// <summary>Waits for the program to connect.</summary>
    public void Await()
    {
        TcpClient client = _listener.AcceptTcpClient();
        client.NoDelay = true;
        _visitor = client.GetStream();
    }

    /// <summary>Sends one epoch; false when nobody is there any more.</summary>
    public bool Send(string lines)
    {
        try
        {
            _visitor!.Write(Encoding.ASCII.GetBytes(lines));
            return true;
        }
        catch (IOException)
        {
            return false;
        }
    }

    /// <summary>GGA and RMC of one moment of the climb, seconds after noon.</summary>
    public static string Epoch(double seconds, double heightM)
    {
        string time = string.Create(CultureInfo.InvariantCulture,
            $"{12 + (int)seconds / 3600:00}{(int)seconds / 60 % 60:00}{seconds % 60:00.00}");
        double north = 4815 + seconds * 0.003, east = 830 + seconds * 0.005;
        return Line(string.Create(CultureInfo.InvariantCulture,
                $"GPGGA,{time},{north:0000.00000},N,{east:00000.00000},E,1,10,0.9,{heightM:F1},M,50.0,M,,"))
            + Line(string.Create(CultureInfo.InvariantCulture,
                $"GPRMC,{time},A,{north:0000.00000},N,{east:00000.00000},E,14.2,51.3,210626,,,A"));
    }

    public void Dispose()
    {
        _visitor?.Dispose();
        _listener.Dispose();
    }

    private static string Line(string body) => $"${body}*{body.Aggregate(0, (sum, c) => sum ^ c):X2}\r\n";
}
