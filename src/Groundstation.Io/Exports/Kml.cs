using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Xml;
using Groundstation.Core.Earth;
using NetTopologySuite.Geometries;

namespace Groundstation.Io.Exports;

/// <summary>
/// OGC KML 2.2 (07-147r2) without extensions: WGS 84, heights in metres above mean sea level (<c>absolute</c>), times
/// as TimeStamp and TimeSpan, areas on the ground, cut at the antimeridian.
/// </summary>
public static class Kml
{
    private const string Namespace = "http://www.opengis.net/kml/2.2";

    private static readonly GeometryFactory _factory = new(new PrecisionModel(), 4326);

    // Colours as aabbggrr: blue, grey and vermilion stay apart for the colour-blind.
    private static readonly ImmutableArray<(MapRole Role, string Line, string Fill)> _styles =
    [
        (MapRole.Flown, "ffb27200", "4db27200"), (MapRole.Planned, "ff707070", "33707070"),
        (MapRole.Estimated, "ff005ed5", "33005ed5"),
    ];

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
        xml.WriteStartElement("kml", Namespace);
        xml.WriteStartElement("Document", Namespace);
        Text(xml, "name", map.Name);
        if (map.Description.Length > 0)
            Text(xml, "description", map.Description);
        foreach ((MapRole role, string line, string fill) in _styles)
            Style(xml, role, line, fill);
        Folder(xml, "Tracks", map.Tracks, Track);
        Folder(xml, "Places", map.Places, Place);
        Folder(xml, "Search areas", map.Areas, Area);
        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    private static void Track(XmlWriter xml, MapTrack track)
    {
        List<ImmutableArray<MapPoint>> lines =
            [.. track.Segments.SelectMany(Antimeridian.Cut).Where(line => line.Length > 1)];
        if (lines.Count == 0)
            return;
        Begin(xml, track.Name);
        if (lines[0][0].Utc is { } begin && lines[^1][^1].Utc is { } end)
            Span(xml, begin.ToString(), end.ToString());
        Tail(xml, track.Role, track.Attributes);
        xml.WriteStartElement("MultiGeometry", Namespace);
        foreach (ImmutableArray<MapPoint> line in lines)
        {
            xml.WriteStartElement("LineString", Namespace);
            Text(xml, "altitudeMode", line.All(p => p.Height is not null) ? "absolute" : "clampToGround");
            Text(xml, "coordinates", string.Join('\n', line.Select(p => At(p.Position, p.Height))));
            xml.WriteEndElement();
        }

        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    private static void Place(XmlWriter xml, MapPlace place)
    {
        Begin(xml, place.Name);
        if (place.At.Utc is { } utc)
        {
            xml.WriteStartElement("TimeStamp", Namespace);
            Text(xml, "when", utc.ToString());
            xml.WriteEndElement();
        }

        Tail(xml, place.Role, place.Attributes);
        xml.WriteStartElement("Point", Namespace);
        Text(xml, "altitudeMode", place.At.Height is null ? "clampToGround" : "absolute");
        Text(xml, "coordinates", At(place.At.Position, place.At.Height));
        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    private static void Area(XmlWriter xml, MapArea area)
    {
        Begin(xml, area.Name);
        Span(xml, area.From?.ToString(), area.Until?.ToString());
        Tail(xml, area.Role, area.Attributes);
        xml.WriteStartElement("MultiGeometry", Namespace);
        Geometry whole = Antimeridian.Cut(area.Ring, _factory);
        for (int i = 0; i < whole.NumGeometries; i++)
        {
            xml.WriteStartElement("Polygon", Namespace);
            Text(xml, "altitudeMode", "clampToGround");
            xml.WriteStartElement("outerBoundaryIs", Namespace);
            xml.WriteStartElement("LinearRing", Namespace);
            LineString ring = ((Polygon)whole.GetGeometryN(i)).ExteriorRing;
            // Counterclockwise, as the standard has it; cutting may have turned it.
            if (!NetTopologySuite.Algorithm.Orientation.IsCCW(ring.CoordinateSequence))
                ring = (LineString)ring.Reverse();
            Text(xml, "coordinates", string.Join('\n', ring.Coordinates.Select(c => At(new(c.Y, c.X), null))));
            xml.WriteEndElement();
            xml.WriteEndElement();
            xml.WriteEndElement();
        }

        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    private static void Folder<T>(XmlWriter xml, string name, ImmutableArray<T> items, Action<XmlWriter, T> write)
    {
        if (items.IsEmpty)
            return;
        xml.WriteStartElement("Folder", Namespace);
        Text(xml, "name", name);
        foreach (T item in items)
            write(xml, item);
        xml.WriteEndElement();
    }

    private static void Style(XmlWriter xml, MapRole role, string line, string fill)
    {
        xml.WriteStartElement("Style", Namespace);
        xml.WriteAttributeString("id", Folders.Cells.Word(role));
        xml.WriteStartElement("LineStyle", Namespace);
        Text(xml, "color", line);
        Text(xml, "width", "2");
        xml.WriteEndElement();
        xml.WriteStartElement("PolyStyle", Namespace);
        Text(xml, "color", fill);
        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    private static void Begin(XmlWriter xml, string name)
    {
        xml.WriteStartElement("Placemark", Namespace);
        Text(xml, "name", name);
    }

    private static void Span(XmlWriter xml, string? begin, string? end)
    {
        if (begin is null && end is null)
            return;
        xml.WriteStartElement("TimeSpan", Namespace);
        if (begin is not null)
            Text(xml, "begin", begin);
        if (end is not null)
            Text(xml, "end", end);
        xml.WriteEndElement();
    }

    private static void Tail(XmlWriter xml, MapRole role, ImmutableArray<MapAttribute> attributes)
    {
        Text(xml, "styleUrl", "#" + Folders.Cells.Word(role));
        if (attributes.IsEmpty)
            return;
        xml.WriteStartElement("ExtendedData", Namespace);
        foreach (MapAttribute attribute in attributes)
        {
            xml.WriteStartElement("Data", Namespace);
            xml.WriteAttributeString("name", MapAttribute.Clean(attribute.Name));
            Text(xml, "value", attribute.Value);
            xml.WriteEndElement();
        }

        xml.WriteEndElement();
    }

    private static string At(GeoPoint at, HeightMsl? height) => string.Create(CultureInfo.InvariantCulture,
        $"{at.LongitudeDeg:F7},{at.LatitudeDeg:F7}")
        + (height is { } h ? string.Create(CultureInfo.InvariantCulture, $",{h.Metres:F1}") : "");

    private static void Text(XmlWriter xml, string element, string text) =>
        xml.WriteElementString(element, Namespace, MapAttribute.Clean(text));
}
