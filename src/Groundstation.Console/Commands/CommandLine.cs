using System.CommandLine;
using System.CommandLine.Help;
using Groundstation.Io;
using Groundstation.Io.Sources;

namespace Groundstation.Console.Commands;

/// <summary>
/// The program's commands and their common manners: 0 success, 1 a failure in one line on standard error, 2 wrong
/// usage; never a stack trace.
/// </summary>
internal static class CommandLine
{
    private static readonly string[] General =
    [
        "groundstation replay recordings/silent-descent --rate 10",
        $"groundstation watch --from serial:{SourceAddress.ExamplePorts.Radio}@9600 --plan plan.toml",
    ];

    /// <summary>Runs one command line; returns the exit code.</summary>
    public static int Run(string[] args, TextWriter output, TextWriter error)
    {
        (output, error) = (new LastingWriter(output), new LastingWriter(error));
        RootCommand root = new("Receiver console for one high-altitude balloon: where it is, whether to believe it, "
            + "where it will come down.")
        {
            WatchCommand.Create(output, error),
            ReplayCommand.Create(output, error),
            InstructCommand.Create(output),
            PlanCommand.Create(output),
            SimulateCommand.Create(output),
            InspectCommand.Create(output),
            ReportCommand.Create(output, error),
        };
        if (root.Options.OfType<HelpOption>().FirstOrDefault() is { Action: HelpAction plain } help)
            help.Action = new HelpWithExamples(plain, General);
        if (args.Length == 0) args = ["--help"];
        ParseResult parsed = root.Parse(args);
        if (parsed.Errors.Count > 0)
        {
            string command = parsed.CommandResult.Command is RootCommand ? "" : " " + parsed.CommandResult.Command.Name;
            string what = parsed.UnmatchedTokens.Count > 0
                ? $"'{parsed.UnmatchedTokens[0]}' is not understood" : parsed.Errors[0].Message.TrimEnd('.');
            error.WriteLine(OneLine($"groundstation{command}: {what}. See groundstation{command} --help."));
            return 2;
        }

        try
        {
            return parsed.Invoke(new InvocationConfiguration
            {
                Output = output,
                Error = error,
                EnableDefaultExceptionHandler = false,
                // Signals are the console's own matter: see TerminalGuard.
                ProcessTerminationTimeout = null,
            });
        }
        catch (Exception e) when (e is UserErrorException or IOException or UnauthorizedAccessException)
        {
            error.WriteLine(OneLine("groundstation: " + e.Message));
        }
#pragma warning disable CA1031 // The last line of defence: whatever it is, the user gets one line, not a stack trace.
        catch (Exception e)
#pragma warning restore CA1031
        {
            error.WriteLine(OneLine($"groundstation: a defect of the program ({e.GetType().Name}: {e.Message})"));
        }

        return 1;
    }

    /// <summary>Text on one line, without control characters.</summary>
    internal static string OneLine(string text) =>
        string.Join(' ', text.Split([' ', .. text.Where(UserErrorException.IsUnseen)],
            StringSplitOptions.RemoveEmptyEntries));
}
