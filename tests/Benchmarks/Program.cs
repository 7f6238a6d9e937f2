using Groundstation.Benchmarks;
using Groundstation.Benchmarks.Consoles;
using Groundstation.Benchmarks.Fuzzing;

// One class a benchmark; each is given the arguments behind its name and returns the exit code.
var benchmarks = new SortedDictionary<string, Func<string[], int>>(StringComparer.Ordinal)
{
    ["calibrate"] = CalibrationBenchmark.Run,
    ["decode"] = DecodeBenchmark.Run,
    ["estimate"] = EstimateBenchmark.Run,
    ["inspect"] = InspectBenchmark.Run,
    ["fuzz"] = Fuzz.Run,
    ["keys"] = KeyLag.Run,
    ["kills"] = Kills.Run,
    ["rebuild"] = Kills.Rebuild,
    ["sync"] = Kills.Sync,
    ["replug"] = Replug.Run,
    ["soak"] = Soak.Run,
    ["whole-flight"] = WholeFlight.Run,
    ["fuzz-sentences"] = SentenceFuzz.Run,
    ["start-up"] = SmallMachines.StartUp,
    ["latency"] = SmallMachines.Latency,
    ["ten-hertz"] = SmallMachines.TenHertz,
    ["long-replay"] = SmallMachines.LongReplay,
    ["seek"] = SeekBenchmark.Run,
};

if (args.Length > 0 && benchmarks.TryGetValue(args[0], out var run)) return run(args[1..]);
Console.Error.WriteLine($"usage: Benchmarks NAME [ARGUMENTS]; NAME is one of {string.Join(", ", benchmarks.Keys)}");
return 2;
