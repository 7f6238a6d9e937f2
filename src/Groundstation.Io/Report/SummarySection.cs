using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;

namespace Groundstation.Io.Report;

/// <summary>The head of the page: what flight it was, and its figures at a glance.</summary>
internal static class SummarySection
{
    /// <summary>Writes it.</summary>
    public static void Write(Html page, FlightRecord record, FlightFigures figures)
    {
        page.Raw("<header>").Element("h1", record.Title);
        page.Raw($"<p class=\"lead\">{Html.Escape(Lead(record, figures))}</p>").Raw("</header>");
        page.Raw("<dl class=\"figures\">");
        foreach ((string name, string value, string more) in Figures(record, figures))
        {
            page.Raw($"<div><dt>{Html.Escape(name)}</dt><dd>{Html.Escape(value)}"
                + (more.Length > 0 ? $"<small>{Html.Escape(more)}</small>" : "") + "</dd></div>");
        }

        page.Raw("</dl>");
        page.Remark("Heights are above mean sea level, places WGS 84, times UTC (Z), " + ReportUnits.Of(record).Words
            + ". Everything here was " + $"worked out from the recording {record.Recording}"
            + (record.PlanFile is { } plan ? $" with the plan {plan}." : "; no plan was loaded, the station's own "
                + "defaults were in force."));
    }

    private static string Lead(FlightRecord record, FlightFigures figures)
    {
        FlightState flight = record.Last.Flight;
        ReportUnits units = ReportUnits.Of(record);
        if (record.Epochs.Length == 0)
            return "No epoch of a receiver stands in this recording.";
        if (figures.Believed.Count == 0)
            return $"{Html.Whole(record.Epochs.Length)} epochs were heard; none had a fix that could be believed.";
        if (!figures.Flew)
        {
            return $"No launch was recognised: {Html.Whole(figures.Believed.Count)} believed fixes, all in phase "
                + $"{Folders.Cells.Word(flight.Phase)}, over "
                + $"{Html.Duration(figures.Believed[^1].Fix.Utc.SecondsSince(figures.Believed[0].Fix.Utc))}.";
        }

        string lead = $"Launched {Html.Moment(flight.Launch!.Value.Utc)}";
        if (flight.Burst is { } burst)
        {
            lead += flight.BurstHeard ? $", burst at {units.Height(burst.Height.Metres)}"
                : $", heard falling at {units.Height(burst.Height.Metres)} (the burst itself was not heard)";
        }

        return lead + (figures.Landed is { } landed
            ? $", landed {units.Distance(Geodesic.DistanceM(flight.Launch.Value.Position, landed.Position))} away "
                + $"after {Html.Duration(landed.Utc.SecondsSince(flight.Launch.Value.Utc))}."
            : $". Last heard {Html.Clock(figures.Believed[^1].Fix.Utc)} at "
                + $"{units.Height(figures.Believed[^1].Fix.Height!.Value.Metres)}, not on the ground.");
    }

    private static IEnumerable<(string Name, string Value, string More)> Figures(FlightRecord record,
        FlightFigures figures)
    {
        FlightState flight = record.Last.Flight;
        ReportUnits units = ReportUnits.Of(record);
        if (flight.Launch is { } launch)
            yield return ("Launch", Html.Clock(launch.Utc), $"{launch.Position}, {units.Height(launch.Height.Metres)}");
        if (flight.Burst is { } burst)
        {
            yield return (flight.BurstHeard ? "Burst" : "Falling when heard", units.Height(burst.Height.Metres),
                $"{Html.Clock(burst.Utc)}, over {burst.Position}");
        }
        else if (flight.Highest is { } highest)
            yield return ("Highest heard", units.Height(highest.Height.Metres), Html.Clock(highest.Utc));
        if (figures.Landed is { } landed)
            yield return ("Landed", Html.Clock(landed.Utc), $"{landed.Position}, {units.Height(landed.Height.Metres)}");
        if (record.Found is { } found)
            yield return ("Found", found.ToString(), "as told by the team");
        if (figures.Landed is null && figures.Flew && record.Landings.Length > 0 && record.Landings[^1] is var last)
        {
            yield return ("Last landing estimate", last.Position.ToString(), $"95 % within {units.Axes(last.Area95)} "
                + $"along {Html.Number(last.Area95.AzimuthDeg, 0)}°, expected {Html.Clock(last.LandingUtc)}");
        }

        if (flight.Launch is { } from && figures.Truth is { } to)
        {
            GeodesicLine way = Geodesic.Inverse(from.Position, to);
            yield return ("Distance flown", units.Distance(way.DistanceM),
                $"towards {Html.Number(way.AzimuthDeg, 0)}° true" + (figures.FarthestM is { } far
                    ? $"; farthest {units.Distance(far)}" : ""));
        }

        if (figures.MeanAscentMps is { } up)
            yield return ("Mean ascent rate", units.Rate(up), "launch to burst");
        if (figures.DescentRateSeaLevelMps is { } down)
            yield return ("Descent rate", units.Rate(down), "as it would be at sea level");

        if (figures.Flew && figures.FastestMps is { } fast)
        {
            yield return ("Greatest ground speed", units.Speed(fast),
                units.Customary ? "" : $"{Html.Number(fast * 3.6, 0)} km/h");
        }

        if (figures.StrongestMps is { } wind)
            yield return ("Strongest wind", units.Speed(wind), "measured by drift");
        if (figures.Flew && figures.ColdestC is { } cold)
            yield return ("Coldest outside", units.Temperature(cold), "");
        long refused = record.Epochs.Length - figures.Believed.Count;
        yield return ("Fixes believed", Html.Whole(figures.Believed.Count), $"{Html.Whole(refused)} refused");
    }
}
