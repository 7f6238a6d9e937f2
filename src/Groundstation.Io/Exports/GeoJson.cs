using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using Groundstation.Core.Earth;
using NetTopologySuite.Geometries;
using NetTopologySuite.IO.Converters;

namespace Groundstation.Io.Exports;

/// <summary>
/// GeoJSON after RFC 7946: WGS 84, longitude first, heights in metres above the ellipsoid (the station's own are above
/// mean sea level; its geoid model makes them so), outer rings counterclockwise, cut at the antimeridian.
/// </summary>
public static class GeoJson
{
    // Seven decimals of a degree are 11 mm: finer than any fix.
    private const int DegreeDecimals = 7;

    private static readonly GeometryFactory _factory = new(new PrecisionModel(), 4326);

    private static readonly JsonSerializerOptions _options = new();

    // The geometry's converter alone: the library's others serialize by reflection, which a trimmed program has not.
    private static readonly JsonConverter<Geometry> _geometry = (JsonConverter<Geometry>)
        new GeoJsonConverterFactory(_factory).CreateConverter(typeof(Geometry), _options);

    /// <summary>Writes a FeatureCollection in UTF-8. The stream stays open.</summary>
    public static void Write(Stream to, MapData map)
    {
        using Utf8JsonWriter json = new(to, new JsonWriterOptions { Indented = false });
        json.WriteStartObject();
        json.WriteString("type", "FeatureCollection");
        json.WriteString("name", MapAttribute.Clean(map.Name));
        json.WriteString("description", MapAttribute.Clean(map.Description));
        json.WriteStartArray("features");
        foreach (MapTrack track in map.Tracks)
            Track(json, track);
        foreach (MapPlace place in map.Places)
        {
            Begin(json, _factory.CreatePoint(At(place.At)), place.Name, place.Role, place.Attributes);
            if (place.At.Utc is { } utc)
                json.WriteString("utc", utc.ToString());
            End(json);
        }

        foreach (MapArea area in map.Areas)
        {
            Begin(json, Antimeridian.Cut([.. area.Ring.Select(Rounded)], _factory), area.Name, area.Role,
                area.Attributes);
            if (area.From is { } from)
                json.WriteString("from_utc", from.ToString());
            if (area.Until is { } until)
                json.WriteString("until_utc", until.ToString());
            End(json);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Track(Utf8JsonWriter json, MapTrack track)
    {
        List<ImmutableArray<MapPoint>> lines =
            [.. track.Segments.SelectMany(Antimeridian.Cut).Where(line => line.Length > 1)];
        if (lines.Count == 0)
            return;
        LineString[] strings = [.. lines.Select(line => _factory.CreateLineString([.. line.Select(At)]))];
        Geometry geometry = strings.Length == 1 ? strings[0] : _factory.CreateMultiLineString(strings);
        Begin(json, geometry, track.Name, track.Role, track.Attributes);
        if (lines.TrueForAll(line => line.All(point => point.Utc is not null)))
        {
            // One moment a position, nested as the coordinates are.
            json.WriteStartArray("times_utc");
            foreach (ImmutableArray<MapPoint> line in lines)
            {
                if (lines.Count > 1)
                    json.WriteStartArray();
                foreach (MapPoint point in line)
                    json.WriteStringValue(point.Utc!.Value.ToString());
                if (lines.Count > 1)
                    json.WriteEndArray();
            }

            json.WriteEndArray();
        }

        End(json);
    }

    private static void Begin(Utf8JsonWriter json, Geometry geometry, string name, MapRole role,
        ImmutableArray<MapAttribute> attributes)
    {
        json.WriteStartObject();
        json.WriteString("type", "Feature");
        json.WritePropertyName("geometry");
        _geometry.Write(json, geometry, _options);
        json.WriteStartObject("properties");
        json.WriteString("name", MapAttribute.Clean(name));
        json.WriteString("role", Folders.Cells.Word(role));
        foreach (MapAttribute attribute in attributes)
        {
            json.WritePropertyName(MapAttribute.Clean(attribute.Name));
            if (attribute.IsNumber)
                json.WriteRawValue(attribute.Value);
            else
                json.WriteStringValue(MapAttribute.Clean(attribute.Value));
        }
    }

    private static void End(Utf8JsonWriter json)
    {
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static Coordinate At(MapPoint point)
    {
        GeoPoint at = Rounded(point.Position);
        return point.Height is { } height
            ? new CoordinateZ(at.LongitudeDeg, at.LatitudeDeg,
                Math.Round(height.ToEllipsoid(Geoid.SeparationM(point.Position)).Metres, 1))
            : new Coordinate(at.LongitudeDeg, at.LatitudeDeg);
    }

    private static GeoPoint Rounded(GeoPoint at) => new(Math.Round(at.LatitudeDeg, DegreeDecimals),
        Math.Round(at.LongitudeDeg, DegreeDecimals));
}
