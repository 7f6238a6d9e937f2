using Groundstation.Io.Storage;

namespace Groundstation.Io.Folders;

/// <summary>What a kill or another program has left in a folder.</summary>
public sealed partial class FlightFolder
{
    private static bool HoldsRows(string log)
    {
        try
        {
            return File.ReadLines(log).Take(2).ToArray() is not (
                [] or [['u', 't', 'c', ',', ..] or ['n', 'u', 'm', 'b', 'e', 'r', ',', ..]]);
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            // Nobody knows.
            return true;
        }
    }

    /// <summary>
    /// A recording that ends in the middle of a line gets its line end, so that the next line stands alone.
    /// </summary>
    private void Repair()
    {
        if (_recording.LastByte is not { } last || last == '\n')
            return;
        _recording.Append(last == '\r' ? "\n"u8 : "\r\n"u8);
        Repaired = $"{RecordingName}: its last line was torn; it was closed and the flight goes on";
    }

    private static void CutTornLine(string recording)
    {
        if (!File.Exists(recording))
            return;
        using FileStream file = new(recording, FileMode.Open, FileAccess.ReadWrite);
        long end = file.Length;
        for (; end > 0; end--)
        {
            file.Position = end - 1;
            if (file.ReadByte() == '\n')
                break;
        }

        file.SetLength(end);
    }
}
