using System.CommandLine;

namespace Groundstation.Console.Commands;

/// <summary><c>plan</c>: reads and checks a plan.</summary>
internal static class PlanCommand
{
    /// <summary>The command.</summary>
    public static Command Create(TextWriter output)
    {
        Argument<string> file = new("FILE") { Description = "The plan (TOML)" };
        Command command = new("plan", Help.With("Read and check a plan; say what the station will use.",
            "groundstation plan plan.toml")) { file };
        command.SetAction(int (ParseResult parsed) =>
        {
            _ = (output, parsed);
            throw new Failure("plan is not wired yet");
        });
        return command;
    }
}
