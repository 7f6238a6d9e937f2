using System.Reflection;
using System.Runtime.CompilerServices;
using NetArchTest.Rules;
using Xunit;
using TestResult = NetArchTest.Rules.TestResult;

namespace Groundstation.Core.Tests;

/// <summary>The data's way has one direction: a stage uses only the stages before it.</summary>
public class ArchitectureTests
{
    private static readonly string[] Order =
        ["Quantities", "Earth", "Air", "Fill", "Plan", "Receive", "Sentences", "Fixes", "Flight", "Landing", "Chase",
        "Alarms", "Callouts", "Readiness"];

    // What the framework is used for: numbers, text, collections, and the packed tables of the geoid and the magnetic model.
    private static readonly string[] Assemblies =
        ["System.Runtime", "System.Runtime.InteropServices", "System.Runtime.Intrinsics", "System.Collections",
        "System.Collections.Immutable", "System.Linq", "System.Memory", "System.Text.RegularExpressions",
        "System.IO.Compression"];

    private static readonly Assembly Core = typeof(Station).Assembly;

    public static TheoryData<string> Stages => [.. Order];

    [Theory, MemberData(nameof(Stages))]
    public void A_stage_uses_only_stages_before_it(string stage)
    {
        TestResult result = Types.InAssembly(Core).That().ResideInNamespace($"Groundstation.Core.{stage}")
            .Should().NotHaveDependencyOnAny([.. After(stage).Select(s => $"Groundstation.Core.{s}")]).GetResult();
        Assert.True(result.IsSuccessful, $"{stage} reaches forward: {Failing(result)}");
    }

    /// <summary>A constant of a later stage leaves no trace in the program: what is opened at the top of a file does.</summary>
    [Theory, MemberData(nameof(Stages))]
    public void A_stage_opens_no_later_stage(string stage)
    {
        string folder = Path.Combine(Sources(), stage);
        string[] later = [.. After(stage)];
        IEnumerable<string> opened = Directory.EnumerateFiles(folder, "*.cs", SearchOption.AllDirectories)
            .SelectMany(file => File.ReadLines(file)
                .Where(line => line.StartsWith("using ", StringComparison.Ordinal)
                    && later.Any(s => line.Contains($"Groundstation.Core.{s}", StringComparison.Ordinal)))
                .Select(line => $"{Path.GetFileName(file)}: {line}"));
        Assert.Empty(opened);
    }

    /// <summary>Only the checklist, which is a function of the snapshot, looks at the whole.</summary>
    [Theory, MemberData(nameof(Stages))]
    public void A_stage_does_not_know_the_station(string stage)
    {
        string[] allowed = stage == "Readiness" ? [typeof(Snapshot).FullName!] : [];
        string[] whole = [.. Core.GetTypes().Where(t => t is { Namespace: "Groundstation.Core", IsNested: false })
            .Select(t => t.FullName!).Except(allowed)];
        TestResult result = Types.InAssembly(Core).That().ResideInNamespace($"Groundstation.Core.{stage}")
            .Should().NotHaveDependencyOnAny(whole).GetResult();
        Assert.True(result.IsSuccessful, $"{stage} knows the whole: {Failing(result)}");
    }

    [Fact]
    public void Every_folder_of_the_core_is_a_stage_in_the_list()
    {
        IEnumerable<string> folders = Core.GetTypes()
            .Select(t => t.Namespace ?? "").Where(n => n.StartsWith("Groundstation.Core.", StringComparison.Ordinal))
            .Select(n => n.Split('.')[2]).Distinct();
        Assert.Empty(folders.Except([.. Order, "Simulation"]));
    }

    /// <summary>Consoles, sockets, threads and processes are in other assemblies of the framework than these.</summary>
    [Fact]
    public void The_core_refers_to_the_framework_s_plain_parts_only() =>
        Assert.Empty(Core.GetReferencedAssemblies().Select(a => a.Name!).Except(Assemblies));

    [Theory]
    [InlineData("System.IO.File")]
    [InlineData("System.IO.Directory")]
    [InlineData("System.IO.StreamWriter")]
    [InlineData("System.Threading")]
    [InlineData("System.Random")]
    [InlineData("System.TimeProvider")]
    [InlineData("System.Diagnostics.Stopwatch")]
    public void The_core_has_no_clock_thread_file_or_random_source(string type)
    {
        TestResult result = Types.InAssembly(Core).Should().NotHaveDependencyOnAny(type).GetResult();
        Assert.True(result.IsSuccessful, Failing(result));
    }

    /// <summary>Two stations in one process must not meet: what is shared never changes.</summary>
    [Fact]
    public void The_core_has_no_mutable_statics()
    {
        IEnumerable<string> fields = Core.GetTypes()
            .Where(t => !t.IsDefined(typeof(CompilerGeneratedAttribute)) && t.Namespace?.Contains("Generated") != true)
            .SelectMany(t => t.GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic))
            .Where(f => !f.IsInitOnly && !f.IsLiteral && !f.Name.StartsWith("<>", StringComparison.Ordinal))
            .Select(f => $"{f.DeclaringType!.FullName}.{f.Name}");
        Assert.Empty(fields);
    }

    private static IEnumerable<string> After(string stage) =>
        Order.SkipWhile(s => s != stage).Skip(1).Append("Simulation");

    private static string Failing(TestResult result) =>
        string.Join(", ", result.FailingTypes?.Select(t => t.FullName) ?? []);

    private static string Sources([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "../../src/Groundstation.Core"));
}
