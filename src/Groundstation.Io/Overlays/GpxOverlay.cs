using System.Xml;
using Groundstation.Core.Earth;
using NetTopologySuite.IO;

namespace Groundstation.Io.Overlays;

/// <summary>GPX 1.1: waypoints are points, routes and tracks are lines. It has no areas.</summary>
internal static class GpxOverlay
{
    public static void Read(byte[] bytes, OverlayBuilder to)
    {
        GpxFile gpx;
        try
        {
            // No document type: entities in it can make a file of a kilobyte fill the memory.
            using XmlReader reader = XmlReader.Create(new MemoryStream(bytes),
                new XmlReaderSettings { DtdProcessing = DtdProcessing.Prohibit, MaxCharactersInDocument = OverlayFiles.MaxBytes });
            gpx = GpxFile.ReadFrom(reader, new GpxReaderSettings { IgnoreVersionAttribute = true, IgnoreBadDateTime = true });
        }
        catch (Exception e) when (e is XmlException or FormatException or ArgumentException or InvalidOperationException)
        {
            throw to.Wrong("", $"not GPX: {e.Message.Split('\n')[0]}");
        }

        foreach (GpxWaypoint point in gpx.Waypoints) to.Point(point.Name, point.Classification, At(point, "waypoint", to));
        foreach (GpxRoute route in gpx.Routes) Line(route.Name, route.Classification, route.Waypoints, "route", to);
        foreach (GpxTrack track in gpx.Tracks)
            foreach (GpxTrackSegment segment in track.Segments)
                Line(track.Name, track.Classification, segment.Waypoints, "track", to);
    }

    private static void Line(string? name, string? kind, IEnumerable<GpxWaypoint> points, string what, OverlayBuilder to)
    {
        GeoPoint[] at = [.. points.Select(p => At(p, what, to))];
        if (at.Length >= 2) to.Line(name, kind, [.. at]);
    }

    private static GeoPoint At(GpxWaypoint point, string what, OverlayBuilder to) =>
        to.Position(what, point.Latitude.Value, point.Longitude.Value);
}
