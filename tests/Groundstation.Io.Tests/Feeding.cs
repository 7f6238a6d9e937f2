using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Groundstation.Core.Quantities;
using Groundstation.Io.Recordings;
using Xunit;

namespace Groundstation.Io.Tests;

/// <summary>Feeds a recording's received bytes into something at a multiple of the pace at which they came.</summary>
public static class Feeding
{
    /// <summary>The received bytes of a recording with their arrival times, in order.</summary>
    public static IEnumerable<(Instant At, byte[] Bytes)> Of(string recording)
    {
        using RecordingReader reader = RecordingReader.Open(recording);
        while (reader.Read(out RecordedEvent e))
        {
            if (e.Kind == RecordedKind.Received)
                yield return (e.At, e.Bytes.ToArray());
        }
    }

    /// <summary>
    /// Writes them at <paramref name="rate"/> times their pace; a gap lasts as long as it was, divided by it.
    /// </summary>
    public static async Task To(Stream stream, IEnumerable<(Instant At, byte[] Bytes)> pieces, double rate,
        CancellationToken stop = default)
    {
        Stopwatch running = Stopwatch.StartNew();
        Instant? start = null;
        foreach ((Instant at, byte[] bytes) in pieces)
        {
            start ??= at;
            TimeSpan ahead = (at - start.Value) / rate - running.Elapsed;
            if (ahead > TimeSpan.FromMilliseconds(2))
                await Task.Delay(ahead, stop);
            await stream.WriteAsync(bytes, stop);
            await stream.FlushAsync(stop);
        }
    }
}

/// <summary>A pair of pseudo-terminals made by socat: the station opens one end, a test writes to the other.</summary>
public sealed class PtyPair : IDisposable
{
    private readonly string _near;
    private readonly string _far;
    private Process? _socat;

    public PtyPair(TempFolder folder, string name = "near")
    {
        _near = folder[name];
        _far = folder[name + "-far"];
    }

    /// <summary>The end to be opened as <c>serial:</c>.</summary>
    public string Device => _near;

    /// <summary>Makes the pair: the cable is plugged in. Skips the test where there is no socat.</summary>
    public Stream Plug()
    {
        try
        {
            _socat = Process.Start(new ProcessStartInfo("socat",
                [$"pty,raw,echo=0,link={_near}", $"pty,raw,echo=0,link={_far}"]));
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Assert.Skip("needs socat");
        }

        for (int i = 0; i < 500 && !(File.Exists(_near) && File.Exists(_far)); i++)
            Thread.Sleep(10);
        return new FileStream(_far, FileMode.Open, FileAccess.Write, FileShare.ReadWrite, bufferSize: 0);
    }

    /// <summary>The pair is gone: the cable is pulled.</summary>
    public void Unplug()
    {
        _socat?.Kill();
        _socat?.WaitForExit();
        _socat?.Dispose();
        _socat = null;
        // A killed socat leaves its links behind; a pulled device's node goes.
        File.Delete(_near);
        File.Delete(_far);
    }

    public void Dispose() => Unplug();
}

/// <summary>A TCP server with one visitor at a time, as a radio's network port is.</summary>
public sealed class TcpFeeder : IDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);

    public TcpFeeder() => _listener.Start();

    /// <summary>The address to be opened as a source.</summary>
    public string Address => $"tcp:127.0.0.1:{((IPEndPoint)_listener.LocalEndpoint).Port}";

    /// <summary>Waits for a visitor.</summary>
    public async Task<TcpClient> Visitor(CancellationToken stop) => await _listener.AcceptTcpClientAsync(stop);

    public void Dispose() => _listener.Dispose();
}

/// <summary>Short ways to say things in tests.</summary>
public static class Bytes
{
    public static byte[] Of(string text) => Encoding.Latin1.GetBytes(text);
}
