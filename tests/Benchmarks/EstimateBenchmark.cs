using System.Diagnostics;
using System.Globalization;
using Groundstation.Benchmarks.Calibration;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;

namespace Groundstation.Benchmarks;

/// <summary>What one landing estimate costs, for every fix of a simulated flight at 1 Hz.</summary>
internal static class EstimateBenchmark
{
    public static int Run(string[] args)
    {
        if (Conditions.Parse(args) is not { } day) return 2;
        List<double> all = [];
        double tracking = 0;
        // The first flight warms the compiler up.
        for (int number = 0; number < 3; number++)
        {
            (all, tracking) = ([], 0);
            var flight = new BenchFlight(day, number);
            var tracker = new FlightTracker(FlightPlan.Default);
            var estimator = new LandingEstimator(FlightPlan.Default);
            while (!flight.Landed)
            {
                if (flight.Second() is not { } fix) continue;
                long t0 = Stopwatch.GetTimestamp();
                tracker.Fix(fix);
                long t1 = Stopwatch.GetTimestamp();
                estimator.Estimate(tracker, fix.Utc, false, null);
                all.Add(Stopwatch.GetElapsedTime(t1).TotalMilliseconds);
                tracking += Stopwatch.GetElapsedTime(t0, t1).TotalMilliseconds;
            }
        }
        all.Sort();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{all.Count} estimates: mean {all.Average():F3} ms, median {all[all.Count / 2]:F3}, 99 % {all[all.Count * 99 / 100]:F3}, worst {all[^1]:F3}; tracker {tracking / all.Count:F3} ms a fix, whole flight {(all.Sum() + tracking) / 1000:F2} s"));
        Console.WriteLine(Machine.Processor());
        return 0;
    }
}
