using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace Groundstation.Console.Commands;

/// <summary>A command whose <c>--help</c> ends with examples that can be typed as they stand.</summary>
internal sealed class StationCommand(string name, string does, params string[] examples) : Command(name, does)
{
    /// <summary>Whole command lines.</summary>
    public IReadOnlyList<string> Examples { get; } = examples;

    /// <summary>What only this command's own help tells, lines ended by LF; empty: nothing.</summary>
    public string More { get; init; } = "";
}

/// <summary>The library's help, then the examples.</summary>
internal sealed class HelpWithExamples(HelpAction inner, IReadOnlyList<string> general) : SynchronousCommandLineAction
{
    /// <inheritdoc/>
    public override bool ClearsParseErrors => inner.ClearsParseErrors;

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        int result = inner.Invoke(parseResult);
        TextWriter output = parseResult.InvocationConfiguration.Output;
        StationCommand? own = parseResult.CommandResult.Command as StationCommand;
        output.Write(own?.More);
        output.WriteLine("Examples:");
        IReadOnlyList<string> examples = own?.Examples ?? general;
        foreach (string example in examples) output.WriteLine("  " + example);
        return result;
    }
}
