using System.Diagnostics;
using System.Globalization;
using Groundstation.Benchmarks.Consoles;

namespace Groundstation.Benchmarks;

/// <summary>
/// The published console on a terminal: <c>start-up</c>, <c>latency</c> (a byte on a socket until its figure is on the
/// screen), <c>ten-hertz</c> (processor and memory under ten epochs a second) and <c>long-replay</c> (memory over the
/// bundled flight at a hundred times its rate). Arguments: the program, then how often or how many seconds.
/// </summary>
internal static class SmallMachines
{
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(20);

    public static int StartUp(string[] args)
    {
        int times = Count(args, 20);
        List<double> first = [];
        for (int i = 0; i < times; i++)
        {
            string flight = Directory.CreateTempSubdirectory("groundstation-start-").FullName;
            using (Feeder feeder = new())
            using (TerminalRun run = new(args[0], "watch", "--from", feeder.Address, "--flight", flight + "/f"))
                first.Add(run.Until("q quit", run.Started, Longest)?.TotalMilliseconds ?? double.NaN);
            Directory.Delete(flight, true);
        }

        Say($"start-up to the first picture, {times} times: {Spread(first)} ms");
        return 0;
    }

    public static int Latency(string[] args)
    {
        int times = Count(args, 300);
        Random moments = new(1);
        List<double> first = [], took = [];
        long bytes = 0;
        OnTerminal(args[0], (feeder, run, flight) =>
        {
            for (int i = 0; i < times; i++)
            {
                if (i == 5) bytes = -run.Received;
                // A moment that keeps no step with the console's own tenths of a second.
                Thread.Sleep(950 + moments.Next(100));
                double heightM = 1000 + 5 * i;
                string shown = ((int)heightM).ToString("#,0", CultureInfo.InvariantCulture).Replace(',', ' ') + " m";
                long sent = Stopwatch.GetTimestamp();
                feeder.Send(Feeder.Epoch(i, heightM));
                double ms = run.Until(shown, sent, Longest)?.TotalMilliseconds ?? double.NaN;
                // Until the receiver's last sentence of an epoch is known, an epoch ends by quiet.
                (i < 5 ? first : took).Add(ms);
            }

            bytes += run.Received;
        });
        Say($"the first five epochs: {string.Join(", ", first.Select(ms => ms.ToString("F0", CultureInfo.InvariantCulture)))} ms");
        Say($"byte to screen, {took.Count} epochs at 1 Hz: {Spread(took)} ms; {bytes / took.Count} bytes to the terminal a second");
        return 0;
    }

    public static int TenHertz(string[] args)
    {
        int seconds = Count(args, 60);
        OnTerminal(args[0], (feeder, run, flight) =>
        {
            using PeriodicTimer pace = new(TimeSpan.FromMilliseconds(100));
            (TimeSpan Cpu, double Memory, int Handles, long Bytes) begin = default;
            long from = 0;
            for (int i = 0; i < (seconds + 10) * 10; i++)
            {
                if (i == 100) (begin, from) = ((run.Cpu, run.Memory("VmRSS"), run.Handles, run.Received), Stopwatch.GetTimestamp());
                feeder.Send(Feeder.Epoch(i / 10.0, 1000 + i * 0.5));
                pace.WaitForNextTickAsync().AsTask().GetAwaiter().GetResult();
            }

            int sent = (seconds + 10) * 10, recorded = File.ReadLines(flight + "/received.nmea")
                .Count(line => line.Contains("$GPGGA", StringComparison.Ordinal));
            double share = (run.Cpu - begin.Cpu) / Stopwatch.GetElapsedTime(from);
            Say($"10 Hz for {seconds} s: {share * 100:F1} % of a core, {run.Memory("VmRSS"):F0} MB in memory, "
                + $"{run.Handles} files open (after 10 s {begin.Memory:F0} MB, {begin.Handles}); {recorded} of {sent} epochs recorded; "
                + $"{(run.Received - begin.Bytes) / seconds} bytes to the terminal a second");
        });
        return 0;
    }

    public static int LongReplay(string[] args)
    {
        string recording = Path.Combine(Machine.Root(), "recordings", "clean");
        using TerminalRun run = new(args[0], "replay", recording, "--rate", "100");
        if (run.Until("replay ended", run.Started, TimeSpan.FromMinutes(4)) is null)
            run.Until("ENDED", run.Started, TimeSpan.FromSeconds(1));
        Say($"after the whole of recordings/clean at 100×: {run.Memory("VmRSS"):F0} MB in memory, "
            + $"{run.Memory("VmHWM"):F0} MB at most, {run.Handles} files open");
        return 0;
    }

    private static void OnTerminal(string program, Action<Feeder, TerminalRun, string> work)
    {
        string flight = Directory.CreateTempSubdirectory("groundstation-live-").FullName;
        using (Feeder feeder = new())
        using (TerminalRun run = new(program, "watch", "--from", feeder.Address, "--flight", flight + "/f"))
        {
            feeder.Await();
            run.Until("q quit", run.Started, Longest);
            work(feeder, run, flight + "/f");
        }

        Directory.Delete(flight, true);
    }

    private static int Count(string[] args, int otherwise) =>
        args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : otherwise;

    private static string Spread(List<double> of)
    {
        of.Sort();
        return string.Create(CultureInfo.InvariantCulture, $"middle {At(0.5):F0}, 99 of 100 {At(0.99):F0}, most {of[^1]:F0}");
        double At(double share) => of[Math.Min(of.Count - 1, (int)(share * of.Count))];
    }

    private static void Say(string line) => Console.WriteLine(line);
}
