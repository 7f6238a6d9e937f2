using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;
using Groundstation.Io.Storage;
using nietras.SeparatedValues;

namespace Groundstation.Io.Folders;

/// <summary>The five CSV logs of a flight folder. Column names carry SI units; the header stands first.</summary>
internal sealed class FolderLogs : IFlightLog, IDisposable
{
    private readonly CsvLog _fixes, _winds, _landing, _alarms, _callouts;
    private readonly CsvLog[] _all;
    private readonly ReplacedFile _sheet;

    /// <summary>Name of the search sheet.</summary>
    public const string SheetName = "search-sheet.txt";

    /// <summary>Names of the logs.</summary>
    public static IEnumerable<string> Names => ["fixes.csv", "winds.csv", "landing.csv", "alarms.csv", "callouts.csv"];

    /// <summary>Starts all five anew, under names that end in <paramref name="suffix"/>.</summary>
    public FolderLogs(string folder, string suffix, bool writeThrough)
    {
        _fixes = new CsvLog(Name("fixes"), writeThrough, "utc", "heard_utc", "source", "latitude_deg", "longitude_deg",
            "altitude_m", "geoid_separation_m", "quality", "dimension", "satellites_used", "hdop", "speed_mps",
            "course_deg", "date_from", "believed", "reasons", "detail", "also_from");
        _winds = new CsvLog(Name("winds"), writeThrough, "utc", "bottom_m", "top_m", "from_deg", "speed_mps",
            "east_mps", "north_mps", "sigma_mps", "measured_utc", "basis");
        _landing = new CsvLog(Name("landing"), writeThrough, "utc", "phase", "altitude_m", "latitude_deg",
            "longitude_deg", "ground_m", "landing_utc", "method", "area50_major_m", "area50_minor_m",
            "area50_azimuth_deg", "area95_major_m", "area95_minor_m", "area95_azimuth_deg", "lastwind_latitude_deg",
            "lastwind_longitude_deg", "heard_age_s", "landing_sigma_s", "causes");
        _alarms = new CsvLog(Name("alarms"), writeThrough, "utc", "alarm", "severity", "change", "state", "cause",
            "consequence", "next_step", "order", "shelved_until_utc");
        _callouts = new CsvLog(Name("callouts"), writeThrough, "number", "utc", "occasion", "text", "read_back",
            "spoken");
        _sheet = new ReplacedFile(Path.Combine(folder, SheetName));
        _all = [_fixes, _winds, _landing, _alarms, _callouts];

        string Name(string log) => Path.Combine(folder, log + ".csv" + suffix);
    }

    /// <summary>The search sheet.</summary>
    public ReplacedFile Sheet => _sheet;

    /// <inheritdoc/>
    public void SearchSheet(string text) => _sheet.Write(text);

    /// <summary>Their files.</summary>
    public IEnumerable<AppendFile> Files => _all.Select(log => log.File);

    /// <inheritdoc/>
    public void Fix(Fix fix) => _fixes.Row(fix, static (row, f) =>
    {
        Cells.Time(row, "utc", f.Utc);
        Cells.Time(row, "heard_utc", f.Heard);
        Cells.Text(row, "source", f.Source.Name);
        // Nine decimals of a degree are 0.1 mm: the last printed digit of any receiver's minutes survives.
        Cells.Number(row, "latitude_deg", f.Position?.LatitudeDeg, 9);
        Cells.Number(row, "longitude_deg", f.Position?.LongitudeDeg, 9);
        Cells.Number(row, "altitude_m", f.Height?.Metres, 3);
        Cells.Number(row, "geoid_separation_m", f.GeoidSeparationM, 3);
        Cells.Whole(row, "quality", (int?)f.Quality);
        Cells.Whole(row, "dimension", (int?)f.Dimension);
        Cells.Whole(row, "satellites_used", f.SatellitesUsed);
        Cells.Number(row, "hdop", f.Hdop, 2);
        Cells.Number(row, "speed_mps", f.SpeedMps, 3);
        Cells.Number(row, "course_deg", f.CourseDeg, 2);
        row["date_from"].Set(Cells.Word(f.DateFrom));
        row["believed"].Set(f.Believed ? "yes" : "no");
        row["reasons"].Set(Cells.Flags(f.Refused));
        Cells.Text(row, "detail", f.Detail.ToString());
        Cells.Text(row, "also_from", string.Join(' ', f.Also.Select(Heard)));
    });

    /// <inheritdoc/>
    public void Wind(Instant utc, in WindLayer layer) => _winds.Row((utc, layer), static (row, w) =>
    {
        Cells.Time(row, "utc", w.utc);
        Cells.Number(row, "bottom_m", w.layer.Bottom.Metres, 0);
        Cells.Number(row, "top_m", w.layer.Top.Metres, 0);
        Cells.Number(row, "from_deg", w.layer.Wind.FromDeg, 1);
        Cells.Number(row, "speed_mps", w.layer.Wind.SpeedMps, 2);
        Cells.Number(row, "east_mps", w.layer.Wind.EastMps, 2);
        Cells.Number(row, "north_mps", w.layer.Wind.NorthMps, 2);
        Cells.Number(row, "sigma_mps", w.layer.SigmaMps, 2);
        Cells.Time(row, "measured_utc", w.layer.Measured);
        row["basis"].Set(Cells.Word(w.layer.Basis));
    });

    /// <inheritdoc/>
    public void Landing(LandingEstimate estimate) => _landing.Row(estimate, static (row, e) =>
    {
        Cells.Time(row, "utc", e.Utc);
        row["phase"].Set(Cells.Word(e.Phase));
        Cells.Number(row, "altitude_m", e.Altitude.Metres, 1);
        Cells.Number(row, "latitude_deg", e.Position.LatitudeDeg, 6);
        Cells.Number(row, "longitude_deg", e.Position.LongitudeDeg, 6);
        Cells.Number(row, "ground_m", e.Ground.Metres, 1);
        Cells.Time(row, "landing_utc", e.LandingUtc);
        row["method"].Set(Cells.Word(e.Method));
        Cells.Number(row, "area50_major_m", e.Area50.MajorM, 1);
        Cells.Number(row, "area50_minor_m", e.Area50.MinorM, 1);
        Cells.Number(row, "area50_azimuth_deg", e.Area50.AzimuthDeg, 1);
        Cells.Number(row, "area95_major_m", e.Area95.MajorM, 1);
        Cells.Number(row, "area95_minor_m", e.Area95.MinorM, 1);
        Cells.Number(row, "area95_azimuth_deg", e.Area95.AzimuthDeg, 1);
        Cells.Number(row, "lastwind_latitude_deg", e.LastWind?.LatitudeDeg, 6);
        Cells.Number(row, "lastwind_longitude_deg", e.LastWind?.LongitudeDeg, 6);
        Cells.Number(row, "heard_age_s", e.HeardAgeS, 1);
        Cells.Number(row, "landing_sigma_s", e.LandingSigmaS, 1);
        Cells.Text(row, "causes", e.Causes.ToString());
    });

    /// <inheritdoc/>
    public void Alarm(Instant utc, string change, AlarmState alarm) =>
        _alarms.Row((utc, change, alarm), static (row, a) =>
        {
            Cells.Time(row, "utc", a.utc);
            Cells.Text(row, "alarm", a.alarm.Id);
            row["severity"].Set(Cells.Word(a.alarm.Severity));
            Cells.Text(row, "change", a.change);
            row["state"].Set(Cells.Word(a.alarm.Phase));
            Cells.Text(row, "cause", a.alarm.Cause.ToString());
            Cells.Text(row, "consequence", a.alarm.Consequence);
            Cells.Text(row, "next_step", a.alarm.NextStep);
            Cells.Whole(row, "order", a.alarm.Order);
            Cells.Time(row, "shelved_until_utc", a.alarm.ShelvedUntil);
        });

    /// <inheritdoc/>
    public void Callout(Callout callout) => _callouts.Row(callout, static (row, c) =>
    {
        Cells.Whole(row, "number", c.Number);
        Cells.Time(row, "utc", c.Utc);
        Cells.Text(row, "occasion", c.Occasion);
        Cells.Text(row, "text", c.Text);
        Cells.Text(row, "read_back", c.ReadBack);
        Cells.Text(row, "spoken", c.Spoken);
    });

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (CsvLog log in _all)
            log.Dispose();
    }

    /// <summary>Another receiver that heard the same epoch, and what it would have been refused for.</summary>
    private static string Heard(Fix also) => also.Believed ? also.Source.Name
        : $"{also.Source.Name}:{Cells.Flags(also.Refused).Replace(' ', '+')}";
}
