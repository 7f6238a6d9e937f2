using System.Text;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Io.Exports;
using Groundstation.Io.Report.Plots;

namespace Groundstation.Io.Report;

/// <summary>
/// Writes a flight's report: <c>report.html</c>, its plots as SVG beside it, and the flight for map programs and
/// spreadsheets. The same recording and plan give the same bytes.
/// </summary>
public static class FlightReport
{
    /// <summary>Name of the page.</summary>
    public const string PageName = "report.html";

    /// <summary>Writes it into a folder, made if it is not there.</summary>
    /// <returns>Names of the files, the page first.</returns>
    /// <exception cref="UserErrorException">The folder cannot be written, or holds another's file of such a name.
    /// </exception>
    public static IReadOnlyList<string> Write(FlightRecord record, string folder)
    {
        FlightFigures figures = new(record);
        ReportUnits units = ReportUnits.Of(record);
        IReadOnlyList<LandingScore> scores = LandingScore.Of(record, figures);
        Plot[] plots =
        [
            .. new[]
            {
                PlanPlot.Whole(record, figures, units),
                PlanPlot.Landing(record, figures, units),
                figures.Believed.Count > 1 ? AltitudePlot.Altitude(record, figures, units) : null,
                figures.Believed.Count > 1 ? AltitudePlot.Rates(record, figures, units) : null,
                LandingPlot.Draw(figures, scores, units), WindPlot.Draw(record, units),
                AirPlot.Draw(record, units),
                ReceiverPlot.Draw(record, figures),
            }.OfType<Plot>(),
        ];
        MapData map = FlightMap.Of(record, figures);
        List<(string File, string What, Action<Stream> Write)> files =
        [
            .. plots.Select(p => ($"{p.Name}.svg", p.Text, (Action<Stream>)p.Write)),
            ("flight.gpx", "GPX 1.1: track, places, borders of the search areas; elevations above mean sea level.",
                to => Gpx.Write(to, map)),
            ("flight.kml", "KML 2.2: the same in three dimensions, with times.", to => Kml.Write(to, map)),
            ("flight.geojson", "GeoJSON (RFC 7946): the same; heights above the WGS 84 ellipsoid.",
                to => GeoJson.Write(to, map)),
            ("by-time.csv", "Everything by time: a row an epoch, believed or not.",
                to => TimeTable.Write(to, record, figures)),
        ];
        foreach ((WindBasis basis, string way) in new[] { (WindBasis.Ascent, "up"), (WindBasis.Descent, "down") })
        {
            if (Sounding.Has(record, basis))
            {
                files.Add(($"sounding-{way}.csv", $"The air on the way {way}, with fields and units like those of the "
                    + "Integrated Global Radiosonde Archive, version 2 (not a file of it).",
                    to => Sounding.Write(to, record, figures, basis)));
            }
        }

        string page = ReportPage.Compose(record, figures, scores,
            plots.ToDictionary(p => p.Name, StringComparer.Ordinal), files.Select(f => (f.File, f.What)));
        files.Insert(0, (PageName, "", to => to.Write(Encoding.UTF8.GetBytes(page))));
        OutputFolder output = new(folder, [.. files.Select(f => f.File)]);
        foreach ((string file, _, Action<Stream> write) in files)
            output.Write(file, write);
        return [.. files.Select(f => f.File)];
    }
}
