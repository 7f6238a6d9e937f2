using System.CommandLine;
using System.Globalization;
using Groundstation.Console.Feeds;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.Folders;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;

namespace Groundstation.Console.Commands;

/// <summary><c>replay</c>: a recorded flight again.</summary>
internal static class ReplayCommand
{
    /// <summary>The command.</summary>
    public static Command Create(TextWriter output, TextWriter error)
    {
        Argument<string> recording = new("RECORDING")
        { Description = "A recording (NMEA text), or a folder that holds one" };
        Option<string> rate = new("--rate")
        {
            Description = "1 as it was, 10 ten times faster, any number above 0, max as fast as it goes",
            HelpName = "1|10|max",
            DefaultValueFactory = _ => "1",
        };
        rate.Validators.Add(result =>
        {
            if (!TryRate(result.GetValueOrDefault<string>() ?? "", out _))
                result.AddError("--rate takes a number above 0, up to 10000, or max");
        });
        SessionOptions common = new(
            "Folder for the flight's logs, made anew; default: none is written, with --headless flights/TIME");
        StationCommand command = new("replay", "Replay a recorded flight.",
            "groundstation replay recordings/silent-descent --rate 10",
            "groundstation replay received.nmea --headless --rate max --flight again")
        {
            recording, rate, common.Plan, common.Flight, common.Headless, common.Ascii,
        };
        command.SetAction(int (ParseResult parsed) =>
        {
            RecordingPath path = RecordingPath.Find(parsed.GetRequiredValue(recording));
            bool screen = SessionRun.HasScreen(parsed.GetValue(common.Headless), error);
            string? planFile = parsed.GetValue(common.Plan) ?? path.PlanBeside;
            FlightPlan plan = planFile is null ? FlightPlan.Default : PlanReader.Read(planFile);
            string? folder = parsed.GetValue(common.Flight) ?? (screen ? null : FlightFolder.DefaultPath(Now()));
            TryRate(parsed.GetRequiredValue(rate), out double? times);
            Replay(path, plan, planFile, folder, times, screen, parsed.GetValue(common.Ascii), output);
            return 0;
        });
        return command;
    }

    private static void Replay(RecordingPath path, FlightPlan plan, string? planFile, string? folder, double? rate,
        bool screen, bool ascii, TextWriter output)
    {
        RecordingReader reader = RecordingReader.Open(path.File);
        FlightFolder? flight = null;
        try
        {
            flight = folder is null ? null : FlightFolder.Open(folder, FolderUse.Replay);
            flight?.KeepPlan(planFile, plan);
        }
        catch
        {
            flight?.Dispose();
            reader.Dispose();
            throw;
        }

        using ReplaySession session =
            new(reader, plan, flight, rate, TimeProvider.System, screen ? SessionRun.SnapshotEvery : null);
        if (screen)
        {
            SessionRun.OnScreen(new ReplayFeed(session, folder), stop =>
            {
                session.Run(stop);
                session.Linger(stop);
            }, ascii);
        }
        else
        {
            SessionRun.Headless(session.Run);
        }

        output.Write(planFile is null ? "plan: none, defaults in force\n" : $"plan: {planFile}\n");
        output.Write(HeadlessSummary.Text(session.Outcome()));
    }

    /// <summary>Null stands for as fast as it goes.</summary>
    private static bool TryRate(string text, out double? times)
    {
        times = null;
        if (text == "max") return true;
        if (!double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double number)
            || number is not (> 0 and <= 10_000)) return false;
        times = number;
        return true;
    }

    private static Instant Now() =>
        Instant.FromUnixMilliseconds(TimeProvider.System.GetUtcNow().ToUnixTimeMilliseconds());
}
