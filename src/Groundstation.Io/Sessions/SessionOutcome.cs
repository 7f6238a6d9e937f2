using Groundstation.Core;
using Groundstation.Io.Folders;

namespace Groundstation.Io.Sessions;

/// <summary>What came of a session, for the summary.</summary>
public sealed class SessionOutcome
{
    internal SessionOutcome(Snapshot last, FlightTotals totals, FlightFolder? folder, IReadOnlyList<string> notes)
    {
        Last = last;
        Totals = totals;
        Notes = [.. notes, .. folder?.LeftOpen() ?? []];
        Folder = folder?.Path;
        Files = folder is null ? [] : [.. folder.FileNames.Where(name => File.Exists(Path.Combine(folder.Path, name)))];
    }

    /// <summary>The station at its end.</summary>
    public Snapshot Last { get; }

    /// <summary>What was to be said about the recording or the folder, a line each.</summary>
    public IReadOnlyList<string> Notes { get; }

    /// <summary>The flight folder; null when none was written.</summary>
    public string? Folder { get; }

    /// <summary>The files in it.</summary>
    public IReadOnlyList<string> Files { get; }

    internal FlightTotals Totals { get; }
}
