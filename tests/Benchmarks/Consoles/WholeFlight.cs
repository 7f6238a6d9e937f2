using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace Groundstation.Benchmarks.Consoles;

/// <summary>
/// <c>whole-flight PROGRAM LOG.nmea [TIMES]</c>: a log fed to the console at its own pace, or so many times it, through a
/// pseudo-terminal as the serial port, while somebody walks through the screens; memory and open files on the way, and at
/// the end every sentence looked for in the recording.
/// </summary>
internal static class WholeFlight
{
    private const string ScreenKeys = "123456789010?\u001b1++--u";

    public static int Run(string[] args)
    {
        List<byte[]> seconds = Seconds(args[1]);
        double times = args.Length > 2 ? double.Parse(args[2], CultureInfo.InvariantCulture) : 1;
        string folder = Directory.CreateTempSubdirectory("groundstation-whole-").FullName;
        string near = Path.Combine(folder, "near"), far = Path.Combine(folder, "far"), flight = Path.Combine(folder, "f");
        using Process cable = Process.Start("socat", [$"pty,raw,echo=0,link={near}", $"pty,raw,echo=0,link={far}"]);
        while (!File.Exists(near) || !File.Exists(far)) Thread.Sleep(1);
        using (TerminalRun run = new(args[0], "watch", "--from", "serial:" + near, "--flight", flight))
        {
            run.Until("q quit", run.Started, TimeSpan.FromSeconds(20));
            Thread.Sleep(1000);
            Feed(run, far, seconds, times);
        }

        int missing = Missing(seconds, Path.Combine(flight, "received.nmea"), out int sent);
        Console.WriteLine($"{seconds.Count} s at {times} times their pace: {missing} of {sent} sentences missing in the recording");
        cable.Kill();
        Directory.Delete(folder, true);
        return missing == 0 ? 0 : 1;
    }

    private static void Feed(TerminalRun run, string port, List<byte[]> seconds, double times)
    {
        using FileStream to = new(port, FileMode.Open, FileAccess.Write, FileShare.ReadWrite, 0);
        long from = Stopwatch.GetTimestamp();
        int perKey = (int)(20 * times);
        for (int s = 0; s < seconds.Count; s++)
        {
            TimeSpan wait = TimeSpan.FromSeconds(s / times) - Stopwatch.GetElapsedTime(from);
            if (wait > TimeSpan.Zero) Thread.Sleep(wait);
            to.Write(seconds[s]);
            if (s % perKey == 10) run.Type(ScreenKeys[s / perKey % ScreenKeys.Length].ToString());
            if (s % 600 != 30 && s != seconds.Count - 1) continue;
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{s / 60,4} min: {run.Memory("VmRSS"):F0} MB now, {run.Memory("VmHWM"):F0} MB at most, {run.Handles} files open, "
                + $"{run.Cpu / Stopwatch.GetElapsedTime(run.Started) * 100:F1} % of a core since the start"));
        }

        Thread.Sleep(1500);
    }

    /// <summary>The log's lines by the second they belong to: a new one begins where the time in GGA or RMC changes.</summary>
    private static List<byte[]> Seconds(string log)
    {
        List<byte[]> seconds = [];
        StringBuilder second = new();
        string last = "";
        foreach (string recorded in File.ReadLines(log, Encoding.Latin1))
        {
            // A recording's own words (TAG blocks and the station's sentences) are not what the receiver sent.
            string line = recorded[Math.Max(0, recorded.IndexOf('$', StringComparison.Ordinal))..];
            if (line.StartsWith("$PGSE", StringComparison.Ordinal)) continue;
            string[] words = line.Split(',');
            if (words[0].Length == 6 && words[0][3..] is "GGA" or "RMC" && words[1].Length >= 6 && words[1][..6] != last)
            {
                if (second.Length > 0) seconds.Add(Encoding.Latin1.GetBytes(second.ToString()));
                second.Clear();
                last = words[1][..6];
            }

            second.Append(line).Append("\r\n");
        }

        if (second.Length > 0) seconds.Add(Encoding.Latin1.GetBytes(second.ToString()));
        return seconds;
    }

    private static int Missing(List<byte[]> seconds, string recording, out int sent)
    {
        Dictionary<string, int> recorded = [];
        foreach (string line in File.ReadLines(recording, Encoding.Latin1))
        {
            int at = line.IndexOf('$', StringComparison.Ordinal);
            if (at >= 0) recorded[line[at..]] = recorded.GetValueOrDefault(line[at..]) + 1;
        }

        sent = 0;
        int missing = 0;
        foreach (string line in seconds.SelectMany(s => Encoding.Latin1.GetString(s).Split("\r\n")).Where(l => l.StartsWith('$')))
        {
            sent++;
            int left = recorded.GetValueOrDefault(line);
            if (left == 0) missing++;
            else recorded[line] = left - 1;
        }

        return missing;
    }
}
