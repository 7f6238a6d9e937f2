using System.Collections.Immutable;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Exports;

/// <summary>Flights before their launch as maps.</summary>
public static class PlannedMap
{
    /// <summary>The map of some launch times: for each the path, launch, burst and landing with their areas.</summary>
    /// <param name="name">The flight's name.</param>
    /// <param name="flights">One for each launch time.</param>
    public static MapData Of(string name, IReadOnlyList<PlannedFlight> flights)
    {
        var tracks = ImmutableArray.CreateBuilder<MapTrack>();
        var places = ImmutableArray.CreateBuilder<MapPlace>();
        var areas = ImmutableArray.CreateBuilder<MapArea>();
        foreach (PlannedFlight flight in flights)
        {
            string when = flight.Launch.Utc.ToString()[..16].Replace('T', ' ') + "Z";
            LandingEstimate landing = flight.Landing;
            tracks.Add(new($"path, launch {when}", MapRole.Planned, [[.. landing.Path.Select(Of)]]));
            places.Add(new($"launch {when}", MapRole.Planned, Of(flight.Launch)));
            places.Add(new($"burst, launch {when}", MapRole.Planned, Of(flight.Burst)));
            places.Add(new($"landing, launch {when}", MapRole.Planned,
                new(landing.Position, landing.Ground, landing.LandingUtc))
            {
                Attributes =
                [
                    MapAttribute.Of("area50_major_m", landing.Area50.MajorM, 0),
                    MapAttribute.Of("area50_minor_m", landing.Area50.MinorM, 0),
                    MapAttribute.Of("area95_major_m", landing.Area95.MajorM, 0),
                    MapAttribute.Of("area95_minor_m", landing.Area95.MinorM, 0),
                    MapAttribute.Of("landing_sigma_s", landing.LandingSigmaS, 0),
                ],
            });
            areas.Add(new($"burst 50 %, launch {when}", MapRole.Planned, AreaRing.Of(flight.Burst.Position,
                flight.BurstArea50)));
            areas.Add(new($"burst 95 %, launch {when}", MapRole.Planned, AreaRing.Of(flight.Burst.Position,
                flight.BurstArea95)));
            areas.Add(new($"landing 50 %, launch {when}", MapRole.Planned, AreaRing.Of(landing.Position,
                landing.Area50)));
            areas.Add(new($"landing 95 %, launch {when}", MapRole.Planned, AreaRing.Of(landing.Position,
                landing.Area95)));
        }

        return new(name, "Planned before launch; nothing here has been filed with anybody.")
        {
            Tracks = tracks.ToImmutable(),
            Places = places.ToImmutable(),
            Areas = areas.ToImmutable(),
        };
    }

    /// <summary>Writes the map as GeoJSON, GPX and KML into a folder, made where it is not there.</summary>
    /// <returns>The files written.</returns>
    /// <exception cref="UserErrorException">The folder or a file cannot be written.</exception>
    public static ImmutableArray<string> Write(MapData map, string folder)
    {
        try
        {
            Directory.CreateDirectory(folder);
            return [File("path.geojson", GeoJson.Write), File("path.gpx", Gpx.Write), File("path.kml", Kml.Write)];
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            string words = FileTrouble.Words(e);
            throw new UserErrorException($"{folder}: cannot be written ({words}); name another with --out", e);
        }

        string File(string name, Action<Stream, MapData> write)
        {
            string path = Path.Combine(folder, name);
            using FileStream stream = System.IO.File.Create(path);
            write(stream, map);
            return path;
        }
    }

    private static MapPoint Of(Waypoint at) => new(at.Position, at.Height, at.Utc);
}
