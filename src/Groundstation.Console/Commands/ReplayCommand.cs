using System.CommandLine;
using Groundstation.Console.Feeds;
using Groundstation.Core.Plan;
using Groundstation.Io;
using Groundstation.Io.Desk;
using Groundstation.Io.Faults;
using Groundstation.Io.Folders;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;

namespace Groundstation.Console.Commands;

/// <summary><c>replay</c>: a recorded flight again.</summary>
internal sealed class ReplayCommand
{
    private readonly ReplayOptions _options;
    private readonly ParseResult _told;
    private readonly TextWriter _output;
    private readonly bool _screen;
    private readonly string? _planFile, _folder;
    private readonly FlightPlan _plan;
    private readonly RecordingReader _reader;
    private readonly double? _times;

    private ReplayCommand(ReplayOptions options, ParseResult told, TextWriter output, TextWriter error)
    {
        (_options, _told, _output) = (options, told, output);
        RecordingPath path = RecordingPath.Find(told.GetRequiredValue(options.Recording));
        _screen = SessionRun.HasScreen(told.GetValue(options.Common.Headless), error);
        foreach (Option option in (Option[])[options.Speak, options.At, options.Instructor])
        {
            if (!_screen && told.GetResult(option) is { Implicit: false })
                throw new UserErrorException($"{option.Name} needs the console on a screen; leave it out without one");
        }

        _planFile = told.GetValue(options.Common.Plan) ?? path.PlanBeside;
        _plan = _planFile is null ? FlightPlan.Default : PlanReader.Read(_planFile);
        _folder = told.GetValue(options.Common.Flight)
            ?? (_screen ? null : FlightFolder.DefaultPath(TimeProvider.System));
        ReplayOptions.TryRate(told.GetRequiredValue(options.Rate), out _times);
        _reader = RecordingReader.Open(path.File);
    }

    /// <summary>The command.</summary>
    public static Command Create(TextWriter output, TextWriter error)
    {
        ReplayOptions options = new();
        StationCommand command = new("replay", "Replay a recorded flight; practise on it.",
            "groundstation replay recordings/silent-descent --rate 10",
            "groundstation replay recordings/silent-descent --at burst",
            "groundstation replay received.nmea --headless --rate max --flight again")
        {
            options.Recording, options.Rate, options.At, options.Faults, options.Instructor, options.WithoutActs,
            options.Speak, options.Common.Plan, options.Common.Flight, options.Common.Headless, options.Common.Ascii,
        };
        command.SetAction(int (ParseResult told) => new ReplayCommand(options, told, output, error).Run());
        return command;
    }

    private int Run()
    {
        FaultFile? faults = _told.GetValue(_options.Faults) is { } file ? FaultFile.Read(file) : null;
        bool desk = _screen || faults is not null || _told.GetValue(_options.WithoutActs);
        SessionOutcome outcome = desk ? Practise(faults) : Straight();
        _output.Write(_planFile is null ? "plan: none, defaults in force\n" : $"plan: {_planFile}\n");
        _output.Write(HeadlessSummary.Text(outcome));
        return 0;
    }

    private SessionOutcome Straight()
    {
        using FlightFolder? flight = OpenFolder();
        using ReplaySession session = new(_reader, _plan, flight, _times, TimeProvider.System);
        SessionRun.Headless(session.Run);
        return session.Outcome();
    }

    // On the training desk the flight is written when it is over, as it then stands.
    private SessionOutcome Practise(FaultFile? faults)
    {
        if (_folder is not null) FlightFolder.TryReplay(_folder, _reader.Path);
        using TrainingDesk desk = new(_reader, _plan, _times, TimeProvider.System, SessionRun.SnapshotEvery,
            _told.GetValue(_options.WithoutActs), faults);
        string? instructor = _told.GetValue(_options.Instructor);
        using InstructorPort? port = instructor is not null ? InstructorPort.Open(instructor, desk) : null;
        if (_screen && _told.GetValue(_options.Speak)) desk.ReadAloud();
        if (_told.GetValue(_options.At) is { } at) desk.Seek(SeekTarget.Read(at)!);
        if (_screen)
            SessionRun.OnScreen(new ReplayFeed(desk, _folder), desk.Run, _told.GetValue(_options.Common.Ascii));
        else SessionRun.Headless(desk.RunToEnd);
        using FlightFolder? flight = OpenFolder();
        if ((port ?? (object?)flight) is not null && !desk.Faults.Faults.IsEmpty)
        {
            string kept = _folder is null ? instructor + ".toml" : Path.Combine(_folder, "faults.toml");
            desk.Faults.Write(kept);
            _output.Write($"faults: {kept}\n");
        }

        if (flight is not null)
        {
            _output.Write($"writing {_folder} …\n");
            _output.Flush();
            desk.Write(flight);
            flight.Finish();
            File.WriteAllText(Path.Combine(_folder!, "debrief.txt"), desk.DebriefText());
        }

        if (_screen && desk.WasExercise) _output.Write(desk.DebriefText() + "\n");
        return desk.Outcome(flight);
    }

    private FlightFolder? OpenFolder()
    {
        FlightFolder? flight = null;
        try
        {
            flight = _folder is null ? null : FlightFolder.OpenReplay(_folder, _reader.Path, TimeProvider.System);
            if (flight is { Anew.Length: > 0 }) _output.Write(flight.Anew + "\n");
            flight?.KeepPlan(_planFile, _plan);
            return flight;
        }
        catch
        {
            flight?.Dispose();
            _reader.Dispose();
            throw;
        }
    }
}
