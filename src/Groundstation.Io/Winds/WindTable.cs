using System.Globalization;
using System.Text.RegularExpressions;
using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using nietras.SeparatedValues;

namespace Groundstation.Io.Winds;

/// <summary>
/// A table of winds (CSV): a header that names height, direction and speed with their units, then one level a row; the
/// columns' order does not matter, others are passed over. Lines with # before the header may tell time and place:
/// <c># valid 2026-06-21T12:00Z</c>, <c># place 48.25N 30.5W</c>; the word radiosonde or sounding says that it was
/// measured.
/// </summary>
internal static partial class WindTable
{
    /// <summary>Faster than any wind measured so far (jet streams reach 130 m/s), m/s.</summary>
    public const double FastestMps = 150;

    private const double LowestM = -500, HighestM = 60_000;

    /// <summary>True for lines whose first one without # is a header of winds.</summary>
    public static bool Begins(string[] lines) => HeaderOf(lines) is { } at && WindColumns.AreIn(Cells(lines[at]));

    /// <summary>Reads it.</summary>
    /// <exception cref="UserErrorException">A column has no unit, or a row is wrong.</exception>
    public static WindForecast Read(string[] lines, string file)
    {
        int at = HeaderOf(lines)!.Value;
        string[] header = Cells(lines[at]);
        UserErrorException Wrong(int line, string what) => new($"{file}:{line}: {what}");
        UserErrorException InHeader(string what) => Wrong(at + 1, what);
        WindColumnName height = WindColumns.Height(header, InHeader), from = WindColumns.Direction(header, InHeader);
        WindColumnName speed = WindColumns.Speed(header, InHeader);
        WindColumnName? pressure = WindColumns.Pressure(header), temperature = WindColumns.Temperature(header);
        List<ForecastLevel> levels = [];
        int empty = 0, line = at + 1;
        using SepReader reader = new Sep(Separator(lines[at])).Reader(o =>
            o with { HasHeader = false, DisableColCountCheck = true, Unescape = true })
            .FromText(string.Join('\n', lines[(at + 1)..]));
        foreach (SepReader.Row row in reader)
        {
            line++;
            if (row.Span.IsWhiteSpace()) continue;
            if (row.Span[0] == '#') throw Wrong(line,
                "lines with # stand before the header; move it there or remove it");
            double? z = Number(row, height, LowestM, HighestM, "m", Wrong, line);
            double? deg = Number(row, from, 0, 360, "degrees", Wrong, line);
            double? mps = Number(row, speed, 0, FastestMps, "m/s", Wrong, line);
            double? pa = pressure is { } p ? Number(row, p, 10, 110_000, "Pa", Wrong, line) : null;
            double? celsius = temperature is { } t ? Number(row, t, -110, 60, "°C", Wrong, line) : null;
            if (z is not { } h || deg is not { } d || mps is not { } s)
            {
                empty++;
                continue;
            }

            if (height.Geopotential) h = AtmosphereProfile.GeometricFromGeopotential(h);
            if (pa is { } told) Check(h, told, height.Name, what => Wrong(line, what));
            levels.Add(new(new HeightMsl(h), WindVector.FromDirection(d, s), celsius, pa));
        }

        if (levels.Count == 0)
            throw new UserErrorException($"{file}: no row with height, direction and speed; fill them in");
        double top = levels.Max(l => l.Height.Metres);
        if (top < 100 && levels.Count > 1)
        {
            throw InHeader($"column {height.Name}: the highest level is {top:F0} m; are these kilometres? name the "
                + "column height_km");
        }

        string[] told0 = [.. lines[..at]];
        List<string> notes = [];
        if (empty > 0) notes.Add($"{empty} {(empty == 1 ? "row has" : "rows have")} no height, direction or speed");
        ForecastLevel[] sorted = [.. levels.OrderBy(l => l.Height.Metres).DistinctBy(l => l.Height.Metres)];
        if (sorted.Length < levels.Count)
            notes.Add($"{levels.Count - sorted.Length} heights stand twice; the first row counts");
        return new WindForecast
        {
            Source = $"{Path.GetFileName(file)}: table",
            Origin = told0.Any(l => Measured().IsMatch(l)) ? WindOrigin.Measured : WindOrigin.Forecast,
            Valid = Time([.. told0, Path.GetFileName(file)]),
            Place = Place(told0),
            Levels = [.. sorted],
            Notes = [.. notes],
        };
    }

    private static int? HeaderOf(string[] lines)
    {
        int at = Array.FindIndex(lines, l => !string.IsNullOrWhiteSpace(l) && l[0] != '#');
        return at < 0 ? null : at;
    }

    private static string[] Cells(string line) => line.Split(Separator(line));

    private static char Separator(string header) => header.Contains(';') ? ';' : header.Contains('\t') ? '\t' : ',';

    private static double? Number(SepReader.Row row, WindColumnName column, double min, double max, string unit,
        Func<int, string, UserErrorException> wrong, int line)
    {
        if (column.Index >= row.ColCount) throw wrong(line,
            $"{row.ColCount} columns, {column.Name} is number {column.Index + 1}; complete the row");
        ReadOnlySpan<char> text = row[column.Index].Span.Trim();
        if (text.IsEmpty) return null;
        if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value)
            || !double.IsFinite(value))
            throw wrong(line, $"{column.Name} = {text}: a number with a decimal point is needed, or nothing");
        value = value * column.Factor + column.Offset;
        return value >= min && value <= max ? value : throw wrong(line, string.Create(CultureInfo.InvariantCulture,
            $"{column.Name} = {text}: {value:0.##} {unit} is not within {min} and {max}; is the header's unit right?"));
    }

    /// <summary>
    /// Feet taken for metres, and the like, show where the table has pressures: weather moves them by 1 km at most.
    /// </summary>
    private static void Check(double heightM, double pressurePa, string name, Func<string, UserErrorException> wrong)
    {
        double usual = StandardAtmosphere.HeightFromPressure(pressurePa);
        if (Math.Abs(usual - heightM) > 1000 + 0.1 * usual)
        {
            throw wrong(string.Create(CultureInfo.InvariantCulture, $"{name}: {heightM:F0} m has usually not "
                + $"{pressurePa / 100:0.#} hPa, which lies at {usual:F0} m; is the unit in the header right?"));
        }
    }

    private static ReportTime? Time(IEnumerable<string> told)
    {
        foreach (string text in told)
        {
            Match m = Utc().Match(text);
            if (!m.Success) continue;
            int Of(string group) => m.Groups[group] is { Success: true } g
                ? int.Parse(g.ValueSpan, CultureInfo.InvariantCulture) : 0;
            (int year, int month, int day, int hour, int minute) = (Of("y"), Of("m"), Of("d"), Of("h"), Of("min"));
            if (month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, month) && hour < 24
                && minute < 60)
                return new(Instant.FromUtc(new(year, month, day), new TimeSpan(hour, minute, 0)));
        }

        return null;
    }

    private static GeoPoint? Place(IEnumerable<string> told)
    {
        foreach (string text in told)
        {
            Match m = NorthEast().Match(text);
            if (!m.Success) continue;
            double latitude = double.Parse(m.Groups[1].ValueSpan, CultureInfo.InvariantCulture);
            double longitude = double.Parse(m.Groups[3].ValueSpan, CultureInfo.InvariantCulture);
            if (latitude <= 90 && longitude <= 180)
                return new(m.Groups[2].Value == "S" ? -latitude : latitude, m.Groups[4].Value == "W"
                    ? -longitude : longitude);
        }

        return null;
    }

    [GeneratedRegex(@"(?<y>20\d\d|19\d\d)-?(?<m>\d\d)-?(?<d>\d\d)[T ](?<h>\d\d)(:?(?<min>\d\d)(:?\d\d)?)?Z")]
    private static partial Regex Utc();

    [GeneratedRegex(@"(\d{1,2}(?:\.\d+)?)\s*([NS])[\s,]+(\d{1,3}(?:\.\d+)?)\s*([EW])")]
    private static partial Regex NorthEast();

    [GeneratedRegex(@"\b(radiosonde|sounding|observation)", RegexOptions.IgnoreCase)]
    private static partial Regex Measured();
}
