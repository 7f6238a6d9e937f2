using System.Globalization;
using System.Text;
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

    // What results/calibration.md shows: the ordinary day, then one thing at a time as it could also be.
    private static readonly string[] Days =
    [
        "", "--change 1.4 --winds 0.5", "--change 1", "--change 4", "--length 700", "--length 3000", "--law field",
        "--law trend", "--gust 1", "--swing 12 --bob 0.8",
        "--change 1 --winds 0.6 --bob 1", "--change 1 --winds 0.6 --unsteady 0.06 --bob 0.6",
        // Canopies that never fall steadily: the plain estimate then gains nothing from burst down to 10 km.
        "--law trend --change 1.4 --winds 0.5 --bob 1.5",
        "--noise 3", "--every 5", "--rough 0 --tangled 0",
    ];

    /// <summary>With arguments: that day, printed. Without: all of <see cref="Days"/>, written to the results.</summary>
    public static int Run(string[] args)
    {
        if (args.Length > 0) return Conditions.Parse(args) is { } one ? Print(Table(one)) : 2;
        var text = new StringBuilder("# Calibration of the landing estimate\n\n");
        text.Append(CultureInfo.InvariantCulture, $"{Machine.Processor()}; {Machine.Runtime()}.\n")
            .Append("Made by `Benchmarks calibrate`. Simulated flights without a plan; see `Calibration/` for what they are. ")
            .Append("\"Plain\" is a short script's estimate: layer means, descent constant of the last minute. Radii: the ")
            .Append("error that half and 95 % of flights stay below, over the edge of the 50 % and 95 % area; 1 is honest.\n\n");
        foreach (string day in Days)
        {
            string table = Table(Conditions.Parse(day.Split(' ', StringSplitOptions.RemoveEmptyEntries))!);
            Print(table);
            text.Append(table).Append('\n');
        }
        File.WriteAllText(Path.Combine(Machine.Root(), "tests", "Benchmarks", "results", "calibration.md"), text.ToString());
        return 0;
    }

    private static int Print(string text)
    {
        Console.WriteLine(text);
        return 0;
    }

    private static string Table(Conditions day)
    {
        var outcomes = new Outcome?[day.Flights][];
        Parallel.For(0, day.Flights, i => outcomes[i] = Fly(day, i));
        Tally[] tallies = [.. Checkpoints.Select(static name => new Tally(name))];
        foreach (Outcome?[] flight in outcomes)
            for (int k = 0; k < tallies.Length; k++)
                if (flight[k] is { } outcome) tallies[k].Add(outcome);
        List<string> lines = ["`calibrate " + day + "`", "", Tally.Header, .. tallies.Select(static t => t.Row()), ""];
        return string.Join('\n', lines);
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
