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

    /// <summary>GGA and RMC of one moment, seconds after noon, in a wind of 8 m/s.</summary>
    public static string Epoch(double seconds, double heightM)
    {
        DateTime utc = new DateTime(2026, 6, 21, 12, 0, 0, DateTimeKind.Utc).AddSeconds(seconds);
        string time = utc.ToString("HHmmss.ff", CultureInfo.InvariantCulture);
        string date = utc.ToString("ddMMyy", CultureInfo.InvariantCulture);
        string north = Minutes(48.25 + seconds * 4.5e-5, "00"), east = Minutes(8.5 + seconds * 8.5e-5, "000");
        return Line(string.Create(CultureInfo.InvariantCulture,
                $"GPGGA,{time},{north},N,{east},E,1,10,0.9,{heightM:F1},M,50.0,M,,"))
            + Line($"GPRMC,{time},A,{north},N,{east},E,15.6,51.5,{date},,,A");

        static string Minutes(double deg, string whole) => ((int)deg).ToString(whole, CultureInfo.InvariantCulture)
            + ((deg - (int)deg) * 60).ToString("00.00000", CultureInfo.InvariantCulture);
    }

    public void Dispose()
    {
        _visitor?.Dispose();
        _listener.Dispose();
    }

    /// <summary>A sentence with its checksum.</summary>
    public static string Line(string body) => $"${body}*{body.Aggregate(0, (sum, c) => sum ^ c):X2}\r\n";
}
