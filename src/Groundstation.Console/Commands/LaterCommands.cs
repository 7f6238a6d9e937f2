using System.CommandLine;

namespace Groundstation.Console.Commands;

/// <summary>Commands that have their place but no work behind them yet; they say so.</summary>
internal static class LaterCommands
{
    /// <summary><c>report DIR</c>.</summary>
    public static StationCommand Report() => Later("report", "DIR", "A flight's report from its flight folder.",
        "groundstation report flights/2026-06-21");

    private static StationCommand Later(string name, string argument, string does, string example)
    {
        Argument<string> what = new(argument) { Description = "What to read" };
        StationCommand command = new(name, does + " (not built yet)", example) { what };
        command.SetAction(int (ParseResult parsed) => throw new Failure(
            $"{name} is not built yet; nothing was read from {parsed.GetValue(what)}"));
        return command;
    }
}
