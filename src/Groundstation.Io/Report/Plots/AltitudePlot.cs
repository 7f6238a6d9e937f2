using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Legends;

namespace Groundstation.Io.Report.Plots;

/// <summary>Altitude, vertical rate and ground speed by time.</summary>
internal static class AltitudePlot
{
    /// <summary>Altitude as flown, as planned, and as the model had it while nothing was heard.</summary>
    public static Plot Altitude(FlightRecord record, FlightFigures figures, ReportUnits units)
    {
        PlotModel model = PlotStyle.Model("Altitude");
        AxisUnit tall = units.Tall;
        (double from, double to) = Span(record, figures, planned: true);
        model.Axes.Add(PlotStyle.Time(figures, from, to));
        model.Axes.Add(PlotStyle.Axis(AxisPosition.Left, "Altitude above mean sea level", tall.Name));
        if (figures.Flew)
        {
            model.Series.Add(PlotStyle.Line(record.PlanFile is null ? "by the station's defaults" : "planned",
                PlotStyle.Planned, PlannedProfile.Of(record, figures)
                    .Select(p => new DataPoint(p.Seconds / 60, tall.Of(p.HeightM))), 2, LineStyle.Dash));
        }

        foreach ((string? title, OxyColor color, IReadOnlyList<EpochRow> rows) in Legs.Of(figures))
        {
            model.Series.Add(PlotStyle.Line(title, color, PlotStyle.Thin(rows, 1500)
                .Select(e => new DataPoint(figures.Minutes(e.Fix.Utc), tall.Of(e.Fix.Height!.Value.Metres))), 2.5));
        }

        LandingEstimate[] silent = [.. record.Landings.Where(e => e.Method == LandingMethod.Silent
            && e.Utc.SecondsSince(record.Last.Flight.Newest?.Utc ?? e.Utc) > 0 && e.Utc < e.LandingUtc)];
        if (silent.Length > 1)
        {
            model.Series.Add(PlotStyle.Line("expected, not heard", PlotStyle.Estimate, silent
                .Select(e => new DataPoint(figures.Minutes(e.Utc), tall.Of(e.Altitude.Metres))), 2.5, LineStyle.Dot));
        }

        EpochRow[] refused = [.. record.Epochs.Where(e => e.Fix is { Believed: false, Height: not null })];
        if (refused.Length > 0)
        {
            model.Series.Add(PlotStyle.Mark("refused", MarkerType.Cross, PlotStyle.Ink, 3,
                PlotStyle.Thin(refused, 300).Where(e => e.Fix.Height!.Value.Metres is > -500 and < 60_000)
                    .Select(e => new DataPoint(figures.Minutes(e.Fix.Utc), tall.Of(e.Fix.Height!.Value.Metres)))));
        }

        if (figures.Burst is { } burst)
        {
            Happened(model, figures, units, burst, record.Last.Flight.BurstHeard ? "burst" : "falling when heard",
                HorizontalAlignment.Right);
        }

        if (figures.Landed is { } landed)
        {
            Happened(model, figures, units, landed, "landed", HorizontalAlignment.Left);
            // Room for its words.
            model.Axes[0].Maximum = Math.Max(to, figures.Minutes(landed.Utc) + 0.2 * (to - from));
        }

        model.Axes[1].MaximumPadding = 0.12;
        model.Legends.Add(PlotStyle.Legend(LegendPosition.TopLeft));
        return Plot.Draw("altitude", "Altitude by time, as flown and as planned.", model, 460);
    }

    /// <summary>Vertical rate above, speed over ground below.</summary>
    public static Plot Rates(FlightRecord record, FlightFigures figures, ReportUnits units)
    {
        PlotModel model = PlotStyle.Model("Vertical rate and speed over ground");
        (double from, double to) = Span(record, figures, planned: true);
        model.Axes.Add(PlotStyle.Time(figures, from, to));
        Axis speed = PlotStyle.Axis(AxisPosition.Left, "Speed over ground", units.Level.Name, "speed");
        (speed.StartPosition, speed.EndPosition, speed.MinimumRange) = (0, 0.44, units.Level.Of(1));
        Axis rate = PlotStyle.Axis(AxisPosition.Left, "Vertical rate, up positive", units.Vertical.Name, "rate");
        (rate.StartPosition, rate.EndPosition, rate.MinimumRange) = (0.5, 1, units.Vertical.Of(2));
        model.Axes.Add(speed);
        model.Axes.Add(rate);
        if (figures.Flew)
        {
            var planned = PlotStyle.Line("planned", PlotStyle.Planned, PlannedProfile.Of(record, figures)
                .Select(p => new DataPoint(p.Seconds / 60, units.Vertical.Of(p.RateMps))), 2, LineStyle.Dash);
            (planned.YAxisKey, planned.LegendKey) = ("rate", "rate");
            model.Series.Add(planned);
        }

        foreach ((string? title, OxyColor color, IReadOnlyList<EpochRow> rows) in Legs.Of(figures))
        {
            var vertical = PlotStyle.Line(title, color, PlotStyle.Thin(rows, 1500).Where(e => e.RateMps is not null)
                .Select(e => new DataPoint(figures.Minutes(e.Fix.Utc), units.Vertical.Of(e.RateMps!.Value))), 1.7);
            (vertical.YAxisKey, vertical.LegendKey) = ("rate", "rate");
            model.Series.Add(vertical);
            var over = PlotStyle.Line(null, color, PlotStyle.Thin(rows, 1500).Where(e => e.Fix.SpeedMps is not null)
                .Select(e => new DataPoint(figures.Minutes(e.Fix.Utc), units.Level.Of(e.Fix.SpeedMps!.Value))), 1.7);
            over.YAxisKey = "speed";
            model.Series.Add(over);
        }

        Legend legend = PlotStyle.Legend(LegendPosition.BottomLeft, "rate");
        legend.LegendPlacement = LegendPlacement.Outside;
        legend.LegendPosition = LegendPosition.TopCenter;
        legend.LegendOrientation = LegendOrientation.Horizontal;
        model.Legends.Add(legend);
        return Plot.Draw("rates", "Vertical rate and speed over ground by time.", model, 560);
    }

    /// <summary>What the time axes show: the flight with some minutes around it, or the whole recording.</summary>
    /// <param name="record">The flight.</param>
    /// <param name="figures">Its figures.</param>
    /// <param name="planned">With the planned flight's end, unless it lies so far away that the flown one would shrink.
    /// </param>
    public static (double From, double To) Span(FlightRecord record, FlightFigures figures, bool planned)
    {
        if (record.Epochs.Length == 0)
            return (0, 1);
        double from = record.Epochs.Min(e => figures.Minutes(e.Fix.Utc));
        double to = Math.Max(record.Epochs.Max(e => figures.Minutes(e.Fix.Utc)), figures.Minutes(record.Last.Utc));
        if (!figures.Flew)
            return (from, to);
        double end = figures.Landed is { } landed ? figures.Minutes(landed.Utc)
            : record.Landings.Length > 0 ? figures.Minutes(record.Landings[^1].LandingUtc) : to;
        double after = planned ? PlannedProfile.Of(record, figures).Select(p => p.Seconds / 60).LastOrDefault() : 0;
        return (Math.Max(from, -8), Math.Max(Math.Max(Math.Min(to, end + 15), after < 1.3 * end ? after : 0), 1));
    }

    private static void Happened(PlotModel model, FlightFigures figures, ReportUnits units, Waypoint at, string word,
        HorizontalAlignment side)
    {
        (double x, double y) = (figures.Minutes(at.Utc), units.Tall.Of(at.Height.Metres));
        model.Series.Add(PlotStyle.Mark(null, MarkerType.Circle, PlotStyle.Ink, 4.5, new DataPoint(x, y)));
        model.Annotations.Add(PlotStyle.Word($"{word} {units.Height(at.Height.Metres)}, {Html.Clock(at.Utc)}", x, y,
            side, VerticalAlignment.Bottom));
    }
}
