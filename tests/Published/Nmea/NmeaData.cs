using System.Text;

namespace Groundstation.Published.Nmea;

/// <summary>
/// Recordings of real receivers, an independent parser's reading of them, and 90 published ways in which sentences go
/// wrong. The logs are gpsd's regression recordings, BSD-2-Clause: LICENCE-gpsd.txt beside them.
/// </summary>
internal static class NmeaData
{
    public static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "data", "nmea");

    /// <summary>The recordings' file names, in a fixed order.</summary>
    public static IReadOnlyList<string> Logs { get; } =
        [.. Directory.GetFiles(Folder, "*.log").Select(p => Path.GetFileName(p)!).Order(StringComparer.Ordinal)];

    public static byte[] Bytes(string file) => File.ReadAllBytes(Path.Combine(Folder, file));

    /// <summary>Rows of a tab-separated table without its header and comments.</summary>
    public static IEnumerable<string[]> Rows(string file) => File.ReadLines(Path.Combine(Folder, file), Encoding.UTF8)
        .Where(l => l.Length > 0 && l[0] != '#').Skip(1).Select(l => l.Split('\t'));
}
