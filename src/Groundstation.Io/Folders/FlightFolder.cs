using System.Globalization;
using System.Text;
using Groundstation.Core;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Folders;

/// <summary>What a flight folder is opened for.</summary>
public enum FolderUse
{
    /// <summary>
    /// Live: a flight that is there already goes on. Every line reaches the operating system at once.
    /// </summary>
    Live,

    /// <summary>
    /// As live, for a copy of another station's recording: a line that a kill tore is cut off, for it is fetched again.
    /// </summary>
    Copy,

    /// <summary>A replay: the folder must not hold a flight yet. Lines go out in blocks.</summary>
    Replay,
}

/// <summary>
/// The folder with a flight's recording and logs. All files only grow. The CSV logs follow from the recording: when a
/// flight goes on after a stop or a kill, they are built anew beside the old ones while the recording is replayed, and
/// replace them whole (<see cref="Rebuilt"/>); so they have no gap, no duplicate and no torn row.
/// </summary>
public sealed partial class FlightFolder : IDisposable
{
    /// <summary>Name of the recording.</summary>
    public const string RecordingName = "received.nmea";

    /// <summary>Name of the plan's copy.</summary>
    public const string PlanName = "plan.toml";

    private readonly FolderLock _lock;
    private readonly FolderLogs _logs;
    private readonly AppendFile _recording;
    private readonly AppendFile[] _files;
    private readonly FolderUse _use;

    private FlightFolder(string path, FolderUse use, FolderLock held)
    {
        Path = path;
        _use = use;
        _lock = held;
        RecordingPath = System.IO.Path.Combine(path, RecordingName);
        if (use == FolderUse.Copy)
            CutTornLine(RecordingPath);
        FileInfo before = new(RecordingPath);
        Continues = before.Exists && before.Length > 0;
        if (Continues && use == FolderUse.Replay)
        {
            throw new UserErrorException($"{path}: holds a flight already, last written "
                + $"{before.LastWriteTimeUtc:yyyy-MM-dd HH:mm} UTC; name another folder for this replay");
        }

        // Headers alone are what a kill in the first milliseconds of a flight leaves behind.
        if (!Continues && Directory.EnumerateFiles(path, "*.csv").FirstOrDefault(HoldsRows) is { } log)
        {
            throw new UserErrorException(
                $"{log}: a log without its {RecordingName}; name an empty folder, so that nothing is overwritten");
        }

        _recording = new AppendFile(RecordingPath, fresh: false, writeThrough: use != FolderUse.Replay);
        try
        {
            _logs = new FolderLogs(path, Continues ? ".rebuilding" : "", use != FolderUse.Replay && !Continues);
        }
        catch
        {
            _recording.Dispose();
            throw;
        }

        _files = [_recording, .. _logs.Files];
        // From here on it is a flight that no replay may make anew.
        if (use != FolderUse.Replay)
            File.Delete(Unfinished);
        if (Continues)
            Repair();
    }

    /// <summary>Where it lies.</summary>
    public string Path { get; }

    /// <summary>Its recording.</summary>
    public string RecordingPath { get; }

    /// <summary>
    /// True when it held a recording: the flight goes on, after a replay of it and <see cref="Rebuilt"/>.
    /// </summary>
    public bool Continues { get; }

    /// <summary>What was put right on opening, in words; empty when all was well.</summary>
    public string Repaired { get; private set; } = "";

    /// <summary>Takes the rows of the five logs.</summary>
    public IFlightLog Log => _logs;

    /// <summary>The plan kept from an earlier start, if there is one; else null.</summary>
    public string? KeptPlan =>
        System.IO.Path.Combine(Path, PlanName) is var plan && File.Exists(plan) ? plan : null;

    /// <summary>Names of the files in it, recording first.</summary>
    public IEnumerable<string> FileNames =>
        _files.Select(file => System.IO.Path.GetFileName(file.Path)).Append(PlanName)
        .Append(FolderLogs.SheetName);

    /// <summary>
    /// What cannot be written at the moment and why, in one line; empty when all is well. Meanwhile the bytes wait in
    /// memory.
    /// </summary>
    public string Trouble
    {
        get
        {
            AppendFile? bad = _files.FirstOrDefault(file => file.Trouble.Length > 0);
            if (bad is null)
                return _logs.Sheet.Trouble is { Length: > 0 } why ? $"{FolderLogs.SheetName}: {why}" : "";
            string lost = _files.All(file => file.Dropped == 0) ? "kept in memory" : "memory full, the newest is lost";
            return $"{System.IO.Path.GetFileName(bad.Path)}: {bad.Trouble} ({lost})";
        }
    }

    /// <summary>What befell its files since this was last asked, each with the file's name.</summary>
    public IEnumerable<string> TakeMishaps() => _files
        .Select(file => (System.IO.Path.GetFileName(file.Path), Told: file.TakeMishap()))
        .Where(file => file.Told.Length > 0).Select(file => $"{file.Item1}: {file.Told}").ToArray();

    /// <summary>
    /// Which log of a flight that goes on could not replace the old one yet, and why, in one line; empty when all have.
    /// Nothing is at risk.
    /// </summary>
    public string Unreplaced => _files.FirstOrDefault(file => file.Unmoved.Length > 0) is { } log
        ? $"{log.Unmoved}: the log goes on in {System.IO.Path.GetFileName(log.Path)}" : "";

    /// <summary>What is still wrong with it, a line each, for the end of a session.</summary>
    internal IEnumerable<string> LeftOpen()
    {
        if (Trouble.Length > 0)
            yield return $"{Path}: not all could be written: {Trouble}";
        if (Unreplaced.Length > 0)
            yield return $"{Path}: {Unreplaced}";
    }

    /// <summary>Where <c>watch</c> without <c>--flight</c> puts a flight: <c>flights/2026-06-21T090000Z</c>.</summary>
    public static string DefaultPath(TimeProvider time) => System.IO.Path.Combine("flights",
        time.GetUtcNow().ToString("yyyy-MM-dd'T'HHmmss'Z'", CultureInfo.InvariantCulture));

    /// <summary>Opens or makes a folder and locks it against a second station.</summary>
    /// <exception cref="UserErrorException">It cannot be made or written, is in use, or holds other things.</exception>
    public static FlightFolder Open(string path, FolderUse use)
    {
        var held = FolderLock.Take(path);
        try
        {
            return new FlightFolder(path, use, held);
        }
        catch
        {
            held.Dispose();
            throw;
        }
    }

    /// <summary>Appends an event to the recording.</summary>
    public void Record(in RecordedEvent e) => RecordingWriter.Append(_recording, e);

    /// <summary>Bytes of the recording, those that still wait for the disk included.</summary>
    internal long RecordingLength => _recording.Length;

    /// <summary>Appends whole lines of the recording of which this one is a copy.</summary>
    internal void RecordCopy(ReadOnlySpan<byte> lines) => _recording.Append(lines);

    /// <summary>
    /// The logs have been built anew from the recording: they replace the old ones and grow from here on.
    /// </summary>
    public void Rebuilt()
    {
        foreach (AppendFile file in _logs.Files)
        {
            const string Suffix = ".rebuilding";
            if (file.Path.EndsWith(Suffix, StringComparison.Ordinal))
                file.MoveOver(file.Path[..^Suffix.Length]);
            file.WriteThrough = _use != FolderUse.Replay;
        }
    }

    /// <summary>Hands everything to the operating system.</summary>
    public void Flush()
    {
        foreach (AppendFile file in _files)
            file.Flush();
    }

    /// <summary>
    /// Makes the disk keep the recording. Only that: the logs follow from it. May run beside the writing thread.
    /// </summary>
    public void Sync() => _recording.Sync();

    /// <summary>Once a second: tries again what could not be written, looks after files that have vanished.</summary>
    public void Look()
    {
        foreach (AppendFile file in _files)
            file.Look();
        _logs.Sheet.Look();
        LookAfterPlan();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _logs.Dispose();
        _recording.Dispose();
        _lock.Dispose();
    }
}
