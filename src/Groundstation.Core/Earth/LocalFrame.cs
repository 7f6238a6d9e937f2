namespace Groundstation.Core.Earth;

/// <summary>
/// Short steps in the local east and north on WGS 84 at a height, as a drifting payload makes them:
/// dlat = v/(M + h), dlon = u/((N + h)·cos lat). Good to 1 part in 10⁵ for steps up to a few kilometres; poles and the
/// antimeridian need no care from the caller. For long distances use <see cref="Geodesic"/>.
/// </summary>
public static class LocalFrame
{
    private const double DegPerRad = 180 / Math.PI;

    /// <summary>The place reached from <paramref name="from"/> by a step east and north at a height.</summary>
    /// <param name="from">Start.</param>
    /// <param name="eastM">Eastward part of the step, metres, at that height.</param>
    /// <param name="northM">Northward part, metres.</param>
    /// <param name="heightM">Height above the ellipsoid, metres; mean sea level will do (100 m is 1.6·10⁻⁵).</param>
    public static GeoPoint Move(GeoPoint from, double eastM, double northM, double heightM)
    {
        double lat = from.LatitudeDeg;
        double sin = Math.Sin(lat / DegPerRad);
        Radii(sin, heightM, out double meridian, out double primeVertical);
        double lat2 = lat + northM / meridian * DegPerRad;

        // Within ten steps of a pole the parallels are too curved for one step along them.
        double toPoleM = (90 - Math.Abs(lat)) / DegPerRad * meridian;
        if (toPoleM < 10 * (Math.Abs(eastM) + Math.Abs(northM)))
            return MoveNearPole(from, eastM / primeVertical, northM / meridian);

        double cosMid = Math.Cos((lat + lat2) / 2 / DegPerRad);
        return new(lat2, NormalLongitude(from.LongitudeDeg + eastM / (primeVertical * cosMid) * DegPerRad));
    }

    /// <summary>The step east and north, metres at a height, that leads from one place to a near one.</summary>
    /// <param name="from">Start.</param>
    /// <param name="to">End, a few kilometres away at most.</param>
    /// <param name="heightM">Height above the ellipsoid, metres; mean sea level will do.</param>
    public static (double EastM, double NorthM) Between(GeoPoint from, GeoPoint to, double heightM)
    {
        double mid = (from.LatitudeDeg + to.LatitudeDeg) / 2 / DegPerRad;
        (double sin, double cos) = Math.SinCos(mid);
        Radii(sin, heightM, out double meridian, out double primeVertical);
        double dLon = NormalLongitude(to.LongitudeDeg - from.LongitudeDeg) / DegPerRad;
        double dLat = (to.LatitudeDeg - from.LatitudeDeg) / DegPerRad;
        return Math.Abs(dLon) > 0.1 && Math.Abs(from.LatitudeDeg) > 80
            ? BetweenNearPole(from, to, primeVertical)
            : (dLon * primeVertical * cos, dLat * meridian);
    }

    /// <summary>A longitude brought into −180 ≤ x &lt; 180 degrees.</summary>
    public static double NormalLongitude(double longitudeDeg)
    {
        if (longitudeDeg is >= -180 and < 180)
            return longitudeDeg;
        double x = Math.IEEERemainder(longitudeDeg, 360);
        return x >= 180 ? x - 360 : x;
    }

    private static void Radii(double sinLatitude, double heightM, out double meridian, out double primeVertical)
    {
        Ellipsoid wgs84 = Ellipsoid.Wgs84;
        double e2 = wgs84.EccentricitySquared;
        double w2 = 1 - e2 * sinLatitude * sinLatitude;
        double n = wgs84.EquatorialRadiusM / Math.Sqrt(w2);
        primeVertical = n + heightM;
        meridian = n * (1 - e2) / w2 + heightM;
    }

    // The upright unit vector is turned by the step's two angles: no direction is special to it.
    private static GeoPoint MoveNearPole(GeoPoint from, double eastRad, double northRad)
    {
        (double sinLat, double cosLat) = Math.SinCos(from.LatitudeDeg / DegPerRad);
        // In axes along the meridian: x outwards at the start's longitude, y east, z to the north pole.
        double angle = Math.Sqrt(eastRad * eastRad + northRad * northRad);
        if (angle == 0)
            return from;
        (double sin, double cos) = Math.SinCos(angle);
        double e = eastRad / angle * sin, n = northRad / angle * sin;
        double x = cosLat * cos - sinLat * n, y = e, z = sinLat * cos + cosLat * n;
        return new(Math.Atan2(z, Math.Sqrt(x * x + y * y)) * DegPerRad,
            NormalLongitude(from.LongitudeDeg + Math.Atan2(y, x) * DegPerRad));
    }

    private static (double EastM, double NorthM) BetweenNearPole(GeoPoint from, GeoPoint to, double radius)
    {
        (double sin1, double cos1) = Math.SinCos(from.LatitudeDeg / DegPerRad);
        (double sin2, double cos2) = Math.SinCos(to.LatitudeDeg / DegPerRad);
        (double sinL, double cosL) = Math.SinCos((to.LongitudeDeg - from.LongitudeDeg) / DegPerRad);
        double e = cos2 * sinL, n = cos1 * sin2 - sin1 * cos2 * cosL;
        double chord = Math.Sqrt(e * e + n * n);
        double stretch = chord == 0 ? 0 : Math.Atan2(chord, sin1 * sin2 + cos1 * cos2 * cosL) / chord;
        return (e * stretch * radius, n * stretch * radius);
    }
}
