using System.Diagnostics;
using System.Globalization;
using Groundstation.Io;

namespace Groundstation.Benchmarks.Fuzzing;

/// <summary>
/// Spoils good files at random and gives them to every reader: it may refuse one in one line, and nothing else: no other
/// exception, no control character in what it says, no more than ten seconds. <c>fuzz [--minutes N | --seconds N]
/// [--seed S] [--only NAME]</c>; a finding's file is kept and named.
/// </summary>
internal static class Fuzz
{
    private static readonly TimeSpan LongestRead = TimeSpan.FromSeconds(10);

    public static int Run(string[] args)
    {
        double seconds = Argument(args, "--seconds") ?? 60 * (Argument(args, "--minutes") ?? 1);
        int seed = (int)(Argument(args, "--seed") ?? Environment.TickCount);
        int only = Array.IndexOf(args, "--only");
        FuzzTarget[] targets = [.. FuzzTargets.All().Where(t => only < 0 || t.Name == args[only + 1])];
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"fuzz --seconds {seconds} --seed {seed}"));
        Random random = new(seed);
        string folder = Directory.CreateTempSubdirectory("groundstation-fuzz-").FullName;
        Stopwatch running = Stopwatch.StartNew();
        Dictionary<string, (long Read, long Refused, double WorstS)> tally = targets.ToDictionary(
            t => t.Name, _ => (0L, 0L, 0.0));
        int findings = 0;
        for (int i = 0; running.Elapsed.TotalSeconds < seconds && findings < 20; i++)
        {
            FuzzTarget target = targets[i % targets.Length];
            byte[] spoilt = Mutations.Of(target.Good[random.Next(target.Good.Length)], target.Most, random);
            Stopwatch one = Stopwatch.StartNew();
            string? wrong = Try(target, spoilt, folder, out bool refused);
            if (one.Elapsed > LongestRead) wrong ??= $"took {one.Elapsed.TotalSeconds:F0} s";
            (long read, long no, double worst) = tally[target.Name];
            tally[target.Name] = (read + 1, no + (refused ? 1 : 0), Math.Max(worst, one.Elapsed.TotalSeconds));
            if (wrong is null) continue;
            findings++;
            string kept = Path.Combine(Path.GetTempPath(), $"groundstation-finding-{seed}-{i}");
            File.WriteAllBytes(kept, spoilt);
            Console.Error.WriteLine($"{target.Name}: {wrong}\n  kept as {kept}");
        }

        Directory.Delete(folder, true);
        foreach ((string name, (long read, long refused, double worst)) in tally)
            Console.WriteLine($"{name}: {read} files, {refused} refused, slowest {worst:F2} s");
        Console.WriteLine($"{findings} findings");
        return findings == 0 ? 0 : 1;
    }

    private static string? Try(FuzzTarget target, byte[] spoilt, string folder, out bool refused)
    {
        refused = false;
#pragma warning disable CA1031 // Whatever else comes out is a finding.
        try
        {
            target.Read(spoilt, folder);
            return null;
        }
        catch (UserErrorException e)
        {
            refused = true;
            return e.Message.Any(char.IsControl) || e.Message.Length > 2000 ? $"says: {e.Message}" : null;
        }
        catch (Exception e)
        {
            return e.ToString();
        }
#pragma warning restore CA1031
    }

    private static double? Argument(string[] args, string name)
    {
        int at = Array.IndexOf(args, name);
        return at >= 0 && at + 1 < args.Length ? double.Parse(args[at + 1], CultureInfo.InvariantCulture) : null;
    }
}
