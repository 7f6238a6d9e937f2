using System.Globalization;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Folders;

/// <summary>
/// A replay's folder holds a note until the replay has come to its end: by it the next one knows what a kill has left. All
/// of that follows from the recording, so the same replay makes it anew.
/// </summary>
public sealed partial class FlightFolder
{
    private const string UnfinishedName = "unfinished-replay.txt";

    /// <summary>What was found of an earlier replay and is made anew, in one line; empty when there was nothing.</summary>
    public string Anew { get; private set; } = "";

    private string Unfinished => System.IO.Path.Combine(Path, UnfinishedName);

    /// <summary>Opens or makes a folder for a replay.</summary>
    /// <param name="path">The folder.</param>
    /// <param name="recording">What is replayed.</param>
    /// <param name="time">Tells when, for whoever finds the folder unfinished.</param>
    /// <exception cref="UserErrorException">As <see cref="Open"/>; or it holds a flight, or another recording's unfinished
    /// replay.</exception>
    public static FlightFolder OpenReplay(string path, string recording, TimeProvider time)
    {
        recording = System.IO.Path.GetFullPath(recording);
        string anew = Clear(path, recording);
        FlightFolder folder = Open(path, FolderUse.Replay);
        folder.Anew = anew;
        try
        {
            string now = time.GetUtcNow().ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture);
            File.WriteAllText(folder.Unfinished, $"{recording}\n{now}\nThe replay of this recording, begun then, has not come to its end. The same replay makes it anew.\n");
            return folder;
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            folder.Dispose();
            throw new UserErrorException($"{folder.Unfinished}: cannot be written ({FileTrouble.Words(e)})", e);
        }
    }

    /// <summary>
    /// Sees whether a folder can be opened, for a replay that is written when it is over: what stands against it is told
    /// before, and a kill meanwhile leaves no empty folder.
    /// </summary>
    /// <exception cref="UserErrorException">As <see cref="OpenReplay"/>.</exception>
    public static void TryReplay(string path, string recording)
    {
        bool there = Directory.Exists(path);
        HashSet<string> before = there ? [.. Directory.GetFiles(path)] : [];
        Clear(path, System.IO.Path.GetFullPath(recording));
        Open(path, FolderUse.Replay).Dispose();
        foreach (string made in Directory.GetFiles(path).Where(file => !before.Contains(file)))
            File.Delete(made);
        if (!there)
            Directory.Delete(path);
    }

    /// <summary>
    /// The replay has come to its end, or to where somebody left it who saw it, and is flushed. What a full disk did not
    /// take leaves it unfinished.
    /// </summary>
    public void Finish()
    {
        if (Trouble.Length == 0)
            File.Delete(Unfinished);
    }

    /// <summary>Takes away what the same replay, broken off, has left; says what that was.</summary>
    private static string Clear(string path, string recording)
    {
        string note = System.IO.Path.Combine(path, UnfinishedName);
        try
        {
            if (!File.Exists(note) || File.ReadAllLines(note) is not [var of, var begun, ..])
                return "";
            using var held = FolderLock.Take(path);
            if (of != recording)
            {
                throw new UserErrorException($"{path}: holds an unfinished replay of {of}, begun {begun}; "
                    + "delete that folder, or name another one for this replay");
            }

            foreach (string file in (string[])[RecordingName, FolderLogs.SheetName, .. FolderLogs.Names])
                File.Delete(System.IO.Path.Combine(path, file));
            return $"{path}: held the same replay, begun {begun} and broken off; it is made anew";
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException($"{note}: cannot be read or cleared ({FileTrouble.Words(e)})", e);
        }
    }
}
