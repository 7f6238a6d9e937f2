using OxyPlot;
using OxyPlot.Axes;

namespace Groundstation.Io.Report.Plots;

/// <summary>
/// How well the tracker was heard: satellites used, HDOP, and the age of the newest believed fix, by time.
/// </summary>
internal static class ReceiverPlot
{
    // 99 and the like are a receiver's way to say that it has no fix.
    private const double NoFixHdop = 50;

    /// <summary>Draws it; null without an epoch.</summary>
    public static Plot? Draw(FlightRecord record, FlightFigures figures)
    {
        if (record.Epochs.Length == 0)
            return null;
        PlotModel model = PlotStyle.Model("How well it was heard");
        (double from, double to) = AltitudePlot.Span(record, figures, planned: false);
        model.Axes.Add(PlotStyle.Time(figures, from, to));
        DataPoint[] ages = [.. Ages(record, figures)];
        double[] hdops = [.. record.Epochs.Select(e => e.Fix.Hdop).OfType<double>().Where(d => d < NoFixHdop)];
        Panel("Age of newest fix", "s", "age", 0, 0.28).Maximum = Math.Max(5, ages.Max(a => (double?)a.Y) ?? 0) * 1.08;
        Panel("HDOP", null, "hdop", 0.36, 0.64).Maximum = Math.Max(2, hdops.Max(d => (double?)d) ?? 0) * 1.08;
        Panel("Satellites used", null, "sats", 0.72, 1).Maximum =
            Math.Max(6, record.Epochs.Max(e => e.Fix.SatellitesUsed ?? 0)) * 1.08;
        IReadOnlyList<EpochRow> rows = [.. PlotStyle.Thin(record.Epochs, 2000)];
        Add("sats", rows.Select(e => new DataPoint(figures.Minutes(e.Fix.Utc), e.Fix.SatellitesUsed ?? double.NaN)));
        Add("hdop", rows.Select(e => new DataPoint(figures.Minutes(e.Fix.Utc), e.Fix.Hdop is { } d and < NoFixHdop ? d
            : double.NaN)));
        Add("age", ages);
        return Plot.Draw("receiver", "Satellites used, HDOP and age of the newest believed fix by time.", model, 600);

        Axis Panel(string title, string? unit, string key, double start, double end)
        {
            Axis axis = PlotStyle.Axis(AxisPosition.Left, title, unit, key);
            (axis.StartPosition, axis.EndPosition, axis.Minimum) = (start, end, 0);
            model.Axes.Add(axis);
            return axis;
        }

        void Add(string key, IEnumerable<DataPoint> points)
        {
            var line = PlotStyle.Line(null, PlotStyle.Up, points, 1.5);
            line.YAxisKey = key;
            model.Series.Add(line);
        }
    }

    // A saw tooth: the age grows until the next believed fix. Ages of an ordinary pace are left out.
    private static IEnumerable<DataPoint> Ages(FlightRecord record, FlightFigures figures)
    {
        if (figures.Believed.Count == 0)
            yield break;
        double interval = figures.IntervalS ?? 1;
        yield return new DataPoint(figures.Minutes(figures.Believed[0].Fix.Utc), 0);
        for (int i = 1; i <= figures.Believed.Count; i++)
        {
            double before = figures.Minutes(figures.Believed[i - 1].Fix.Utc);
            double now = i < figures.Believed.Count ? figures.Minutes(figures.Believed[i].Fix.Utc)
                : figures.Minutes(record.Last.Utc);
            double seconds = (now - before) * 60;
            if (seconds <= 2.5 * interval && i < figures.Believed.Count)
                continue;
            yield return new DataPoint(before, 0);
            yield return new DataPoint(now, Math.Max(seconds, 0));
            yield return new DataPoint(now, 0);
        }
    }
}
