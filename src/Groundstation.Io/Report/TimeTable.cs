using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;
using Groundstation.Io.Exports;
using Groundstation.Io.Folders;

namespace Groundstation.Io.Report;

/// <summary>Everything by time in one table, a row an epoch, for a spreadsheet.</summary>
internal static class TimeTable
{
    private static readonly string[] _columns =
    [
        "utc", "since_launch_s", "phase", "believed", "latitude_deg", "longitude_deg", "altitude_m",
        "vertical_rate_mps", "speed_mps", "course_deg", "wind_from_deg", "wind_mps", "wind_sigma_mps", "pressure_pa",
        "temperature_outside_c", "temperature_inside_c", "humidity_percent", "battery_v", "satellites_used", "hdop",
        "source", "reasons",
    ];

    /// <summary>Writes it. Wind is that of the layer which the payload is in, as measured when it left it.</summary>
    public static void Write(Stream to, FlightRecord record, FlightFigures figures)
    {
        MeasuredWinds winds = new(record.Winds);
        CsvTable.Write(to, _columns, record.Epochs, (row, e) =>
        {
            Fix fix = e.Fix;
            WindLayer? wind = fix is { Believed: true, Height: { } h } ? winds.At(fix.Utc, h.Metres) : null;
            Telemetry? payload = e.FreshPayload ? e.Telemetry : null;
            Cells.Time(row, "utc", fix.Utc);
            Cells.Number(row, "since_launch_s", figures.Flew ? fix.Utc.SecondsSince(figures.Zero) : null, 3);
            row["phase"].Set(Cells.Word(e.Phase));
            row["believed"].Set(fix.Believed ? "yes" : "no");
            Cells.Number(row, "latitude_deg", fix.Position?.LatitudeDeg, 9);
            Cells.Number(row, "longitude_deg", fix.Position?.LongitudeDeg, 9);
            Cells.Number(row, "altitude_m", fix.Height?.Metres, 3);
            Cells.Number(row, "vertical_rate_mps", fix.Believed ? e.RateMps : null, 2);
            Cells.Number(row, "speed_mps", fix.SpeedMps, 3);
            Cells.Number(row, "course_deg", fix.CourseDeg, 2);
            Cells.Number(row, "wind_from_deg", wind?.Wind.FromDeg, 1);
            Cells.Number(row, "wind_mps", wind?.Wind.SpeedMps, 2);
            Cells.Number(row, "wind_sigma_mps", wind?.SigmaMps, 2);
            Cells.Number(row, "pressure_pa", payload?.PressurePa, 0);
            Cells.Number(row, "temperature_outside_c", payload?.OutsideC, 1);
            Cells.Number(row, "temperature_inside_c", payload?.InsideC, 1);
            Cells.Number(row, "humidity_percent", payload?.HumidityPercent, 1);
            Cells.Number(row, "battery_v", payload?.BatteryV, 2);
            Cells.Whole(row, "satellites_used", fix.SatellitesUsed);
            Cells.Number(row, "hdop", fix.Hdop, 2);
            Cells.Text(row, "source", fix.Source.Name);
            row["reasons"].Set(Cells.Flags(fix.Refused));
        });
    }
}

/// <summary>The layers of wind by the time at which the payload was in them.</summary>
internal sealed class MeasuredWinds(IEnumerable<(Instant Utc, WindLayer Layer)> winds)
{
    // On the pad the layer is left at launch, or hours later on the way down: that is another wind.
    private const double LongestStayS = 600;

    private readonly ILookup<double, (Instant Utc, WindLayer Layer)> _byBottom =
        winds.ToLookup(w => w.Layer.Bottom.Metres);

    private readonly double[] _bottoms = [.. winds.Select(w => w.Layer.Bottom.Metres).Distinct().Order()];

    /// <summary>
    /// The layer around a height as it was measured when the payload next left it; null: it never did.
    /// </summary>
    public WindLayer? At(Instant utc, double heightM)
    {
        int at = Array.BinarySearch(_bottoms, heightM);
        at = at < 0 ? ~at - 1 : at;
        if (at < 0)
            return null;
        foreach ((Instant left, WindLayer layer) in _byBottom[_bottoms[at]])
        {
            if (left >= utc)
                return left.SecondsSince(utc) < LongestStayS && heightM < layer.Top.Metres ? layer : null;
        }

        return null;
    }
}
