using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Io.Exports;
using OxyPlot;
using OxyPlot.Annotations;

namespace Groundstation.Io.Report.Plots;

/// <summary>The flight from above, and the country around its landing nearer by.</summary>
internal static class PlanPlot
{
    /// <summary>The whole way; null when no place is known.</summary>
    public static Plot? Whole(FlightRecord record, FlightFigures figures, ReportUnits units)
    {
        if (figures.Origin is not { } origin)
            return null;
        GroundView view = new("Plan view", origin.Position, figures.Flew ? "launch" : "the first place", units);
        (string Name, LandingEstimate Estimate)[] key = [.. FlightMap.KeyEstimates(record, figures)];
        foreach ((string name, LandingEstimate e) in key.Where(k => k.Estimate.Phase == Phase.Ascent).Take(1))
        {
            // What was known early is wide: it is drawn, but the picture is not made as large as that.
            view.Label($"95 % area {name}", Area(view, e.Position, e.Area95, false, view.Glimpse));
        }

        if (key.Length > 0)
            Area(view, key[^1].Estimate.Position, key[^1].Estimate.Area95, true, view.See);
        Ways(view, record, figures, view.See);
        FlightState flight = record.Last.Flight;
        if (flight.Launch is { } launch)
            view.Mark(view.See(launch.Position), "launch", MarkerType.Triangle, HorizontalAlignment.Right);
        if (flight.Burst is { } burst)
        {
            view.Mark(view.See(burst.Position), $"{(flight.BurstHeard ? "burst" : "falling when heard")} "
                + units.Height(burst.Height.Metres), MarkerType.Cross, HorizontalAlignment.Right);
        }

        Ends(view, record, figures, units, view.See);
        return view.Draw("plan-view", "The flight from above, equal lengths to the east and to the north.");
    }

    /// <summary>Estimates and areas since the burst, nearer by; null when there was none or none was made.</summary>
    public static Plot? Landing(FlightRecord record, FlightFigures figures, ReportUnits units)
    {
        if (figures.Burst is not { } burst || figures.Origin is not { } origin)
            return null;
        LandingEstimate[] estimates = [.. record.Landings.Where(e => e.Method != LandingMethod.Landed
            && e.Phase != Phase.Landed && e.Utc > burst.Utc)];
        if (estimates.Length == 0)
            return null;
        GroundView view = new("Landing estimates since the burst", origin.Position, "launch", units);
        foreach ((string name, LandingEstimate e) in FlightMap.KeyEstimates(record, figures)
            .Where(k => k.Estimate.Utc > burst.Utc))
        {
            bool last = name == "last";
            List<DataPoint> ring = Area(view, e.Position, e.Area95, last, view.See);
            if (last)
            {
                Area(view, e.Position, e.Area50, true, view.See);
                continue;
            }

            view.Label($"95 % area {name}", ring);
        }

        Ways(view, record, figures, view.Glimpse);
        DataPoint[] way = [.. PlotStyle.Thin(estimates, 400).Select(e => view.See(e.Position))];
        view.Model.Series.Add(PlotStyle.Line(null, PlotStyle.Estimate, way, 0.8));
        view.Model.Series.Add(PlotStyle.Mark("landing estimates, one after another", MarkerType.Circle,
            PlotStyle.Estimate, 2.2, way));
        Ends(view, record, figures, units, record.Last.Flight.Landed is null ? view.Glimpse : view.See);
        if (record.Last.Flight.Landed is null)
        {
            view.Mark(view.See(estimates[^1].Position), "last estimate", MarkerType.Diamond, HorizontalAlignment.Left);
        }

        return view.Draw("landing-area", "Landing estimates since the burst, one after another, and search areas.");
    }

    private static List<DataPoint> Area(GroundView view, GeoPoint centre, SearchArea area, bool last,
        Func<GeoPoint, DataPoint> see)
    {
        PolygonAnnotation ring = new()
        {
            Fill = OxyColor.FromAColor(last ? (byte)45 : (byte)14, PlotStyle.Estimate),
            Stroke = PlotStyle.Estimate,
            StrokeThickness = last ? 1.8 : 1.2,
            LineStyle = last ? LineStyle.Solid : LineStyle.Dash,
            Layer = AnnotationLayer.BelowSeries,
        };
        ring.Points.AddRange(AreaRing.Of(centre, area).Select(see));
        view.Model.Annotations.Add(ring);
        return ring.Points;
    }

    private static void Ways(GroundView view, FlightRecord record, FlightFigures figures, Func<GeoPoint, DataPoint> see)
    {
        foreach ((string? title, OxyColor color, IReadOnlyList<EpochRow> rows) in Legs.Of(figures))
        {
            view.Model.Series.Add(PlotStyle.Line(title, color,
                PlotStyle.Thin(rows, 1000).Select(e => see(e.Fix.Position!.Value)), 3));
        }

        if (FlightMap.Silent(record) is { } silent)
        {
            view.Model.Series.Add(PlotStyle.Line("expected, not heard", PlotStyle.Estimate,
                silent.Path.Select(w => see(w.Position)), 2.5, LineStyle.Dot));
        }

        if (record.Chase.Length > 1)
        {
            view.Model.Series.Add(PlotStyle.Line("chase car", PlotStyle.Chase,
                PlotStyle.Thin(record.Chase, 1000).Select(w => see(w.Position)), 2, LineStyle.DashDot));
        }
    }

    private static void Ends(GroundView view, FlightRecord record, FlightFigures figures, ReportUnits units,
        Func<GeoPoint, DataPoint> see)
    {
        if (record.Last.Flight.Landed is { } landed)
            view.Mark(see(landed.Position), "landed", MarkerType.Square, HorizontalAlignment.Left);
        else if (figures.Flew && figures.Believed.Count > 0)
        {
            view.Mark(see(figures.Believed[^1].Fix.Position!.Value),
                $"last heard {units.Height(figures.Believed[^1].Fix.Height!.Value.Metres)}", MarkerType.Circle,
                HorizontalAlignment.Right);
        }

        if (record.Found is { } found)
            view.Mark(view.See(found), "found", MarkerType.Star, HorizontalAlignment.Left);
    }
}
