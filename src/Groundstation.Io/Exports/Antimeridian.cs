using System.Collections.Immutable;
using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;
using NetTopologySuite.Geometries;

namespace Groundstation.Io.Exports;

/// <summary>
/// Cuts lines and areas at 180° of longitude, as RFC 7946 section 3.1.9 asks: no part crosses it, and each stays
/// within −180 to 180.
/// </summary>
internal static class Antimeridian
{
    /// <summary>A line in parts. Where it is cut, both parts get a point on the meridian, interpolated.</summary>
    public static List<ImmutableArray<MapPoint>> Cut(ImmutableArray<MapPoint> line)
    {
        List<ImmutableArray<MapPoint>> parts = [];
        var part = ImmutableArray.CreateBuilder<MapPoint>();
        foreach (MapPoint point in line)
        {
            if (part.Count > 0 && part[^1] is var last
                && Math.Abs(point.Position.LongitudeDeg - last.Position.LongitudeDeg) > 180)
            {
                double side = last.Position.LongitudeDeg < 0 ? -180 : 180;
                MapPoint on = On(last, point, side);
                part.Add(on);
                parts.Add(part.ToImmutable());
                part.Clear();
                part.Add(on with { Position = new GeoPoint(on.Position.LatitudeDeg, -side) });
            }

            part.Add(point);
        }

        if (part.Count > 0)
            parts.Add(part.ToImmutable());
        return parts;
    }

    /// <summary>An area in parts. One around a pole is closed along the meridian and the pole.</summary>
    /// <param name="ring">Its border, not closed.</param>
    /// <param name="factory">Makes the polygons.</param>
    public static Geometry Cut(ImmutableArray<GeoPoint> ring, GeometryFactory factory)
    {
        List<Coordinate> unwrapped = [];
        double turn = 0, before = ring[0].LongitudeDeg;
        foreach (GeoPoint place in ring.Append(ring[0]))
        {
            turn -= 360 * Math.Round((place.LongitudeDeg - before) / 360);
            before = place.LongitudeDeg;
            unwrapped.Add(new Coordinate(place.LongitudeDeg + turn, place.LatitudeDeg));
        }

        if (unwrapped[^1].X != unwrapped[0].X)
        {
            double pole = ring[0].LatitudeDeg < 0 ? -90 : 90;
            unwrapped.Add(new Coordinate(unwrapped[^1].X, pole));
            unwrapped.Add(new Coordinate(unwrapped[0].X, pole));
            unwrapped.Add(unwrapped[0].Copy());
        }

        Polygon whole = factory.CreatePolygon([.. unwrapped]);
        if (whole.EnvelopeInternal is { MinX: >= -180, MaxX: <= 180 })
            return whole;
        List<Polygon> parts = [];
        for (int shift = -360; shift <= 360; shift += 360)
        {
            Geometry window = factory.ToGeometry(new Envelope(-180 + shift, 180 + shift, -90, 90));
            // A copy: the intersection shares its coordinates with the whole.
            Geometry inside = whole.Intersection(window).Copy();
            inside.Apply(new Shift(-shift));
            for (int i = 0; i < inside.NumGeometries; i++)
            {
                if (inside.GetGeometryN(i) is Polygon { IsEmpty: false } polygon)
                    parts.Add(polygon);
            }
        }

        return parts.Count == 1 ? parts[0] : factory.CreateMultiPolygon([.. parts]);
    }

    private static MapPoint On(MapPoint a, MapPoint b, double side)
    {
        double whole = b.Position.LongitudeDeg - a.Position.LongitudeDeg + Math.Sign(side) * 360;
        double share = whole == 0 ? 0 : (side - a.Position.LongitudeDeg) / whole;
        double latitude = a.Position.LatitudeDeg + share * (b.Position.LatitudeDeg - a.Position.LatitudeDeg);
        HeightMsl? height = a.Height is { } low && b.Height is { } high
            ? new HeightMsl(low.Metres + share * (high.Metres - low.Metres)) : null;
        Instant? utc = a.Utc is { } from && b.Utc is { } to ? from.PlusSeconds(share * to.SecondsSince(from)) : null;
        return new MapPoint(new GeoPoint(latitude, side), height, utc);
    }

    private sealed class Shift(double degrees) : ICoordinateFilter
    {
        public void Filter(Coordinate coord) => coord.X += degrees;
    }
}
