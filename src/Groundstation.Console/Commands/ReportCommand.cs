using System.CommandLine;
using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Io;
using Groundstation.Io.Folders;
using Groundstation.Io.Report;

namespace Groundstation.Console.Commands;

/// <summary><c>report</c>: a flight's report and exports from its folder or recording.</summary>
internal static class ReportCommand
{
    /// <summary>The command.</summary>
    public static Command Create(TextWriter output, TextWriter error)
    {
        Argument<string> what = new("DIR")
        { Description = "A flight folder, also one that was cut off, or a recording of any receiver (NMEA text)" };
        Option<string?> into = new("--out")
        {
            Description = "Folder for the report; default: report in the flight folder, beside a recording NAME-report",
            HelpName = "DIR",
        };
        Option<string?> plan = new("--plan")
        { Description = "The flight's plan (TOML); default: plan.toml beside the recording", HelpName = "FILE" };
        Option<string?> found = new("--found")
        {
            Description = "Where the payload was found, decimal degrees: the estimates are held against it",
            HelpName = "LAT,LON",
        };
        found.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<string>() is { } text && Place(text) is null)
                result.AddError("--found takes decimal degrees, latitude then longitude: 47.17681,3.50976");
        });
        StationCommand command = new("report", "Report a flight: one HTML page with plots, and files for maps and "
            + "spreadsheets.", "groundstation report flights/2026-06-21T090000Z",
            "groundstation report recordings/silent-descent --out silent --found 47.17681,3.50976")
        {
            what, into, plan, found,
        };
        command.SetAction(int (ParseResult parsed) =>
        {
            string path = parsed.GetRequiredValue(what);
            Progress progress = new(error);
            FlightRecord? record = null;
            try
            {
                SessionRun.Headless(stop => record = FlightReader.Read(path, parsed.GetValue(plan),
                    parsed.GetValue(found) is { } at ? Place(at) : null, progress.Tell, stop));
            }
            catch (OperationCanceledException)
            {
                throw new UserErrorException("stopped; no report was written");
            }

            string folder = parsed.GetValue(into) ?? DefaultFolder(path);
            IReadOnlyList<string> files = FlightReport.Write(record!, folder);
            output.Write($"report: {CommandLine.OneLine(Path.Combine(folder, files[0]))}\n");
            output.Write($"beside it: {string.Join(", ", files.Skip(1))}\n");
            return 0;
        });
        return command;
    }

    private static string DefaultFolder(string path)
    {
        string full = Path.TrimEndingDirectorySeparator(path);
        return Directory.Exists(path) || Path.GetFileName(full) == FlightFolder.RecordingName
            ? Path.Combine(Directory.Exists(path) ? path : Path.GetDirectoryName(full) ?? "", "report")
            : Path.Combine(Path.GetDirectoryName(full) ?? "", Path.GetFileNameWithoutExtension(full) + "-report");
    }

    private static GeoPoint? Place(string text)
    {
        string[] parts = text.Split(',', StringSplitOptions.TrimEntries);
        return parts.Length == 2 && Degrees(parts[0], 90) is { } latitude && Degrees(parts[1], 180) is { } longitude
            ? new GeoPoint(latitude, longitude) : null;
    }

    private static double? Degrees(string text, double most) => double.TryParse(text,
        NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value)
        && Math.Abs(value) <= most ? value : null;

    /// <summary>A line of progress on standard error once the work has lasted two seconds, then each second.</summary>
    private sealed class Progress(TextWriter error)
    {
        private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

        private readonly long _started = TimeProvider.System.GetTimestamp();
        private TimeSpan _told;

        public void Tell(double share)
        {
            TimeSpan elapsed = TimeProvider.System.GetElapsedTime(_started);
            if (elapsed < Patience || elapsed - _told < TimeSpan.FromSeconds(1))
                return;
            _told = elapsed;
            error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"groundstation: read {share * 100:F0} %"));
        }
    }
}
