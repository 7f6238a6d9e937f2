using System.Collections.Immutable;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;
using Groundstation.Io.Exports;

namespace Groundstation.Io.Report;

/// <summary>A flight as a map: track, chase car, what happened where, landing estimates and search areas.</summary>
internal static class FlightMap
{
    /// <summary>Makes it.</summary>
    public static MapData Of(FlightRecord record, FlightFigures figures)
    {
        List<MapTrack> tracks = [];
        if (figures.Believed.Count > 0)
        {
            tracks.Add(new MapTrack("Payload, believed fixes", MapRole.Flown,
                Split(figures.Believed.Select(e => new MapPoint(e.Fix.Position!.Value, e.Fix.Height, e.Fix.Utc)),
                    figures.Gaps)));
        }

        if (record.Chase.Length > 0)
        {
            tracks.Add(new MapTrack("Chase car", MapRole.Flown,
                [[.. record.Chase.Select(w => new MapPoint(w.Position, null, w.Utc))]]));
        }

        if (Silent(record) is { } last)
        {
            tracks.Add(new MapTrack("Payload, expected, not heard", MapRole.Estimated,
                [[.. last.Path.Select(w => new MapPoint(w.Position, w.Height, w.Utc))]]));
        }

        return new MapData(record.Title, "Heights above mean sea level unless the format says otherwise; times UTC. "
            + "Landing estimates are estimates.")
        {
            Tracks = [.. tracks],
            Places = [.. Places(record, figures)],
            Areas = [.. KeyEstimates(record, figures).SelectMany(k => Areas(k.Name, k.Estimate))],
        };
    }

    /// <summary>The last estimate, where it is the model's because nothing was heard.</summary>
    public static LandingEstimate? Silent(FlightRecord record) =>
        record.Landings.Length > 0 && record.Landings[^1] is { Method: LandingMethod.Silent, Path.Length: > 1 } last
            ? last : null;

    /// <summary>
    /// The estimates worth a place on a map: half an hour into the climb, at burst, five minutes on, last.
    /// </summary>
    public static IEnumerable<(string Name, LandingEstimate Estimate)> KeyEstimates(FlightRecord record,
        FlightFigures figures)
    {
        LandingEstimate[] flight = [.. record.Landings.Where(e => e.Method != LandingMethod.Landed
            && e.Phase is not (Phase.Pad or Phase.Landed))];
        if (flight.Length == 0)
            yield break;
        if (figures.Flew && After(figures.Zero, 1800) is { Method: LandingMethod.Ascent } early)
            yield return ("30 min after launch", early);
        if (figures.Burst is { } burst)
        {
            if (After(burst.Utc, 60) is { } first)
                yield return ("1 min after burst", first);
            if (After(burst.Utc, 900) is { } second)
                yield return ("15 min after burst", second);
        }

        yield return ("last", flight[^1]);

        LandingEstimate? After(Instant from, double seconds) =>
            flight.FirstOrDefault(e => e.Utc.SecondsSince(from) >= seconds);
    }

    private static IEnumerable<MapPlace> Places(FlightRecord record, FlightFigures figures)
    {
        FlightState flight = record.Last.Flight;
        if (flight.Launch is { } launch)
            yield return At("Launch", launch);
        if (flight.Burst is { } burst)
            yield return At(flight.BurstHeard ? "Burst" : "Falling when heard", burst);
        else if (flight.Highest is { } highest && figures.Flew)
            yield return At("Highest", highest);
        if (figures.Landed is { } landed)
            yield return At("Landed", landed);
        else if (figures.Believed.Count > 0 && figures.Believed[^1].Fix is var last)
            yield return At("Last heard", new Waypoint(last.Utc, last.Position!.Value, last.Height!.Value));
        if (record.Found is { } found)
            yield return new MapPlace("Found", MapRole.Flown, new MapPoint(found));
        foreach ((string name, LandingEstimate e) in KeyEstimates(record, figures))
        {
            yield return new MapPlace($"Landing estimate, {name}", MapRole.Estimated,
                new MapPoint(e.Position, e.Ground, e.Utc))
            {
                Attributes =
                [
                    MapAttribute.Of("landing_utc", e.LandingUtc),
                    MapAttribute.Of("method", Folders.Cells.Word(e.Method)),
                    MapAttribute.Of("heard_age_s", e.HeardAgeS, 1),
                ],
            };
        }

        static MapPlace At(string name, Waypoint at) =>
            new(name, MapRole.Flown, new MapPoint(at.Position, at.Height, at.Utc));
    }

    private static IEnumerable<MapArea> Areas(string name, LandingEstimate e)
    {
        foreach ((int percent, SearchArea area) in new[] { (50, e.Area50), (95, e.Area95) })
        {
            if (!(area.MajorM > 0 && double.IsFinite(area.MajorM)))
                continue;
            yield return new MapArea($"{percent} % search area, {name}", MapRole.Estimated,
                AreaRing.Of(e.Position, area))
            {
                From = e.Utc,
                Attributes =
                [
                    MapAttribute.Of("made_utc", e.Utc), MapAttribute.Of("major_m", area.MajorM, 1),
                    MapAttribute.Of("minor_m", area.MinorM, 1), MapAttribute.Of("azimuth_deg", area.AzimuthDeg, 1),
                ],
            };
        }
    }

    private static ImmutableArray<ImmutableArray<MapPoint>> Split(IEnumerable<MapPoint> points, IEnumerable<Gap> gaps)
    {
        HashSet<Instant> breaks = [.. gaps.Where(g => g.To is not null).Select(g => g.To!.Value.Utc)];
        List<ImmutableArray<MapPoint>> segments = [];
        List<MapPoint> segment = [];
        foreach (MapPoint point in points)
        {
            if (breaks.Contains(point.Utc!.Value) && segment.Count > 0)
            {
                segments.Add([.. segment]);
                segment.Clear();
            }

            segment.Add(point);
        }

        return [.. segments, [.. segment]];
    }
}
