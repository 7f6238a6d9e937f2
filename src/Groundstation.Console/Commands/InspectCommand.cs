using System.CommandLine;
using Groundstation.Io.Inspection;

namespace Groundstation.Console.Commands;

/// <summary><c>inspect</c>: what a recording holds, and whether it is fit for flight.</summary>
internal static class InspectCommand
{
    /// <summary>The command.</summary>
    public static Command Create(TextWriter output)
    {
        Argument<string> recording = new("RECORDING")
        {
            Description =
            "A recording, or any receiver's log (NMEA text)"
        };
        Option<bool> json = new("--json") { Description = "The same as JSON, for other programs" };
        StationCommand command = new("inspect",
            "What a recording holds: receiver, rates, faults, fit for flight or not.",
            "groundstation inspect recordings/silent-descent", "groundstation inspect receiver.log --json")
        {
            recording, json,
        };
        command.SetAction(int (ParseResult parsed) =>
        {
            RecordingInspection.Run(parsed.GetRequiredValue(recording), parsed.GetValue(json), output);
            return 0;
        });
        return command;
    }
}
