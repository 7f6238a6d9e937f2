using Groundstation.Io.Folders;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Recordings;

/// <summary>Where a recording lies.</summary>
/// <param name="File">The recording itself.</param>
/// <param name="PlanBeside">The <c>plan.toml</c> in the same folder, if there is one; else null.</param>
public sealed record RecordingPath(string File, string? PlanBeside)
{
    /// <summary>Finds the recording a user means: a file, or a folder with a flight in it.</summary>
    /// <exception cref="UserErrorException">There is none.</exception>
    public static RecordingPath Find(string path)
    {
        try
        {
            if (Directory.Exists(path))
            {
                string? inside = new[] { "flight.nmea", FlightFolder.RecordingName }
                    .Select(name => Path.Combine(path, name)).FirstOrDefault(System.IO.File.Exists);
                return inside is null
                    ? throw new UserErrorException(
                        $"{path}: no flight.nmea or received.nmea in this folder; name the recording itself")
                    : Beside(inside);
            }

            return System.IO.File.Exists(path)
                ? Beside(path)
                : throw new UserErrorException(
                    $"{path}: no such file; a recording (NMEA text) or a flight folder is needed");
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException($"{path}: cannot be opened ({FileTrouble.Words(e)})", e);
        }
    }

    private static RecordingPath Beside(string file)
    {
        string plan = Path.Combine(Path.GetDirectoryName(file) ?? "", FlightFolder.PlanName);
        return new RecordingPath(file, System.IO.File.Exists(plan) ? plan : null);
    }
}
