using System.Collections.Immutable;
using System.Text;
using System.Xml;
using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;
using NetTopologySuite.IO;

namespace Groundstation.Io.Exports;

/// <summary>
/// GPX 1.1: WGS 84, elevations in metres above mean sea level, UTC. The format knows no areas: an area's border is
/// written as a route that ends where it began.
/// </summary>
public static class Gpx
{
    /// <summary>Writes a document in UTF-8. The stream stays open.</summary>
    public static void Write(Stream to, MapData map)
    {
        using XmlWriter xml = XmlWriter.Create(to, new XmlWriterSettings
        {
            Encoding = new UTF8Encoding(false),
            Indent = true,
            NewLineChars = "\n",
            CloseOutput = false,
        });
        GpxMetadata about = new GpxMetadata("groundstation").WithName(MapAttribute.Clean(map.Name));
        if (map.Description.Length > 0)
            about = about.WithDescription(MapAttribute.Clean(map.Description));
        GpxWriter.Write(xml, null, about, map.Places.Select(Place), map.Areas.Select(Border), map.Tracks.Select(Track),
            null);
    }

    private static GpxWaypoint Place(MapPlace place) => Point(place.At)
        .WithName(MapAttribute.Clean(place.Name))
        .WithDescription(Words(place.Attributes))
        .WithClassification(Folders.Cells.Word(place.Role));

    private static GpxTrack Track(MapTrack track) => new GpxTrack()
        .WithName(MapAttribute.Clean(track.Name))
        .WithDescription(Words(track.Attributes))
        .WithClassification(Folders.Cells.Word(track.Role))
        .WithSegments([.. track.Segments.Select(s => new GpxTrackSegment().WithWaypoints(s.Select(Point)))]);

    private static GpxRoute Border(MapArea area) => new GpxRoute()
        .WithName(MapAttribute.Clean(area.Name))
        .WithDescription(Words(area.Attributes))
        .WithClassification(Folders.Cells.Word(area.Role))
        .WithWaypoints(area.Ring.Append(area.Ring[0]).Select(place => Point(new MapPoint(place))));

    private static GpxWaypoint Point(MapPoint point)
    {
        // The format has −180 but not 180.
        double longitude = LocalFrame.NormalLongitude(Math.Round(point.Position.LongitudeDeg, 7));
        GpxWaypoint waypoint = new(new GpxLongitude(longitude),
            new GpxLatitude(Math.Round(point.Position.LatitudeDeg, 7)),
            point.Height is { } height ? Math.Round(height.Metres, 1) : null);
        // To the millisecond, as everywhere: a launch worked out between two fixes has seven decimals.
        return point.Utc is { } utc
            ? waypoint.WithTimestampUtc(Instant.FromUnixMilliseconds(utc.UnixMilliseconds).ToDateTime()) : waypoint;
    }

    private static string? Words(ImmutableArray<MapAttribute> attributes) => attributes.IsEmpty ? null
        : MapAttribute.Clean(string.Join("; ", attributes.Select(a => $"{a.Name} {a.Value}")));
}
