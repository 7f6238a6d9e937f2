namespace Groundstation.Console.Commands;

/// <summary>
/// What the user reads when a thread dies of an exception that nobody expected: one line instead of a stack trace, and
/// only after the terminal is back.
/// </summary>
internal static class LastWord
{
    /// <summary>Takes over from the runtime's own message.</summary>
    public static void Install(TextWriter error) => AppDomain.CurrentDomain.UnhandledException += (_, e) =>
    {
        string what = e.ExceptionObject is Exception x ? $"{x.GetType().Name}: {x.Message}" : "unknown";
        // Handlers of the exit run in the order of their registration: the terminal's comes first.
        AppDomain.CurrentDomain.ProcessExit += (_, _) =>
            error.WriteLine(CommandLine.OneLine($"groundstation: a defect of the program ({what})"));
        Environment.Exit(1);
    };
}
