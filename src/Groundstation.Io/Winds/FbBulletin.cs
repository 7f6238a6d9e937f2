using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Groundstation.Core.Plan;

namespace Groundstation.Io.Winds;

/// <summary>One station's row of a winds aloft bulletin.</summary>
/// <param name="Station">Its identifier.</param>
/// <param name="Line">Where it stands.</param>
/// <param name="Valid">When it holds.</param>
/// <param name="BasedOn">Time of the observations it was computed from.</param>
/// <param name="Levels">Height, ft, and group, lowest first.</param>
public sealed record FbRow(string Station, int Line, ReportTime? Valid, ReportTime? BasedOn,
    ImmutableArray<(int AltitudeFt, FbGroup Group)> Levels);

/// <summary>
/// Winds aloft bulletins (FB, once FD; US National Weather Service): after a line of heights, <c>FT 3000 6000 …</c>,
/// one row a station. Groups that are missing are those near the ground.
/// </summary>
public static partial class FbBulletin
{
    /// <summary>True for the line of heights.</summary>
    internal static bool IsHeights(string line) => Heights().IsMatch(line);

    /// <summary>All rows of all bulletins in a file.</summary>
    /// <exception cref="UserErrorException">A row cannot be read.</exception>
    public static ImmutableArray<FbRow> Rows(IReadOnlyList<string> lines, string file)
    {
        ImmutableArray<FbRow>.Builder rows = ImmutableArray.CreateBuilder<FbRow>();
        (int Ft, int End)[] columns = [];
        ReportTime? valid = null, based = null;
        for (int i = 0; i < lines.Count; i++)
        {
            string line = lines[i].TrimEnd();
            if (Based().Match(line) is { Success: true } b) (based, columns) = (Time(b, file, i), []);
            if (ValidAt().Match(line) is { Success: true } v) (valid, columns) = (Time(v, file, i), []);
            if (IsHeights(line))
            {
                columns = [.. Words().Matches(line).Skip(1)
                    .Select(m => (int.Parse(m.Value, CultureInfo.InvariantCulture), m.Index + m.Length))];
            }

            else if (columns.Length > 0 && Row().IsMatch(line))
                rows.Add(Decode(line, i + 1, columns, valid, based, file));
        }

        return rows.ToImmutable();
    }

    /// <summary>The forecasts of one station.</summary>
    /// <exception cref="UserErrorException">A row cannot be read, or which station is not clear.</exception>
    internal static ImmutableArray<WindForecast> Read(IReadOnlyList<string> lines, string file, string? station)
    {
        ImmutableArray<FbRow> rows = Rows(lines, file);
        if (rows.IsEmpty)
            throw new UserErrorException($"{file}: no station under the line of heights; get the whole bulletin");
        // The rows above 39 000 ft come in a bulletin of their own.
        return [.. WindFiles.Of(file, station, rows, r => r.Station)
            .GroupBy(r => (r.Valid, r.BasedOn)).Select(same => FbHeights.Forecast([.. same], file))];
    }

    private static FbRow Decode(string line, int number, (int Ft, int End)[] columns, ReportTime? valid,
        ReportTime? based, string file)
    {
        Match[] words = [.. Words().Matches(line).Cast<Match>()];
        string station = words[0].Value;
        Match[] groups = words[1..];
        // In a bulletin as it was sent each group ends under its height; where blanks were lost, the missing ones are
        // the lowest.
        int[] at = [.. groups.Select(g => Array.FindIndex(columns, c => c.End == g.Index + g.Length))];
        if (at.Any(c => c < 0) || at.Distinct().Count() < at.Length)
        {
            if (groups.Length > columns.Length)
                throw Wrong(file, number, station, $"{groups.Length} groups under {columns.Length} heights");
            at = [.. Enumerable.Range(columns.Length - groups.Length, groups.Length)];
        }

        var levels = ImmutableArray.CreateBuilder<(int, FbGroup)>(groups.Length);
        for (int k = 0; k < groups.Length; k++)
        {
            int ft = columns[at[k]].Ft;
            string text = groups[k].Value;
            FbGroup group = FbGroup.Parse(text, ft) ?? throw Wrong(file, number, station,
                $"{text} is no group ddff±TT");
            // A row that has lost its end would put every group under a wrong height.
            bool high = ft > FbGroup.SignlessAboveFt;
            if (high ? text.Length == 7 : text.Length == 6 && !text.StartsWith("9900", StringComparison.Ordinal))
                throw Wrong(file, number, station, $"{text} cannot stand under {ft} ft: signs end at 24000 ft");
            levels.Add((ft, group));
        }

        return new FbRow(station, number, valid, based, levels.MoveToImmutable());
    }

    private static UserErrorException Wrong(string file, int line, string station, string what) =>
        new($"{file}:{line}: {station}: {what}; get the bulletin again or remove the row");

    private static ReportTime Time(Match match, string file, int index)
    {
        int Two(int group) => int.Parse(match.Groups[group].ValueSpan, CultureInfo.InvariantCulture);
        (int day, int hour, int minute) = (Two(1), Two(2), Two(3));
        return day is >= 1 and <= 31 && hour <= 24 && minute < 60 ? new(null, day, hour * 60 + minute)
            : throw new UserErrorException($"{file}:{index + 1}: {match.Value}: no day, hour and minute ddhhmmZ");
    }

    [GeneratedRegex(@"^\s*FT(\s+\d{4,5})+\s*$")]
    private static partial Regex Heights();

    [GeneratedRegex(@"\S+")]
    private static partial Regex Words();

    [GeneratedRegex(@"^\s*(?=\d*[A-Z])[A-Z0-9]{3,4}\s+\d\S*(\s+\S+)*$")]
    private static partial Regex Row();

    [GeneratedRegex(@"\bDATA BASED ON (\d\d)(\d\d)(\d\d)Z")]
    private static partial Regex Based();

    [GeneratedRegex(@"\bVALID (\d\d)(\d\d)(\d\d)Z")]
    private static partial Regex ValidAt();
}
