using System.Collections.Immutable;
using System.Globalization;
using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Io.Winds;

/// <summary>
/// Radiosonde soundings in the format of NOAA NCEI's Integrated Global Radiosonde Archive, version 2: a header line
/// that begins with #, then as many lines as it says, in fixed columns (<c>igra2-data-format.txt</c>).
/// </summary>
internal static class IgraSoundings
{
    /// <summary>True when a file that begins with this line is one.</summary>
    internal static bool Begins(string line) => line.Length >= 71 && line[0] == '#' && line[12] == ' '
        && line.AsSpan(13, 4).IndexOfAnyExceptInRange('0', '9') < 0;

    /// <summary>All soundings with a wind in it.</summary>
    /// <exception cref="UserErrorException">A line is wrong, the file is cut, or no sounding has a wind.</exception>
    internal static ImmutableArray<WindForecast> Read(IReadOnlyList<string> lines, string file, string? station)
    {
        List<(string Station, WindForecast Winds)> all = [];
        int soundings = 0;
        for (int i = 0; i < lines.Count;)
        {
            if (string.IsNullOrWhiteSpace(lines[i]))
            {
                i++;
                continue;
            }

            if (!Begins(lines[i])) throw Wrong(file, i, "a header that begins with # expected");
            int count = Int(lines[i], 33, 36, "NUMLEV", file, i) ?? throw Wrong(file, i, "NUMLEV missing");
            if (count < 0 || i + count > lines.Count - 1)
                throw Wrong(file, i, $"{count} levels announced, {lines.Count - i - 1} follow: the file is cut");
            soundings++;
            if (Sounding(lines, i, count, file) is { } winds) all.Add((lines[i][1..12], winds));
            i += 1 + count;
        }

        if (all.Count == 0)
            throw new UserErrorException($"{file}: {soundings} soundings, none with a wind; get another");
        return [.. WindFiles.Of(file, station, all, s => s.Station).Select(s => s.Winds)];
    }

    private static WindForecast? Sounding(IReadOnlyList<string> lines, int header, int count, string file)
    {
        List<RawLevel> raw = [];
        for (int i = header + 1; i <= header + count; i++)
        {
            string line = lines[i];
            if (Begins(line)) throw Wrong(file, i, $"a level expected, {count} are announced in line {header + 1}");
            double? pressure = Int(line, 10, 15, "PRESS", file, i);
            int? direction = Int(line, 41, 45, "WDIR", file, i);
            double? speed = Int(line, 47, 51, "WSPD", file, i) / 10.0;
            if (direction is < 0 or > 360) throw Wrong(file, i, $"WDIR {direction} is no direction, 0 to 360");
            if (speed is < 0 or > WindTable.FastestMps) throw Wrong(file, i, $"WSPD {speed} m/s is no wind");
            raw.Add(new(pressure > 0 ? pressure : null, Int(line, 17, 21, "GPH", file, i),
                Int(line, 23, 27, "TEMP", file, i) / 10.0, Int(line, 35, 39, "DPDP", file, i) / 10.0,
                direction is { } d && speed is { } s ? WindVector.FromDirection(d, s) : null));
        }

        List<string> notes = [];
        ImmutableArray<ForecastLevel> levels = RawLevels.Build(raw, notes);
        if (levels.IsEmpty) return null;
        int silent = raw.Count(l => l.Wind is null);
        if (silent > 0) notes.Add($"{silent} of {count} levels tell no wind");
        string head = lines[header];
        return new WindForecast
        {
            Source = $"{Path.GetFileName(file)}: radiosonde {head[1..12]}",
            Origin = WindOrigin.Measured,
            Valid = Time(head, file, header, notes),
            Place = Place(head, file, header),
            Levels = levels,
            Notes = [.. notes],
        };
    }

    private static ReportTime? Time(string head, string file, int line, List<string> notes)
    {
        int? year = Int(head, 14, 17, "YEAR", file, line), month = Int(head, 19, 20, "MONTH", file, line);
        int? day = Int(head, 22, 23, "DAY", file, line), hour = Int(head, 25, 26, "HOUR", file, line);
        if (hour is 99 or null)
        {
            // RELTIME is the hour and minute of release, 9999 where not known.
            hour = Int(head, 28, 31, "RELTIME", file, line) is { } release and < 2400 ? release / 100 : null;
            if (hour is null) notes.Add("its hour is not told: noon is taken");
        }

        if (year is not >= 1 || month is not (>= 1 and <= 12) || day is not >= 1
            || day > DateTime.DaysInMonth(year.Value, month.Value))
            throw Wrong(file, line, $"{head[13..23]} is no date");
        return new(Instant.FromUtc(new(year.Value, month.Value, day.Value), TimeSpan.FromHours(hour ?? 12)));
    }

    private static GeoPoint? Place(string head, string file, int line)
    {
        double? latitude = Int(head, 56, 62, "LAT", file, line) / 1e4, longitude = Int(head, 64, 71, "LON", file,
            line) / 1e4;
        // Ships and moving stations have -98.8888 and -998.8888.
        return latitude is { } lat && longitude is { } lon && Math.Abs(lat) <= 90 && Math.Abs(lon) <= 180
            ? new GeoPoint(lat, lon) : null;
    }

    /// <summary>
    /// A whole number in columns counted from 1, both included; null where missing (blank, −9999, −8888).
    /// </summary>
    private static int? Int(string line, int first, int last, string field, string file, int index)
    {
        if (line.Length < last) throw Wrong(file, index,
            $"{line.Length} characters, {field} stands in {first} to {last}");
        ReadOnlySpan<char> text = line.AsSpan(first - 1, last - first + 1).Trim();
        if (text.IsEmpty) return null;
        if (!int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int value))
            throw Wrong(file, index, $"{field} \"{text}\" in columns {first} to {last} is no whole number");
        return value is -9999 or -8888 ? null : value;
    }

    private static UserErrorException Wrong(string file, int index, string what) =>
        new($"{file}:{index + 1}: {what} (IGRA v2 soundings); get the file again");
}
