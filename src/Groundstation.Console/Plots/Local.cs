using Groundstation.Core.Earth;

namespace Groundstation.Console.Plots;

/// <summary>
/// A flat map around an origin for drawing: metres east and north along the WGS 84 radii of curvature at the origin.
/// Good to about 1 % over 300 km, which is less than one dot; figures in text come from the geodesic instead.
/// </summary>
internal readonly struct Local
{
    private const double A = 6_378_137, E2 = 0.006_694_379_990_14;
    private readonly GeoPoint _origin;
    private readonly double _eastPerDeg, _northPerDeg;

    public Local(GeoPoint origin)
    {
        _origin = origin;
        (double sin, double cos) = Math.SinCos(origin.LatitudeDeg * Math.PI / 180);
        double w = 1 - E2 * sin * sin;
        _eastPerDeg = A / Math.Sqrt(w) * cos * Math.PI / 180;
        _northPerDeg = A * (1 - E2) / (w * Math.Sqrt(w)) * Math.PI / 180;
    }

    /// <summary>Metres east and north of the origin, the short way round.</summary>
    public (double East, double North) Of(GeoPoint at) =>
        (Math.IEEERemainder(at.LongitudeDeg - _origin.LongitudeDeg, 360) * _eastPerDeg,
            (at.LatitudeDeg - _origin.LatitudeDeg) * _northPerDeg);
}
