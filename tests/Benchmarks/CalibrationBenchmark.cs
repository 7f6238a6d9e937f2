using System.Diagnostics;
using System.Globalization;
using Groundstation.Benchmarks.Calibration;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;

namespace Groundstation.Benchmarks;

/// <summary>Simulated flights, and how far and how honestly the landing estimate foretells where they come down.</summary>
internal static class CalibrationBenchmark
{
    private static readonly string[] Checkpoints =
    [
        "15 km on the way up", "2 min after burst", "15 km", "10 km", "5 km", "2 km", "last fix heard",
    ];

    public static int Run(string[] args)
    {
        if (Conditions.Parse(args) is not { } day) return 2;
        var outcomes = new Outcome?[day.Flights][];
        long started = Stopwatch.GetTimestamp();
        Parallel.For(0, day.Flights, i => outcomes[i] = Fly(day, i));
        Tally[] tallies = [.. Checkpoints.Select(static name => new Tally(name))];
        foreach (Outcome?[] flight in outcomes)
            for (int k = 0; k < tallies.Length; k++)
                if (flight[k] is { } outcome) tallies[k].Add(outcome);
        List<string> lines = ["`calibrate " + day + "`", "", Tally.Header, .. tallies.Select(static t => t.Row()), ""];
        string text = string.Join('\n', lines) + "\n";
        Console.Write(text);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{Stopwatch.GetElapsedTime(started).TotalSeconds:F1} s, {Machine.Processor()}"));
        return 0;
    }

    private static Outcome?[] Fly(Conditions day, int number)
    {
        var flight = new BenchFlight(day, number);
        FlightPlan plan = FlightPlan.Default with { Seed = (ulong)number };
        var tracker = new FlightTracker(plan);
        var estimator = new LandingEstimator(plan);
        var plain = new PlainEstimator();
        var made = new (LandingEstimate Ours, (GeoPoint Place, double Seconds)? Plain)?[Checkpoints.Length];
        Fix? last = null;
        while (!flight.Landed)
        {
            if (flight.Second() is not { } fix) continue;
            tracker.Fix(fix);
            plain.Take(fix, flight.Falling);
            last = fix;
            for (int k = 0; k < Checkpoints.Length - 1; k++)
            {
                if (made[k] is null && Due(k, flight)) made[k] = (estimator.Estimate(tracker, fix.Utc, false, null)!, plain.Estimate());
            }
        }
        // Silent from there on: what it says when the payload must be down.
        made[^1] = (estimator.Estimate(tracker, last!.Utc.PlusSeconds(300), true, null)!, plain.Estimate());
        return [.. made.Select((m, k) => m is { } e
            ? Outcome.Of(e.Ours, k == 0 ? null : e.Plain, flight.Position, e.Ours.LandingUtc.SecondsSince(flight.Utc),
                flight.Utc.SecondsSince(e.Ours.Utc) + (k == made.Length - 1 ? 300 : 0)) : (Outcome?)null)];
    }

    private static bool Due(int checkpoint, BenchFlight flight)
    {
        double above = flight.HeightM - flight.GroundM;
        return checkpoint switch
        {
            0 => !flight.Falling && above >= 15_000,
            1 => flight.TimeS >= flight.BurstS + 120,
            2 => flight.Falling && above <= 15_000,
            3 => flight.Falling && above <= 10_000,
            4 => flight.Falling && above <= 5_000,
            _ => flight.Falling && above <= 2_000,
        };
    }
}
