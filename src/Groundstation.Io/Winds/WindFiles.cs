using System.Collections.Immutable;
using Groundstation.Core.Plan;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Winds;

/// <summary>
/// Reads winds by height from a file, whose kind is told by its content: a winds aloft bulletin (FB), a TEMP report
/// (WMO FM 35), radiosonde soundings (IGRA v2), or a table (CSV).
/// </summary>
public static class WindFiles
{
    /// <summary>Largest file read, bytes: a year of one radiosonde station has 10 MB.</summary>
    public const int MaxBytes = 16 << 20;

    private const string Kinds = "known are a winds aloft bulletin (with a line FT 3000 6000 …), a TEMP report "
        + "(TTAA …), IGRA v2 soundings, and a table with a header such as height_m,from_deg,speed_mps";

    /// <summary>Reads a file.</summary>
    /// <param name="name">Its path; of a bulletin or report of several stations <c>PATH#STATION</c>.</param>
    /// <returns>One forecast for each time in it, at least one, in the order of the file.</returns>
    /// <exception cref="UserErrorException">It cannot be read or is wrong; the message names file, line,
    /// remedy.</exception>
    public static ImmutableArray<WindForecast> Read(string name)
    {
        (string path, string? station) = Split(name);
        return Parse(Text(path), path, station);
    }

    /// <summary>The path in <c>PATH#STATION</c>, and the station; a file whose own name has a # goes before.</summary>
    public static (string Path, string? Station) Split(string name)
    {
        int at = name.LastIndexOf('#');
        return at <= 0 || at == name.Length - 1 || File.Exists(name) ? (name, null)
            : (name[..at], name[(at + 1)..].ToUpperInvariant());
    }

    /// <summary>Reads a text.</summary>
    /// <param name="text">What stands in the file.</param>
    /// <param name="file">Its name, for errors and notes.</param>
    /// <param name="station">The station wanted; null: the only one in it.</param>
    /// <exception cref="UserErrorException">It is wrong; the message names file, line, remedy.</exception>
    public static ImmutableArray<WindForecast> Parse(string text, string file, string? station)
    {
        if (text.AsSpan(0, Math.Min(text.Length, 4096)).ContainsAny('\0', '\uFFFD'))
            throw new UserErrorException($"{file}: not a text; {Kinds}");
        string[] lines = text.ReplaceLineEndings("\n").Split('\n');
        if (lines.FirstOrDefault(l => !string.IsNullOrWhiteSpace(l)) is not { } first)
            throw new UserErrorException($"{file}: empty; get the file again");
        if (IgraSoundings.Begins(first)) return IgraSoundings.Read(lines, file, station);
        if (lines.Any(FbBulletin.IsHeights)) return FbBulletin.Read(lines, file, station);
        if (lines.Any(TempReport.Begins)) return TempReport.Read(lines, file, station);
        if (WindTable.Begins(lines)) return [WindTable.Read(lines, file)];
        throw new UserErrorException($"{file}: no wind file; {Kinds}");
    }

    /// <summary>
    /// The forecasts of the wanted station; an error that lists them when none or the wrong one is named.
    /// </summary>
    internal static T[] Of<T>(string file, string? station, IReadOnlyCollection<T> all, Func<T, string> name)
    {
        string[] names = [.. all.Select(name).Distinct()];
        station ??= names.Length == 1 ? names[0] : throw new UserErrorException(
            $"{file}: {names.Length} stations; name one after the file, \"{Path.GetFileName(file)}#{names[0]}\": "
            + Listed(names));
        T[] wanted = [.. all.Where(one => name(one) == station)];
        return wanted.Length > 0 ? wanted
            : throw new UserErrorException($"{file}: no station {station} in it; there are {Listed(names)}");
    }

    private static string Listed(string[] names) =>
        string.Join(' ', names.Take(40)) + (names.Length > 40 ? $" and {names.Length - 40} more" : "");

    private static string Text(string path)
    {
        if (Directory.Exists(path)) throw new UserErrorException($"{path}: a folder; name the file in it");
        try
        {
            return SmallFile.Text(path, MaxBytes) ?? throw new UserErrorException(
                $"{path}: wind files have {MaxBytes >> 20} MiB at most; cut out the days of the flight");
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException($"{path}: cannot be read ({FileTrouble.Words(e)})", e);
        }
    }
}
