using System.Diagnostics;
using System.Globalization;
using Groundstation.Core.Air;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Simulation;
using Groundstation.Io.Desk;
using Groundstation.Io.Recordings;
using Groundstation.Io.Scenarios;

namespace Groundstation.Benchmarks;

/// <summary>
/// How long a jump takes in the replay of a flight of three hours at 1 Hz, and what the copies kept cost.
/// </summary>
internal static class SeekBenchmark
{
    private const int Jumps = 200;

    public static int Run(string[] args)
    {
        string folder = Directory.CreateTempSubdirectory("groundstation-seek-").FullName;
        Scenario scenario = new()
        {
            LaunchUtc = Instant.FromUtc(new(2027, 5, 8), TimeSpan.FromHours(9)),
            LaunchSite = new(47, 3),
            LandingGround = new(170),
            AfterLandingS = 600,
            Balloon = new() { AscentRateMps = 4.2, BurstHeight = new(32_500), SwingDeg = 3 },
            Air = new()
            {
                Winds = [new(new(0), WindVector.FromDirection(250, 5)),
                    new(new(11_000), WindVector.FromDirection(260, 30))],
                GustAloftMps = 0.3,
            },
            Receiver = new() { HorizontalSigmaM = 2, VerticalSigmaM = 3.5 },
        };
        string recording = SimulationWriter.Write(scenario, folder).Recording;
        long before = GC.GetTotalMemory(true);
        long begun = Stopwatch.GetTimestamp();
        using CancellationTokenSource stop = new();
        using TrainingDesk desk = new(RecordingReader.Open(recording), FlightPlan.Default, 1, TimeProvider.System,
            TimeSpan.FromMilliseconds(100));
        double opened = Stopwatch.GetElapsedTime(begun).TotalMilliseconds;
        desk.TogglePause();
        Thread session = new(() => desk.Run(stop.Token));
        session.Start();
        // A jump to the landing waits until all has been seen once.
        double first = Jump(desk, SeekTarget.Read("landed")!);
        Thread.Sleep(2000);
        long kept = GC.GetTotalMemory(true) - before;
        SeededRandom random = new(1);
        Instant end = desk.Newest.Utc;
        double length = end.SecondsSince(scenario.LaunchUtc);
        List<double> all = [];
        for (int i = 0; i < Jumps; i++)
            all.Add(Jump(desk, new(SeekKind.Mission, TimeSpan.FromSeconds(Math.Floor(random.NextBetween(0, length))))));
        stop.Cancel();
        session.Join();
        all.Sort();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{length / 3600:F2} h, opened in {opened:F0} ms, all seen once after {first:F0} ms, kept {kept / 1e6:F0} MB"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{Jumps} jumps: median {all[Jumps / 2]:F0} ms, 95 % {all[Jumps * 95 / 100]:F0}, worst {all[^1]:F0}"));
        Console.WriteLine(Machine.Processor());
        Directory.Delete(folder, true);
        return 0;
    }

    /// <summary>Until the jump is done: what is asked is done in turn.</summary>
    private static double Jump(TrainingDesk desk, SeekTarget target)
    {
        long begun = Stopwatch.GetTimestamp();
        double mark = desk.Status.Rate is 2 ? 3 : 2;
        desk.Seek(target);
        desk.SetRate(mark);
        while (desk.Status.Rate != mark) Thread.Yield();
        return Stopwatch.GetElapsedTime(begun).TotalMilliseconds;
    }
}
