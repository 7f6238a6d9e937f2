using System.Globalization;

namespace Groundstation.Core.Earth;

/// <summary>A place on the WGS 84 ellipsoid.</summary>
/// <param name="LatitudeDeg">Geodetic latitude, degrees, north positive, −90 to 90.</param>
/// <param name="LongitudeDeg">Longitude, degrees, east positive, −180 to 180.</param>
public readonly record struct GeoPoint(double LatitudeDeg, double LongitudeDeg)
{
    /// <summary>Decimal degrees with five decimals (about one metre) and hemisphere letters.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"{Math.Abs(LatitudeDeg):F5}{(LatitudeDeg < 0 ? 'S' : 'N')} {Math.Abs(LongitudeDeg):F5}{(LongitudeDeg < 0 ? 'W' : 'E')}");
}
