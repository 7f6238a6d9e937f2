using System.Collections.Immutable;

namespace Groundstation.Core.Earth;

/// <summary>
/// A closed line around an area, as RFC 7946 draws it: straight in degrees between its points. Over the antimeridian it
/// goes the short way from point to point, whether longitudes jump there or run past 180.
/// </summary>
public sealed class GeoRing
{
    private readonly ImmutableArray<(double LatA, double LonA, double LatB, double LonB)> _edges;
    private readonly double _west, _east;

    /// <summary>A ring through points; the last one need not repeat the first.</summary>
    /// <param name="points">At least three.</param>
    public GeoRing(ImmutableArray<GeoPoint> points)
    {
        Points = points;
        double[] lon = Unrolled(points);
        var edges = ImmutableArray.CreateBuilder<(double, double, double, double)>(points.Length);
        for (int i = 0; i < points.Length; i++)
        {
            int next = (i + 1) % points.Length;
            edges.Add((points[i].LatitudeDeg, lon[i], points[next].LatitudeDeg, lon[next]));
        }
        _edges = edges.MoveToImmutable();
        (_west, _east) = (lon.Min(), lon.Max());
        (SouthDeg, NorthDeg) = (points.Min(p => p.LatitudeDeg), points.Max(p => p.LatitudeDeg));
    }

    private GeoRing(GeoRing whole, ImmutableArray<(double LatA, double LonA, double LatB, double LonB)> edges)
    {
        (Points, _edges) = (whole.Points, edges);
        (_west, _east, SouthDeg, NorthDeg) = (whole._west, whole._east, whole.SouthDeg, whole.NorthDeg);
    }

    /// <summary>Its points as given.</summary>
    public ImmutableArray<GeoPoint> Points { get; }

    /// <summary>Latitude of its southernmost point, degrees.</summary>
    public double SouthDeg { get; }

    /// <summary>Latitude of its northernmost point, degrees.</summary>
    public double NorthDeg { get; }

    /// <summary>True when the point lies inside: a line to the east meets an odd number of edges.</summary>
    public bool Contains(GeoPoint point)
    {
        double lat = point.LatitudeDeg, lon = _west + Turn(point.LongitudeDeg - _west);
        if (lat < SouthDeg || lat > NorthDeg || lon > _east) return false;
        bool inside = false;
        foreach ((double latA, double lonA, double latB, double lonB) in _edges)
        {
            if (latA > lat != latB > lat && lon < lonA + (lat - latA) / (latB - latA) * (lonB - lonA)) inside = !inside;
        }
        return inside;
    }

    /// <summary>
    /// The same ring for points between two latitudes only: a coast of a hundred thousand points is then asked about a
    /// few of them.
    /// </summary>
    public GeoRing Between(double southDeg, double northDeg) => new(this,
        [.. _edges.Where(e => Math.Min(e.LatA, e.LatB) <= northDeg && Math.Max(e.LatA, e.LatB) >= southDeg)]);

    private static double[] Unrolled(ImmutableArray<GeoPoint> points)
    {
        double[] lon = new double[points.Length];
        lon[0] = points[0].LongitudeDeg;
        for (int i = 1; i < lon.Length; i++)
            lon[i] = lon[i - 1] + Math.IEEERemainder(points[i].LongitudeDeg - points[i - 1].LongitudeDeg, 360);
        // Once round a pole it does not close: such a ring was drawn along the edge of the map, and is taken as drawn.
        double close = lon[^1] + Math.IEEERemainder(points[0].LongitudeDeg - points[^1].LongitudeDeg, 360);
        return Math.Abs(close - lon[0]) < 1 ? lon : [.. points.Select(p => p.LongitudeDeg)];
    }

    private static double Turn(double deg) => deg - 360 * Math.Floor(deg / 360);
}
