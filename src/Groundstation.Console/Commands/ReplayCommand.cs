using System.CommandLine;

namespace Groundstation.Console.Commands;

/// <summary><c>replay</c>: a recorded flight again.</summary>
internal static class ReplayCommand
{
    /// <summary>The command.</summary>
    public static Command Create(TextWriter output, TextWriter error)
    {
        Argument<string> recording = new("RECORDING")
        { Description = "A recording (NMEA text), or a folder that holds received.nmea" };
        Option<string> rate = new("--rate")
        {
            Description = "1 as it was, 10 ten times faster, max as fast as it goes",
            HelpName = "1|10|max",
            DefaultValueFactory = _ => "1",
        };
        rate.AcceptOnlyFromAmong("1", "10", "max");
        SessionOptions common = new();
        Command command = new("replay", Help.With("Replay a recorded flight.",
            "groundstation replay recordings/silent --rate 10"))
        {
            recording, rate, common.Plan, common.Flight, common.Headless, common.Ascii,
        };
        command.SetAction(int (ParseResult parsed) =>
        {
            _ = (output, error, parsed);
            throw new Failure("replay is not wired yet");
        });
        return command;
    }
}
