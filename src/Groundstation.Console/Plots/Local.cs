using Groundstation.Core.Earth;

namespace Groundstation.Console.Plots;

/// <summary>
/// A flat map around an origin for drawing: metres east and north along the WGS 84 radii of curvature at the origin.
/// Good to about 1 % over 300 km, which is less than one dot; figures in text come from the geodesic instead.
/// </summary>
internal readonly struct Local
{
    private readonly GeoPoint _origin;
    private readonly double _eastPerDeg, _northPerDeg;

    public Local(GeoPoint origin)
    {
        _origin = origin;
        const double Degree = Math.PI / 180;
        double latitude = origin.LatitudeDeg;
        _eastPerDeg = Ellipsoid.Wgs84.PrimeVerticalRadius(latitude) * Math.Cos(latitude * Degree) * Degree;
        _northPerDeg = Ellipsoid.Wgs84.MeridianRadius(latitude) * Degree;
    }

    /// <summary>Metres east and north of the origin, the short way round.</summary>
    public (double East, double North) Of(GeoPoint at) =>
        (Math.IEEERemainder(at.LongitudeDeg - _origin.LongitudeDeg, 360) * _eastPerDeg,
            (at.LatitudeDeg - _origin.LatitudeDeg) * _northPerDeg);
}
