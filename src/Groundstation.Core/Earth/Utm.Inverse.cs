namespace Groundstation.Core.Earth;

/// <summary>From easting and northing back to latitude and longitude.</summary>
public readonly partial record struct Utm
{
    // A receiver carried over a zone's edge may go on in the old zone; maps overlap by 40 km, UTM and UPS by half a
    // degree.
    private const double OverlapDeg = 0.5;

    /// <summary>The place on WGS 84; inverse of <see cref="From"/> to below 1 mm.</summary>
    public GeoPoint ToGeoPoint() => Zone == 0 ? FromPolar() : FromKruger();

    /// <summary>
    /// Why easting and northing cannot be of this zone, in a few words; null when they can. Up to half a degree of a
    /// great circle over the zone's edge is allowed, as on maps.
    /// </summary>
    public string? Fault()
    {
        if (Zone is < 0 or > 60) return "UTM zones run from 1 to 60";
        (double least, double most) = Zone > 0 ? (100_000, 900_000) : (800_000, 3_200_000);
        if (EastingM < least || EastingM > most) return $"the easting runs from {least:F0} to {most:F0} m";
        if (Zone > 0) (least, most) = (0, 10_000_000);
        if (NorthingM < least || NorthingM > most) return $"the northing runs from {least:F0} to {most:F0} m";
        GeoPoint at = ToGeoPoint();
        if (Zone == 0)
        {
            return at.LatitudeDeg is >= 84 - OverlapDeg or < -80 + OverlapDeg
                ? null : "UPS is for above 84° north and below 80° south only";
        }
        double overDeg = OverlapDeg / Math.Max(Math.Cos(at.LatitudeDeg * Math.PI / 180), 0.05);
        for (int i = 0; i < 9; i++)
        {
            GeoPoint beside = new(at.LatitudeDeg + (i / 3 - 1) * OverlapDeg, at.LongitudeDeg + (i % 3 - 1) * overDeg);
            if (ZoneOf(beside) == Zone) return null;
        }
        return $"easting and northing lie outside zone {Zone}";
    }

    // Karney 2011 (doi:10.1007/s00190-011-0445-3), eqs. 15–21 and 36: order 4 in n, errors below a micrometre.
    private GeoPoint FromKruger()
    {
        (double a, double f) = (Ellipsoid.Wgs84.EquatorialRadiusM, Ellipsoid.Wgs84.Flattening);
        double n = f / (2 - f), radius = UtmScale * a / (1 + n) * (1 + n * n / 4 + n * n * n * n / 64);
        double xi = (NorthingM - (North ? 0 : 10_000_000)) / radius, eta = (EastingM - 500_000) / radius;
        ReadOnlySpan<double> beta =
        [
            n * (1 / 2.0 + n * (-2 / 3.0 + n * (37 / 96.0 - n / 360))),
            n * n * (1 / 48.0 + n * (1 / 15.0 - n * 437 / 1440)),
            n * n * n * (17 / 480.0 - n * 37 / 840),
            n * n * n * n * 4397 / 161280,
        ];
        (double x, double y) = (eta, xi);
        for (int j = 1; j <= beta.Length; j++)
        {
            x -= beta[j - 1] * Math.Cos(2 * j * xi) * Math.Sinh(2 * j * eta);
            y -= beta[j - 1] * Math.Sin(2 * j * xi) * Math.Cosh(2 * j * eta);
        }
        (double sin, double cos) = Math.SinCos(y);
        double sinh = Math.Sinh(x), conformal = sin / Math.Sqrt(sinh * sinh + cos * cos);
        double lonDeg = Zone * 6 - 183 + Math.Atan2(sinh, cos) * 180 / Math.PI;
        return new(Math.Atan(Geodetic(conformal)) * 180 / Math.PI, Math.IEEERemainder(lonDeg, 360));
    }

    /// <summary>Tangent of the geodetic latitude from that of the conformal one, by Newton's method.</summary>
    private static double Geodetic(double conformal)
    {
        double e2 = Ellipsoid.Wgs84.EccentricitySquared, e = Math.Sqrt(e2), tau = conformal;
        for (int i = 0; i < 5; i++)
        {
            double root = Math.Sqrt(1 + tau * tau), sigma = Math.Sinh(e * Math.Atanh(e * tau / root));
            double now = tau * Math.Sqrt(1 + sigma * sigma) - sigma * root;
            tau += (conformal - now) / Math.Sqrt(1 + now * now) * (1 + (1 - e2) * tau * tau) / ((1 - e2) * root);
        }
        return tau;
    }

    // Snyder 1987 (USGS PP 1395) eqs. 20-18, 21-39 and 7-9.
    private GeoPoint FromPolar()
    {
        double e = Math.Sqrt(Ellipsoid.Wgs84.EccentricitySquared);
        (double east, double north) = (EastingM - UpsFalseM, NorthingM - UpsFalseM);
        double t = Math.Sqrt(east * east + north * north)
            * Math.Sqrt(Math.Pow(1 + e, 1 + e) * Math.Pow(1 - e, 1 - e))
            / (2 * Ellipsoid.Wgs84.EquatorialRadiusM * UpsScale);
        double lat = Math.PI / 2 - 2 * Math.Atan(t);
        for (int i = 0; i < 8; i++)
        {
            double sin = e * Math.Sin(lat);
            lat = Math.PI / 2 - 2 * Math.Atan(t * Math.Pow((1 - sin) / (1 + sin), e / 2));
        }
        double lonDeg = east == 0 && north == 0 ? 0 : Math.Atan2(east, North ? -north : north) * 180 / Math.PI;
        return new((North ? 1 : -1) * lat * 180 / Math.PI, lonDeg);
    }
}
