using System.Globalization;

namespace Groundstation.Core.Earth;

/// <summary>
/// A place in Universal Transverse Mercator, or Universal Polar Stereographic where that takes over (north of 84° N, south
/// of 80° S), WGS 84, after NGA.STND.0037. Error of the projection below 1 mm.
/// </summary>
/// <param name="Zone">UTM zone 1–60; 0 for UPS.</param>
/// <param name="North">True in the northern hemisphere.</param>
/// <param name="EastingM">Easting, metres, false easting included.</param>
/// <param name="NorthingM">Northing, metres, false northing included.</param>
public readonly partial record struct Utm(int Zone, bool North, double EastingM, double NorthingM)
{
    private const double UtmScale = 0.9996;
    private const double UpsScale = 0.994;
    private const double UpsFalseM = 2_000_000;

    /// <summary>The place in the zone that it belongs to, exceptions for Norway and Svalbard included.</summary>
    public static Utm From(GeoPoint at)
    {
        bool north = at.LatitudeDeg >= 0;
        int zone = ZoneOf(at);
        if (zone == 0) return Polar(at, north);
        double centralDeg = zone * 6 - 183;
        double lonDeg = Math.IEEERemainder(at.LongitudeDeg - centralDeg, 360);
        (double east, double northing) = Kruger(at.LatitudeDeg, lonDeg);
        return new(zone, north, 500_000 + UtmScale * east, (north ? 0 : 10_000_000) + UtmScale * northing);
    }

    /// <summary>Standard zone 1–60, or 0 for UPS.</summary>
    public static int ZoneOf(GeoPoint at)
    {
        (double lat, double lon) = (at.LatitudeDeg, Math.IEEERemainder(at.LongitudeDeg, 360));
        if (lat is >= 84 or < -80) return 0;
        int whole = (int)Math.Floor(lon == 180 ? -180 : lon);
        int zone = (whole + 186) / 6;
        if (lat is >= 56 and < 64 && zone == 31 && whole >= 3) return 32;
        if (lat >= 72 && whole is >= 0 and < 42) return 2 * ((whole + 183) / 12) + 1;
        return zone;
    }

    /// <summary>
    /// Zone, hemisphere, easting and northing in whole metres, e.g. <c>32 north 500000 5538631</c>. The hemisphere is a
    /// word because a letter S is also the latitude band of 32° to 40° north.
    /// </summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"{(Zone == 0 ? "UPS" : $"{Zone:00}")} {(North ? "north" : "south")} {EastingM:F0} {NorthingM:F0}");

    // Krüger's series in the third flattening n to order 4, as in Karney 2011 (doi:10.1007/s00190-011-0445-3), eqs. 7–35:
    // within 4° of the central meridian the terms left out are below a micrometre.
    private static (double EastM, double NorthM) Kruger(double latDeg, double lonDeg)
    {
        (double a, double f) = (Ellipsoid.Wgs84.EquatorialRadiusM, Ellipsoid.Wgs84.Flattening);
        double e = Math.Sqrt(Ellipsoid.Wgs84.EccentricitySquared), n = f / (2 - f);
        double sin = Math.Sin(latDeg * Math.PI / 180);
        double t = Math.Sinh(Math.Atanh(sin) - e * Math.Atanh(e * sin));
        (double sinLon, double cosLon) = Math.SinCos(lonDeg * Math.PI / 180);
        double xi = Math.Atan2(t, cosLon), eta = Math.Asinh(sinLon / Math.Sqrt(t * t + cosLon * cosLon));
        ReadOnlySpan<double> alpha =
        [
            n * (1 / 2.0 + n * (-2 / 3.0 + n * (5 / 16.0 + n * 41 / 180))),
            n * n * (13 / 48.0 + n * (-3 / 5.0 + n * 557 / 1440)),
            n * n * n * (61 / 240.0 - n * 103 / 140),
            n * n * n * n * 49561 / 161280,
        ];
        (double x, double y) = (eta, xi);
        for (int j = 1; j <= alpha.Length; j++)
        {
            x += alpha[j - 1] * Math.Cos(2 * j * xi) * Math.Sinh(2 * j * eta);
            y += alpha[j - 1] * Math.Sin(2 * j * xi) * Math.Cosh(2 * j * eta);
        }
        double radius = a / (1 + n) * (1 + n * n / 4 + n * n * n * n / 64);
        return (radius * x, radius * y);
    }

    // Polar stereographic, Snyder 1987 (USGS PP 1395) eqs. 21-33 and 15-9.
    private static Utm Polar(GeoPoint at, bool north)
    {
        double e = Math.Sqrt(Ellipsoid.Wgs84.EccentricitySquared);
        double lat = Math.Abs(at.LatitudeDeg) * Math.PI / 180, sin = Math.Sin(lat);
        double t = Math.Tan(Math.PI / 4 - lat / 2) / Math.Pow((1 - e * sin) / (1 + e * sin), e / 2);
        double rho = 2 * Ellipsoid.Wgs84.EquatorialRadiusM * UpsScale * t
            / Math.Sqrt(Math.Pow(1 + e, 1 + e) * Math.Pow(1 - e, 1 - e));
        (double sinLon, double cosLon) = Math.SinCos(at.LongitudeDeg * Math.PI / 180);
        return new(0, north, UpsFalseM + rho * sinLon, UpsFalseM + (north ? -1 : 1) * rho * cosLon);
    }
}
