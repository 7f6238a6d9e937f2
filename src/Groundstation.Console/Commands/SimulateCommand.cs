using System.CommandLine;

namespace Groundstation.Console.Commands;

/// <summary><c>simulate</c>: a recording from a scenario.</summary>
internal static class SimulateCommand
{
    /// <summary>The command.</summary>
    public static Command Create(TextWriter output)
    {
        Argument<string> file = new("FILE") { Description = "The scenario (TOML)" };
        Option<string?> into = new("--out")
        { Description = "Folder for the recording and the truth; default: a folder named as the scenario", HelpName = "DIR" };
        Command command = new("simulate", Help.With("Make a recording of a flight that never was, and its truth.",
            "groundstation simulate recordings/silent-descent/scenario.toml --out /tmp/silent")) { file, into };
        command.SetAction(int (ParseResult parsed) =>
        {
            _ = (output, parsed);
            throw new Failure("simulate is not wired yet");
        });
        return command;
    }
}
