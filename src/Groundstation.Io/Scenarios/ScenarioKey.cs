using Groundstation.Core.Simulation;
using Groundstation.Io.PlanFile;
using Tomlyn.Syntax;

namespace Groundstation.Io.Scenarios;

/// <summary>One key of a scenario file: what it may be and where its value goes.</summary>
/// <param name="Name"><c>section.key</c>.</param>
/// <param name="Allowed">What is allowed, as the error line says it.</param>
/// <param name="Set">Takes the value into the scenario; null when the value is not allowed.</param>
internal sealed record ScenarioKey(string Name, string Allowed, Func<Scenario, ValueSyntax, Scenario?> Set)
{
    /// <summary>A number within bounds, both allowed.</summary>
    public static ScenarioKey Number(string name, double min, double max, string unit,
        Func<Scenario, double, Scenario> set) => new(name, PlanKey.Range(min, max, unit, ""),
        (scenario, value) => PlanKey.Real(value) is { } v && v >= min && v <= max ? set(scenario, v) : null);

    /// <summary>A whole number within bounds.</summary>
    public static ScenarioKey Whole(string name, long min, long max, Func<Scenario, long, Scenario> set) =>
        new(name, $"a whole number from {min} to {max}",
        (scenario, value) => value is IntegerValueSyntax i && i.Value >= min && i.Value <= max
            ? set(scenario, i.Value) : null);

    /// <summary>A text in quotes that <paramref name="set"/> takes or refuses.</summary>
    public static ScenarioKey Text(string name, string allowed, Func<Scenario, string, Scenario?> set) =>
        new(name, allowed, (scenario, value) => value is StringValueSyntax { Value: { } s } ? set(scenario, s) : null);
}

/// <summary>One kind of block that may stand several times, such as <c>[[wind]]</c>.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Keys">Its keys with bounds.</param>
/// <param name="Required">True when every key must stand in every block.</param>
/// <param name="Add">Takes one block into the scenario; says what is wrong with it, null when nothing.</param>
internal sealed record ScenarioRow(string Name, (string Key, double Min, double Max, string Unit)[] Keys, bool Required,
    Func<Scenario, double?[], (Scenario Scenario, string? Wrong)> Add);
