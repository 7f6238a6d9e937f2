using System.CommandLine;
using System.Globalization;
using Groundstation.Core.Simulation;
using Groundstation.Io.Scenarios;

namespace Groundstation.Console.Commands;

/// <summary><c>simulate</c>: a recording from a scenario.</summary>
internal static class SimulateCommand
{
    /// <summary>The command.</summary>
    public static Command Create(TextWriter output)
    {
        Argument<string> file = new("FILE") { Description = "The scenario (TOML)" };
        Option<string?> into = new("--out")
        { Description = "Folder for flight.nmea and truth.csv; default: beside the scenario", HelpName = "DIR" };
        StationCommand command = new("simulate", "Make the recording of a flight that never was, and its truth.",
            "groundstation simulate recordings/silent-descent/scenario.toml --out silent") { file, into };
        command.SetAction(int (ParseResult parsed) =>
        {
            string path = parsed.GetRequiredValue(file);
            Scenario scenario = ScenarioFile.Read(path);
            string folder = parsed.GetValue(into) ?? Path.GetDirectoryName(Path.GetFullPath(path)) ?? ".";
            SimulationResult result = SimulationWriter.Write(scenario, folder);
            output.Write(string.Create(CultureInfo.InvariantCulture,
                $"recording: {result.Recording}, {result.Lines} lines\n"));
            output.Write($"truth: {result.Truth}\n");
            output.Write("burst: " + Words(result.Burst, scenario, "none"));
            output.Write("landing: " + Words(result.Landing, scenario, "none: still aloft after a week"));
            return 0;
        });
        return command;
    }

    private static string Words(TrueState? state, Scenario scenario, string none) => state is { } s
        ? string.Create(CultureInfo.InvariantCulture,
            $"{s.Height.Metres:F0} m at {scenario.LaunchUtc.PlusSeconds(s.TimeS)} over {s.Position}\n")
        : none + "\n";
}
