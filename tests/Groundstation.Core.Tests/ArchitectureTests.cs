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

    public static TheoryData<string> Stages => [.. Order];

    [Theory, MemberData(nameof(Stages))]
    public void A_stage_uses_only_stages_before_it(string stage)
    {
        string[] later = [.. Order.SkipWhile(s => s != stage).Skip(1).Append("Simulation")
            .Select(s => $"Groundstation.Core.{s}")];
        TestResult result = Types.InAssembly(typeof(Station).Assembly)
            .That().ResideInNamespace($"Groundstation.Core.{stage}")
            .Should().NotHaveDependencyOnAny(later).GetResult();
        Assert.True(result.IsSuccessful,
            $"{stage} reaches forward: {string.Join(", ", result.FailingTypes?.Select(t => t.FullName) ?? [])}");
    }

    [Fact]
    public void Every_folder_of_the_core_is_a_stage_in_the_list()
    {
        IEnumerable<string> folders = typeof(Station).Assembly.GetTypes()
            .Select(t => t.Namespace ?? "").Where(n => n.StartsWith("Groundstation.Core.", StringComparison.Ordinal))
            .Select(n => n.Split('.')[2]).Distinct();
        Assert.Empty(folders.Except([.. Order, "Simulation"]));
    }

    [Fact]
    public void The_core_refers_to_nothing_but_the_framework()
    {
        IEnumerable<string> others = typeof(Station).Assembly.GetReferencedAssemblies().Select(a => a.Name!)
            .Where(n => !n.StartsWith("System.", StringComparison.Ordinal) && n != "netstandard");
        Assert.Empty(others);
    }

    [Theory]
    [InlineData("System.IO.File")]
    [InlineData("System.Threading.Thread")]
    [InlineData("System.Threading.Tasks.Task")]
    [InlineData("System.Random")]
    [InlineData("System.Console")]
    [InlineData("System.TimeProvider")]
    [InlineData("System.Diagnostics.Stopwatch")]
    public void The_core_has_no_clock_thread_file_or_random_source(string type)
    {
        TestResult result = Types.InAssembly(typeof(Station).Assembly).Should().NotHaveDependencyOnAny(type).GetResult();
        Assert.True(result.IsSuccessful, string.Join(", ", result.FailingTypes?.Select(t => t.FullName) ?? []));
    }
}
