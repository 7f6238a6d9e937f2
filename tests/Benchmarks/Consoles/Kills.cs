using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace Groundstation.Benchmarks.Consoles;

/// <summary>
/// <c>kills PROGRAM [COUNT]</c>: kills the headless program at random moments under ten epochs a second and starts it
/// again on the same folder. Everything sent more than a second before a kill must be recorded, nothing twice, and a
/// replay of the recording must give the logs that stand there. <c>rebuild PROGRAM [HOURS]</c>: how long it takes until a
/// flight goes on. <c>sync</c>: what keeping a second's lines on the disk costs.
/// </summary>
internal static class Kills
{
    private static readonly string[] _logs = ["fixes.csv", "winds.csv", "landing.csv", "alarms.csv", "callouts.csv"];

    public static int Run(string[] args)
    {
        int count = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 100;
        string folder = Directory.CreateTempSubdirectory("groundstation-kills-").FullName;
        string flight = Path.Combine(folder, "f"), recording = Path.Combine(flight, "received.nmea");
        Random moments = new(1);
        int epoch = 0, owed = 0, missing = 0, torn = 0, newestMissingMs = 0;
        for (int kill = 0; kill < count; kill++)
        {
            using Feeder feeder = new();
            using Process watch = Watch(args[0], feeder.Address, flight);
            feeder.Await();
            List<(string Line, long At)> sent = [];
            double forS = 1.2 + moments.NextDouble() * 2;
            long from = Stopwatch.GetTimestamp();
            while (Stopwatch.GetElapsedTime(from).TotalSeconds < forS)
            {
                string lines = Feeder.Epoch(epoch / 10.0, 300 + epoch * 0.5);
                epoch++;
                feeder.Send(lines);
                sent.Add((lines[..lines.IndexOf('\r', StringComparison.Ordinal)], Stopwatch.GetTimestamp()));
                Thread.Sleep(100);
            }

            Thread.Sleep(moments.Next(100));
            watch.Kill();
            long killed = Stopwatch.GetTimestamp();
            watch.WaitForExit();
            string kept = File.ReadAllText(recording, Encoding.Latin1);
            if (!kept.EndsWith('\n')) torn++;
            foreach ((string line, long at) in sent)
            {
                double ageMs = Stopwatch.GetElapsedTime(at, killed).TotalMilliseconds;
                bool there = kept.Contains(line, StringComparison.Ordinal);
                if (!there) newestMissingMs = Math.Max(newestMissingMs, (int)ageMs);
                if (ageMs <= 1000) continue;
                owed++;
                if (!there) missing++;
            }
        }

        string again = Path.Combine(folder, "again");
        using (Process replay = Process.Start(new ProcessStartInfo(Starts(args[0]),
            [.. Before(args[0]), "replay", recording, "--headless", "--rate", "max", "--flight", again])
        { RedirectStandardOutput = true })!)
        {
            replay.StandardOutput.ReadToEnd();
            replay.WaitForExit();
        }

        // The last kill may have cut the logs anywhere: they must be the beginning of what a replay gives.
        string[] differing = [.. _logs.Where(log => !Beginning(Path.Combine(flight, log), Path.Combine(again, log)))];
        string[] rows = [.. File.ReadLines(Path.Combine(again, "fixes.csv")).Skip(1).Select(row => row.Split(',')[0])];
        Console.WriteLine($"{count} kills at 10 Hz: {owed} epochs had come more than 1 s before, {missing} missing; "
            + $"the oldest that was not recorded was {newestMissingMs} ms old; {torn} torn last lines; "
            + $"epochs twice in fixes.csv: {rows.Length - rows.Distinct().Count()}; "
            + (differing.Length == 0 ? "logs as a replay gives them" : "logs differ: " + string.Join(", ", differing)));
        Directory.Delete(folder, true);
        return missing == 0 && differing.Length == 0 ? 0 : 1;
    }

    public static int Rebuild(string[] args)
    {
        double hours = args.Length > 1 ? double.Parse(args[1], CultureInfo.InvariantCulture) : 3;
        string folder = Directory.CreateTempSubdirectory("groundstation-rebuild-").FullName;
        string log = Path.Combine(folder, "log.nmea"), flight = Path.Combine(folder, "f");
        using (StreamWriter to = new(log))
        {
            // Up with 5 m/s to 27 km, then down with 8.
            for (int s = 0; s < hours * 3600; s++)
                to.Write(Feeder.Epoch(s, Math.Max(200, s < 5400 ? 200 + 5.0 * s : 27_200 - 8.0 * (s - 5400))));
        }

        using (Process replay = Process.Start(new ProcessStartInfo(Starts(args[0]),
            [.. Before(args[0]), "replay", log, "--headless", "--rate", "max", "--flight", flight])
        { RedirectStandardOutput = true })!)
        {
            replay.StandardOutput.ReadToEnd();
            replay.WaitForExit();
        }

        using Feeder feeder = new();
        long from = Stopwatch.GetTimestamp();
        using (Process watch = Watch(args[0], feeder.Address, flight))
        {
            feeder.Await();
            Console.WriteLine($"{hours:0.#} h at 1 Hz: the flight goes on after "
                + $"{Stopwatch.GetElapsedTime(from).TotalSeconds:F2} s, {watch.TotalProcessorTime.TotalSeconds:F2} s of "
                + "one core");
            watch.Kill();
            watch.WaitForExit();
        }

        Directory.Delete(folder, true);
        return 0;
    }

    public static int Sync(string[] args)
    {
        string path = Path.Combine(args.Length > 0 ? args[0] : ".", "sync.tmp");
        List<double> took = [];
        using (FileStream file = new(path, FileMode.Create))
        {
            for (int i = 0; i < 200; i++)
            {
                // Two lines of ten epochs, with their TAG blocks.
                file.Write(new byte[2200]);
                file.Flush(flushToDisk: false);
                long from = Stopwatch.GetTimestamp();
                file.Flush(flushToDisk: true);
                took.Add(Stopwatch.GetElapsedTime(from).TotalMilliseconds);
            }
        }

        File.Delete(path);
        took.Sort();
        Console.WriteLine($"to keep 2.2 kB on the disk: middle {took[100]:F2} ms, 99 of 100 {took[198]:F2} ms, "
            + $"most {took[199]:F2} ms");
        return 0;
    }

    private static Process Watch(string program, string address, string flight) => Process.Start(new ProcessStartInfo(
        Starts(program), [.. Before(program), "watch", "--from", address, "--headless", "--flight", flight])
    { RedirectStandardOutput = true })!;

    private static string Starts(string program) =>
        program.EndsWith(".dll", StringComparison.Ordinal) ? "dotnet" : program;

    private static string[] Before(string program) =>
        program.EndsWith(".dll", StringComparison.Ordinal) ? [program] : [];

    private static bool Beginning(string part, string whole) =>
        File.ReadAllText(whole).StartsWith(File.ReadAllText(part), StringComparison.Ordinal);
}
