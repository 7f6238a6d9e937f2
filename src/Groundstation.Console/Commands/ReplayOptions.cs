using System.CommandLine;
using System.Globalization;
using Groundstation.Io.Desk;

namespace Groundstation.Console.Commands;

/// <summary>What <c>replay</c> may be told.</summary>
internal sealed class ReplayOptions
{
    /// <summary>All of them, with what is asked of each.</summary>
    public ReplayOptions()
    {
        Rate.Validators.Add(result =>
        {
            if (!TryRate(result.GetValueOrDefault<string>() ?? "", out _))
                result.AddError("--rate takes a number from 0.1 to 10000, or max");
        });
        At.Validators.Add(result =>
        {
            if (SeekTarget.Read(result.GetValueOrDefault<string>() ?? "") is null)
                result.AddError("--at takes one of " + SeekTarget.Forms);
        });
    }

    /// <summary>The recording.</summary>
    public Argument<string> Recording { get; } = new("RECORDING")
    { Description = "A recording (NMEA text), or a folder that holds one" };

    /// <summary>The pace; see <see cref="TryRate"/>.</summary>
    public Option<string> Rate { get; } = new("--rate")
    {
        Description = "1 as it was, 10 ten times faster, from 0.1 on, max as fast as it goes",
        HelpName = "1|10|max",
        DefaultValueFactory = _ => "1",
    };

    /// <summary>Where it begins.</summary>
    public Option<string?> At { get; } = new("--at")
    { Description = "Begin there: " + SeekTarget.Forms, HelpName = "MOMENT" };

    /// <summary>Without what the operator did.</summary>
    public Option<bool> WithoutActs { get; } = new("--without-acts")
    { Description = "Leave out what the operator of that day did, so that all is still to do" };

    /// <summary>Faults put in.</summary>
    public Option<string?> Faults { get; } = new("--faults")
    { Description = "Faults put into the recording (TOML), such as recordings/*/faults.toml", HelpName = "FILE" };

    /// <summary>The instructor's socket.</summary>
    public Option<string?> Instructor { get; } = new("--instructor")
    {
        Description = "Opens a socket at this path for groundstation instruct; faults put in there are kept as "
            + "faults.toml in the flight folder, else as PATH.toml",
        HelpName = "PATH",
    };

    /// <summary>Callouts aloud.</summary>
    public Option<bool> Speak { get; } = new("--speak")
    {
        Description = "Read callouts aloud up to rate 2, by the program that the plan names under [speech]; a plan "
            + "from somebody else should be read first",
    };

    /// <summary>What <c>watch</c> may be told, too.</summary>
    public SessionOptions Common { get; } = new("Folder for the flight's logs, made anew; default: none is written, with "
        + "--headless flights/TIME. With a screen it is written on leaving, as a run without jumps would have written it",
        "plan.toml beside the recording");

    /// <summary>Reads a pace: times as fast as it was, 0.1 to 10 000; null stands for as fast as it goes.</summary>
    public static bool TryRate(string text, out double? times)
    {
        times = null;
        if (text == "max") return true;
        if (!double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double number)
            || number is not (>= 0.1 and <= 10_000)) return false;
        times = number;
        return true;
    }
}
