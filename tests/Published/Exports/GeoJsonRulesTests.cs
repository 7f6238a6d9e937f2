using System.Text.Json;
using Groundstation.Core.Earth;
using Groundstation.Io.Exports;
using Xunit;

namespace Groundstation.Published.Exports;

/// <summary>
/// The rules of RFC 7946 that a machine can check: there is no schema by the IETF. Sections are those of the RFC, read
/// from memory.
/// </summary>
public class GeoJsonRulesTests
{
    public static TheoryData<string> Maps => [.. Exports.Maps.Names];

    [Theory, MemberData(nameof(Maps))]
    public void Every_geometry_keeps_the_rules(string map)
    {
        using JsonDocument json = Written(map);
        Assert.Equal("FeatureCollection", json.RootElement.GetProperty("type").GetString());
        foreach (JsonElement feature in json.RootElement.GetProperty("features").EnumerateArray())
        {
            Assert.Equal("Feature", feature.GetProperty("type").GetString());
            Assert.Equal(JsonValueKind.Object, feature.GetProperty("properties").ValueKind);
            JsonElement geometry = feature.GetProperty("geometry");
            JsonElement coordinates = geometry.GetProperty("coordinates");
            switch (geometry.GetProperty("type").GetString())
            {
                case "Point": Position(coordinates); break;
                case "LineString": Line(coordinates); break;
                case "MultiLineString": Assert.All(coordinates.EnumerateArray(), Line); break;
                case "Polygon": Assert.All(coordinates.EnumerateArray(), Ring); break;
                case "MultiPolygon":
                    Assert.All(coordinates.EnumerateArray(), p => Assert.All(p.EnumerateArray(), Ring));
                    break;
                default: Assert.Fail("a geometry that RFC 7946 does not know"); break;
            }
        }
    }

    [Fact]
    public void Heights_are_above_the_ellipsoid_and_times_go_with_the_positions()
    {
        using JsonDocument json = Written("plain");
        JsonElement track = json.RootElement.GetProperty("features")[0];
        JsonElement line = track.GetProperty("geometry").GetProperty("coordinates")[0];
        // Track point 2 lies at −5 + 2 × 1000.26 m above mean sea level.
        double separation = line[2][2].GetDouble() - 1995.52;
        Assert.Equal(Geoid.SeparationM(new GeoPoint(line[2][1].GetDouble(), line[2][0].GetDouble())), separation, 0.06);
        Assert.InRange(separation, 40, 60);
        JsonElement times = track.GetProperty("properties").GetProperty("times_utc");
        Assert.Equal(line.GetArrayLength(), times[0].GetArrayLength());
        Assert.Equal("2026-06-21T00:00:02.250Z", times[0][2].GetString());
        Assert.Equal(JsonValueKind.Number, track.GetProperty("properties").GetProperty("burst_m").ValueKind);
    }

    [Theory]
    [InlineData("antimeridian", "MultiPolygon")]
    [InlineData("plain", "Polygon")]
    public void An_area_is_cut_at_the_antimeridian_and_keeps_its_size(string map, string type)
    {
        using JsonDocument json = Written(map);
        JsonElement geometry = json.RootElement.GetProperty("features").EnumerateArray()
            .Select(f => f.GetProperty("geometry"))
            .First(g => g.GetProperty("type").GetString()!.EndsWith("Polygon", StringComparison.Ordinal));
        Assert.Equal(type, geometry.GetProperty("type").GetString());
        JsonElement coordinates = geometry.GetProperty("coordinates");
        IEnumerable<JsonElement> rings = type == "Polygon" ? [coordinates[0]]
            : coordinates.EnumerateArray().Select(p => p[0]);
        double squareDegrees = rings.Sum(SignedArea);
        double latitude = map == "plain" ? 47.1 : -17;
        double squareMetres = squareDegrees * 111_200 * 111_320 * Math.Cos(latitude * Math.PI / 180);
        Assert.Equal(Math.PI * 4000 * 1500, squareMetres, 0.01 * Math.PI * 4000 * 1500);
    }

    private static JsonDocument Written(string map)
    {
        using MemoryStream to = new();
        GeoJson.Write(to, Exports.Maps.Of(map));
        return JsonDocument.Parse(to.ToArray());
    }

    // 3.1.1 and 4: longitude, latitude, at most a height.
    private static void Position(JsonElement position)
    {
        Assert.InRange(position.GetArrayLength(), 2, 3);
        Assert.InRange(position[0].GetDouble(), -180, 180);
        Assert.InRange(position[1].GetDouble(), -90, 90);
    }

    // 3.1.4, and 3.1.9: nothing crosses the antimeridian.
    private static void Line(JsonElement line)
    {
        Assert.True(line.GetArrayLength() >= 2);
        Assert.All(line.EnumerateArray(), Position);
        double[] longitudes = [.. line.EnumerateArray().Select(p => p[0].GetDouble())];
        Assert.True(longitudes.Zip(longitudes.Skip(1)).All(p => Math.Abs(p.First - p.Second) <= 180.0001
            || Math.Abs(line[0][1].GetDouble()) > 89), "a line crosses the antimeridian");
    }

    // 3.1.6: closed, four positions at least, the outer ring counterclockwise.
    private static void Ring(JsonElement ring)
    {
        Assert.True(ring.GetArrayLength() >= 4);
        Assert.All(ring.EnumerateArray(), Position);
        Assert.Equal(ring[0].ToString(), ring[ring.GetArrayLength() - 1].ToString());
        Assert.True(SignedArea(ring) > 0, "an outer ring is clockwise");
    }

    private static double SignedArea(JsonElement ring)
    {
        (double X, double Y)[] p = [.. ring.EnumerateArray().Select(c => (c[0].GetDouble(), c[1].GetDouble()))];
        return p.Zip(p.Skip(1)).Sum(s => s.First.X * s.Second.Y - s.Second.X * s.First.Y) / 2;
    }
}
