using System.CommandLine;
using System.Globalization;
using Groundstation.Console.Feeds;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.Desk;
using Groundstation.Io.Faults;
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
            Description = "1 as it was, 10 ten times faster, from 0.1 on, max as fast as it goes",
            HelpName = "1|10|max",
            DefaultValueFactory = _ => "1",
        };
        rate.Validators.Add(result =>
        {
            if (!TryRate(result.GetValueOrDefault<string>() ?? "", out _))
                result.AddError("--rate takes a number from 0.1 to 10000, or max");
        });
        Option<string?> at = new("--at")
        { Description = "Begin there: " + SeekTarget.Forms, HelpName = "MOMENT" };
        at.Validators.Add(result =>
        {
            if (SeekTarget.Read(result.GetValueOrDefault<string>() ?? "") is null)
                result.AddError("--at takes one of " + SeekTarget.Forms);
        });
        Option<bool> withoutActs = new("--without-acts")
        { Description = "Leave out what the operator of that day did, so that all is still to do" };
        Option<string?> faults = new("--faults")
        { Description = "Faults put into the recording (TOML), such as recordings/*/faults.toml", HelpName = "FILE" };
        Option<string?> instructor = new("--instructor")
        {
            Description = "Opens a socket at this path for groundstation instruct; faults put in there are kept as "
                + "faults.toml in the flight folder, else as PATH.toml",
            HelpName = "PATH",
        };
        Option<bool> speak = new("--speak")
        {
            Description = "Read callouts aloud up to rate 2, by the program that the plan names under [speech]; a plan "
                + "from somebody else should be read first",
        };
        SessionOptions common = new("Folder for the flight's logs, made anew; default: none is written, with "
            + "--headless flights/TIME. With a screen it is written on leaving, as a "
            + "run without jumps would have written it");
        StationCommand command = new("replay", "Replay a recorded flight; practise on it.",
            "groundstation replay recordings/silent-descent --rate 10",
            "groundstation replay recordings/silent-descent --at burst",
            "groundstation replay received.nmea --headless --rate max --flight again")
        {
            recording, rate, at, faults, instructor, withoutActs, speak,
            common.Plan, common.Flight, common.Headless, common.Ascii,
        };
        command.SetAction(int (ParseResult parsed) =>
        {
            RecordingPath path = RecordingPath.Find(parsed.GetRequiredValue(recording));
            bool screen = SessionRun.HasScreen(parsed.GetValue(common.Headless), error);
            foreach (Option option in (Option[])[speak, at, instructor])
            {
                if (!screen && parsed.GetResult(option) is { Implicit: false })
                    throw new Failure($"{option.Name} needs the console on a screen; leave it out without one");
            }

            string? planFile = parsed.GetValue(common.Plan) ?? path.PlanBeside;
            FlightPlan plan = planFile is null ? FlightPlan.Default : PlanReader.Read(planFile);
            string? folder = parsed.GetValue(common.Flight) ?? (screen ? null : FlightFolder.DefaultPath(Now()));
            TryRate(parsed.GetRequiredValue(rate), out double? times);
            RecordingReader reader = RecordingReader.Open(path.File);
            FaultFile? given = parsed.GetValue(faults) is { } file ? FaultFile.Read(file) : null;
            SessionOutcome outcome;
            if (screen || given is not null || parsed.GetValue(withoutActs))
            {
                outcome = Practise(parsed.GetValue(withoutActs), given, parsed.GetValue(instructor),
                    parsed.GetValue(at), parsed.GetValue(common.Ascii));
            }
            else
            {
                using FlightFolder? flight = OpenFolder(folder, planFile, plan, reader);
                using ReplaySession session = new(reader, plan, flight, times, TimeProvider.System, null);
                SessionRun.Headless(session.Run);
                outcome = session.Outcome();
            }

            output.Write(planFile is null ? "plan: none, defaults in force\n" : $"plan: {planFile}\n");
            output.Write(HeadlessSummary.Text(outcome));
            return 0;

            // On the training desk the flight is written when it is over, as it then stands.
            SessionOutcome Practise(bool withoutActs, FaultFile? faults, string? instructor, string? at, bool ascii)
            {
                if (folder is not null) FlightFolder.Try(folder, FolderUse.Replay);
                using TrainingDesk desk =
                    new(reader, plan, times, TimeProvider.System, SessionRun.SnapshotEvery, withoutActs, faults);
                using InstructorPort? port = instructor is not null ? InstructorPort.Open(instructor, desk) : null;
                if (screen && parsed.GetValue(speak)) desk.ReadAloud();
                if (at is not null) desk.Seek(SeekTarget.Read(at)!);
                if (screen) SessionRun.OnScreen(new ReplayFeed(desk, folder), desk.Run, ascii);
                else SessionRun.Headless(desk.RunToEnd);
                using FlightFolder? flight = OpenFolder(folder, planFile, plan, reader);
                if ((port ?? (object?)flight) is not null && !desk.Faults.Faults.IsEmpty)
                {
                    string kept = folder is null ? instructor + ".toml" : Path.Combine(folder, "faults.toml");
                    desk.Faults.Write(kept);
                    output.Write($"faults: {kept}\n");
                }

                if (flight is not null)
                {
                    output.Write($"writing {folder} …\n");
                    output.Flush();
                    desk.Write(flight);
                    File.WriteAllText(Path.Combine(folder!, "debrief.txt"), desk.DebriefText());
                }

                if (screen && desk.WasExercise) output.Write(desk.DebriefText() + "\n");
                return desk.Outcome(flight);
            }
        });
        return command;
    }

    private static FlightFolder? OpenFolder(string? folder, string? planFile, FlightPlan plan, RecordingReader reader)
    {
        FlightFolder? flight = null;
        try
        {
            flight = folder is null ? null : FlightFolder.Open(folder, FolderUse.Replay);
            flight?.KeepPlan(planFile, plan);
            return flight;
        }
        catch
        {
            flight?.Dispose();
            reader.Dispose();
            throw;
        }
    }

    /// <summary>Null stands for as fast as it goes.</summary>
    private static bool TryRate(string text, out double? times)
    {
        times = null;
        if (text == "max") return true;
        if (!double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double number)
            || number is not (>= 0.1 and <= 10_000)) return false;
        times = number;
        return true;
    }

    private static Instant Now() =>
        Instant.FromUnixMilliseconds(TimeProvider.System.GetUtcNow().ToUnixTimeMilliseconds());
}
