using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace Groundstation.Benchmarks.Consoles;

/// <summary>
/// <c>keys PROGRAM [COUNT]</c>: how long a key takes until its screen stands there, while a pseudo-terminal in the place
/// of the serial port brings nothing, 115200 Bd and 1 Mbit/s; and whether every byte of the flood was recorded.
/// </summary>
internal static class KeyLag
{
    private static readonly (char Key, string Title)[] _screens =
    [
        ('2', "Where is it?"), ('3', "How high is it?"), ('5', "What is the wind?"), ('6', "Can I believe it?"),
        ('7', "What is wrong?"), ('8', "What do I say?"), ('9', "What happened?"), ('L', "The station sees"),
    ];

    public static int Run(string[] args)
    {
        int count = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 200;
        foreach (int bytesPerS in (int[])[0, 11_520, 125_000]) Measure(args[0], bytesPerS, count);
        return 0;
    }

    private static void Measure(string program, int bytesPerS, int count)
    {
        string folder = Directory.CreateTempSubdirectory("groundstation-keys-").FullName;
        string near = Path.Combine(folder, "near"), far = Path.Combine(folder, "far"), flight = Path.Combine(folder, "f");
        using Process cable = Process.Start("socat", [$"pty,raw,echo=0,link={near}", $"pty,raw,echo=0,link={far}"]);
        while (!File.Exists(near) || !File.Exists(far)) Thread.Sleep(1);
        using TerminalRun run = new(program, "watch", "--from", "serial:" + near, "--flight", flight);
        run.Until("q quit", run.Started, TimeSpan.FromSeconds(20));
        Thread.Sleep(1000);

        using CancellationTokenSource stop = new();
        int sent = 0;
        Thread flood = new(() => sent = Flood(far, bytesPerS, stop.Token));
        flood.Start();
        Thread.Sleep(3000);
        Random moments = new(1);
        List<double> took = [];
        (TimeSpan cpu, long from) = (run.Cpu, Stopwatch.GetTimestamp());
        for (int i = 0; i < count; i++)
        {
            Thread.Sleep(100 + moments.Next(100));
            (char key, string title) = _screens[i % _screens.Length];
            long pressed = Stopwatch.GetTimestamp();
            run.Type(key.ToString());
            took.Add(run.Until(title, pressed, TimeSpan.FromSeconds(20))?.TotalMilliseconds ?? double.NaN);
        }

        double share = (run.Cpu - cpu) / Stopwatch.GetElapsedTime(from);
        stop.Cancel();
        flood.Join();
        Thread.Sleep(1500);
        took.Sort();
        int recorded = File.ReadLines(Path.Combine(flight, "received.nmea"), Encoding.Latin1)
            .Count(line => line.Contains("$GPGGA", StringComparison.Ordinal));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{bytesPerS} bytes/s: key to screen middle {took[count / 2]:F0}, 99 of 100 {took[count * 99 / 100]:F0}, "
            + $"most {took[^1]:F0} ms of {count}; {share * 100:F0} % of a core; {recorded} of {sent} epochs recorded"));
        cable.Kill();
        run.Dispose();
        Directory.Delete(folder, true);
    }

    /// <summary>Ten epochs a second, filled up with the satellites in view; gives how many were sent.</summary>
    private static int Flood(string far, int bytesPerS, CancellationToken stop)
    {
        if (bytesPerS == 0) return 0;
        using FileStream to = new(far, FileMode.Open, FileAccess.Write, FileShare.ReadWrite, 0);
        byte[] filling = Encoding.ASCII.GetBytes(
            Feeder.Line("GPGSV,1,1,04,02,45,120,41,05,30,210,38,12,67,300,44,25,15,060,35"));
        long from = Stopwatch.GetTimestamp();
        int epochs = 0;
        while (!stop.IsCancellationRequested)
        {
            byte[] epoch = Encoding.ASCII.GetBytes(Feeder.Epoch(epochs / 10.0, 1000 + epochs * 0.5));
            to.Write(epoch);
            for (int left = bytesPerS / 10 - epoch.Length; left >= filling.Length; left -= filling.Length) to.Write(filling);
            epochs++;
            TimeSpan wait = TimeSpan.FromMilliseconds(100 * epochs) - Stopwatch.GetElapsedTime(from);
            if (wait > TimeSpan.Zero) Thread.Sleep(wait);
        }

        return epochs;
    }
}
