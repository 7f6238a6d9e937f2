using System.Collections.Immutable;
using System.Text.Json;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;

namespace Groundstation.Io.Overlays;

/// <summary>
/// GeoJSON after RFC 7946. Read from the JSON tree directly: the known converters go through reflection, which a trimmed
/// program does not have, and cannot say which feature is wrong.
/// </summary>
internal static class GeoJsonOverlay
{
    // Feature collection, feature, geometry, collection in it, polygon, ring, position: 14 levels; properties may be deep.
    private const int MaxDepth = 64, MostNested = 4;

    public static void Read(byte[] bytes, OverlayBuilder to)
    {
        ReadOnlyMemory<byte> text = bytes.AsSpan().StartsWith("\uFEFF"u8) ? bytes.AsMemory(3) : bytes;
        try
        {
            using JsonDocument document = JsonDocument.Parse(text, new JsonDocumentOptions { MaxDepth = MaxDepth });
            Top(document.RootElement, to);
        }
        catch (JsonException e)
        {
            string what = e.Message.Contains("depth", StringComparison.Ordinal) ? $"nested deeper than {MaxDepth} levels"
                : "not JSON";
            throw to.Wrong($"line {(e.LineNumber ?? 0) + 1}", what);
        }
        catch (InvalidOperationException)
        {
            // A string that is no Unicode text.
            throw to.Wrong("", "holds text that is not UTF-8");
        }
    }

    private static void Top(JsonElement root, OverlayBuilder to)
    {
        switch (Type(root))
        {
            case "FeatureCollection" when Member(root, "features") is { ValueKind: JsonValueKind.Array } features:
                int number = 0;
                foreach (JsonElement feature in features.EnumerateArray())
                {
                    string where = $"feature {++number}";
                    if (Type(feature) != "Feature") throw to.Wrong(where, "no GeoJSON Feature");
                    Feature(feature, where, to);
                }

                break;
            case "FeatureCollection":
                throw to.Wrong("", "a FeatureCollection without its list of features");
            case "Feature":
                Feature(root, "feature 1", to);
                break;
            case null:
                throw to.Wrong("", "no GeoJSON: it has no type (FeatureCollection, Feature or a geometry)");
            default:
                Geometry(root, "geometry", null, null, 0, to);
                break;
        }
    }

    private static void Feature(JsonElement feature, string where, OverlayBuilder to)
    {
        JsonElement properties = Member(feature, "properties") ?? default;
        string? name = Text(properties, "name"), kind = Text(properties, "kind");
        if (name is not null) where += $" ({name[..Math.Min(name.Length, 30)]})";
        if (Member(feature, "geometry") is { ValueKind: JsonValueKind.Object } geometry)
            Geometry(geometry, where, name, kind, 0, to);
    }

    private static void Geometry(JsonElement g, string where, string? name, string? kind, int depth, OverlayBuilder to)
    {
        string? type = Type(g);
        if (type == "GeometryCollection")
        {
            if (depth == MostNested) throw to.Wrong(where, $"geometry collections nested deeper than {MostNested}");
            foreach (JsonElement part in List(Member(g, "geometries") ?? default, where, "geometries", to))
                Geometry(part, where, name, kind, depth + 1, to);
            return;
        }

        JsonElement c = Member(g, "coordinates") ?? default;
        switch (type)
        {
            case "Polygon": to.Area(name, kind, [Part(c, where, to)]); break;
            case "MultiPolygon":
                to.Area(name, kind, [.. List(c, where, "polygons", to).Select(p => Part(p, where, to))]);
                break;
            case "LineString": to.Line(name, kind, Line(c, where, 2, to)); break;
            case "MultiLineString":
                foreach (JsonElement line in List(c, where, "lines", to)) to.Line(name, kind, Line(line, where, 2, to));
                break;
            case "Point": to.Point(name, kind, Position(c, where, to)); break;
            case "MultiPoint":
                foreach (JsonElement point in List(c, where, "points", to))
                    to.Point(name, kind, Position(point, where, to));
                break;
            default:
                throw to.Wrong(where, "type is one of Point, LineString, Polygon, their Multi… forms, GeometryCollection");
        }
    }

    private static AreaPart Part(JsonElement c, string where, OverlayBuilder to)
    {
        GeoRing[] rings = [.. List(c, where, "rings", to).Select(r => new GeoRing(Line(r, where, 4, to)))];
        if (rings.Length == 0) throw to.Wrong(where, "a polygon without a ring");
        return new(rings[0], [.. rings.Skip(1)]);
    }

    private static ImmutableArray<GeoPoint> Line(JsonElement c, string where, int least, OverlayBuilder to)
    {
        ImmutableArray<GeoPoint> points = [.. List(c, where, "positions", to).Select(p => Position(p, where, to))];
        if (points.Length < least)
            throw to.Wrong(where, $"a {(least == 4 ? "ring" : "line")} has {least} positions at least");
        if (least == 4 && points[0] != points[^1])
            throw to.Wrong(where, "a ring ends where it begins");
        return points;
    }

    private static GeoPoint Position(JsonElement c, string where, OverlayBuilder to)
    {
        if (c.ValueKind != JsonValueKind.Array || c.GetArrayLength() < 2 || c[0].ValueKind != JsonValueKind.Number
            || c[1].ValueKind != JsonValueKind.Number)
            throw to.Wrong(where, "a position is [longitude, latitude] in degrees");
        return to.Position(where, c[1].GetDouble(), c[0].GetDouble());
    }

    private static JsonElement.ArrayEnumerator List(JsonElement c, string where, string what, OverlayBuilder to) =>
        c.ValueKind == JsonValueKind.Array ? c.EnumerateArray() : throw to.Wrong(where, $"needs a list of {what}");

    private static string? Type(JsonElement e) => Text(e, "type");

    private static string? Text(JsonElement e, string member) =>
        Member(e, member) is { ValueKind: JsonValueKind.String } text ? text.GetString() : null;

    private static JsonElement? Member(JsonElement e, string member) =>
        e.ValueKind == JsonValueKind.Object && e.TryGetProperty(member, out JsonElement value) ? value : null;
}
