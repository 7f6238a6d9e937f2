using System.Globalization;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Sessions;

/// <summary>
/// Looks at the room on a folder's disk. It is told at first, and again when it gets scarce and has changed by a
/// twentieth: each telling is an event of the recording.
/// </summary>
/// <param name="folder">A folder on that disk.</param>
/// <param name="lowMb">The alarm's limit, MB; ten times that is plenty.</param>
/// <param name="freeMb">Room on the disk, MB; null: as the system tells.</param>
internal sealed class DiskWatch(string folder, double lowMb, Func<double>? freeMb = null)
{
    /// <summary>Seconds between two looks.</summary>
    public const int EveryS = 10;

    private double? _told;

    /// <summary>The room, MB, if it is to be told; else null.</summary>
    public string? Look()
    {
        double free;
        try
        {
            free = freeMb?.Invoke() ?? new DriveInfo(Path.GetFullPath(folder)).AvailableFreeSpace / 1e6;
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            // A disk that cannot be asked will be told of by the first write that fails.
            return null;
        }

        bool plenty = free > 10 * lowMb;
        if (_told is { } told && (Math.Abs(free - told) <= 0.05 * told || (plenty && told > 10 * lowMb)))
            return null;
        _told = free;
        return free.ToString("F0", CultureInfo.InvariantCulture);
    }
}
