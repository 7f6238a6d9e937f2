using System.CommandLine;

namespace Groundstation.Console.Commands;

/// <summary><c>watch</c>: a flight as it happens.</summary>
internal static class WatchCommand
{
    /// <summary>The command.</summary>
    public static Command Create(TextWriter output, TextWriter error)
    {
        Option<string[]> from = new("--from")
        {
            Description = "Tracker's receiver: serial:DEVICE[@BAUD], serial:auto, tcp:HOST:PORT, udp:PORT or - "
                + "(standard input); may be given more than once",
            HelpName = "SOURCE",
            Required = true,
        };
        Option<string?> chase = new("--chase") { Description = "The chase car's own receiver", HelpName = "SOURCE" };
        SessionOptions common =
            new("Folder for the flight's logs; default: flights/TIME. A flight that is there goes on");
        StationCommand command = new("watch", "Watch a flight live.",
            "groundstation watch --from serial:/dev/ttyUSB0@9600 --plan plan.toml")
        {
            from, chase, common.Plan, common.Flight, common.Headless, common.Ascii,
        };
        command.SetAction(int (ParseResult parsed) =>
        {
            _ = (output, error, parsed);
            throw new Failure("watch is not built yet; replay works on recordings");
        });
        return command;
    }
}
