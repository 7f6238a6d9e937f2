using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;

namespace Groundstation.Io.Sessions;

/// <summary>A live session in a folder that holds a flight already: after a stop, or a kill, it goes on.</summary>
public sealed partial class LiveSession
{
    private static ulong? RecordedSeed(FlightFolder folder)
    {
        if (!folder.Continues)
            return null;
        using RecordingReader reader = RecordingReader.Open(folder.RecordingPath);
        return reader.Seed;
    }

    /// <summary>
    /// Replays what the folder holds, so that the station stands where it stood, and its logs with it.
    /// </summary>
    private void Rebuild()
    {
        if (!_folder.Continues)
            return;
        using RecordingReader reader = RecordingReader.Open(_folder.RecordingPath);
        while (reader.Read(out RecordedEvent e))
            _runner.Apply(e);
        _folder.Rebuilt();
        _notes.Add($"{_folder.Path}: the flight goes on from {_runner.Last}");
        _runner.Publish();
    }
}
