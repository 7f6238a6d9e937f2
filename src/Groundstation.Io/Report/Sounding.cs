using Groundstation.Core.Air;
using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;
using Groundstation.Io.Exports;
using Groundstation.Io.Folders;

namespace Groundstation.Io.Report;

/// <summary>
/// The measured column of air as levels like those of the Integrated Global Radiosonde Archive, version 2: its fields,
/// units and missing value (−9999), but as CSV with a header, without quality control and without its station header.
/// One level a layer of wind, at its middle; pressure and temperature are the payload's means in it.
/// </summary>
internal static class Sounding
{
    private const int Missing = -9999;

    private static readonly string[] _columns =
    [
        "LVLTYP1", "LVLTYP2", "ETIME_mmmss", "PRESS_Pa", "PFLAG", "GPH_m", "ZFLAG", "TEMP_0.1C", "TFLAG", "RH_0.1pct",
        "DPDP_0.1C", "WDIR_deg", "WSPD_0.1mps",
    ];

    /// <summary>True when there is a level to write.</summary>
    /// <param name="record">The flight.</param>
    /// <param name="basis">On the way up or on the way down.</param>
    public static bool Has(FlightRecord record, WindBasis basis) => record.Winds.Any(w => w.Layer.Basis == basis);

    /// <summary>Writes the levels of one leg in the order in which the payload met them.</summary>
    public static void Write(Stream to, FlightRecord record, FlightFigures figures, WindBasis basis)
    {
        Phase phase = basis == WindBasis.Ascent ? Phase.Ascent : Phase.Descent;
        PayloadRow[] measured = [.. record.Payload.Where(p => p.Phase == phase)];
        CsvTable.Write(to, _columns, record.Winds.Where(w => w.Layer.Basis == basis), (row, w) =>
        {
            (double bottom, double top) = (w.Layer.Bottom.Metres, w.Layer.Top.Metres);
            PayloadRow[] here = [.. measured.Where(p => p.Height.Metres >= bottom && p.Height.Metres < top)];
            // Pressure falls by a constant share with height: its mean at the middle is that of the logarithm.
            double? pressure = Mean(here, p => p.Telemetry.PressurePa is { } pa ? Math.Log(pa) : null) is { } ln
                ? Math.Exp(ln) : null;
            row["LVLTYP1"].Set(pressure is null ? "3" : "2");
            row["LVLTYP2"].Set("0");
            row["ETIME_mmmss"].Set(Elapsed(figures, w.Layer.Measured ?? w.Utc));
            Cells.Whole(row, "PRESS_Pa", Whole(pressure));
            row["PFLAG"].Set("");
            Cells.Whole(row, "GPH_m", Whole(AtmosphereProfile.GeopotentialFromGeometric((bottom + top) / 2)));
            row["ZFLAG"].Set("");
            Cells.Whole(row, "TEMP_0.1C", Whole(10 * Mean(here, p => p.Telemetry.OutsideC)));
            row["TFLAG"].Set("");
            Cells.Whole(row, "RH_0.1pct", Whole(10 * Mean(here, p => p.Telemetry.HumidityPercent)));
            Cells.Whole(row, "DPDP_0.1C", Missing);
            // The archive writes north as 360.
            long from = Whole(w.Layer.Wind.FromDeg);
            Cells.Whole(row, "WDIR_deg", from == 0 ? 360 : from);
            Cells.Whole(row, "WSPD_0.1mps", Whole(10 * w.Layer.Wind.SpeedMps));
        });
    }

    private static double? Mean(PayloadRow[] rows, Func<PayloadRow, double?> value) => rows.Average(value);

    private static long Whole(double? value) => value is { } v ? (long)Math.Round(v) : Missing;

    private static string Elapsed(FlightFigures figures, Instant utc)
    {
        long seconds = (long)Math.Round(utc.SecondsSince(figures.Zero));
        return seconds < 0 ? $"{Missing}" : $"{seconds / 60 * 100 + seconds % 60}";
    }
}
