using Groundstation.Core.Quantities;

namespace Groundstation.Core.Earth;

/// <summary>Where the Sun stands in the sky.</summary>
/// <param name="AltitudeDeg">Altitude of its centre above the horizon, degrees, without refraction.</param>
/// <param name="AzimuthDeg">Azimuth, degrees clockwise from true north, 0 ≤ a &lt; 360.</param>
public readonly record struct SunPosition(double AltitudeDeg, double AzimuthDeg);

/// <summary>
/// The Sun after J. Meeus, "Astronomical Algorithms" (2nd ed., 1998), ch. 12, 13 and 25, low accuracy: 0.01° in the
/// years 1950 to 2050, so that rise and set are good to some seconds (a minute beyond 65° of latitude, where the Sun
/// grazes the horizon).
/// </summary>
public static class Sun
{
    /// <summary>
    /// Altitude of the centre at rise and set by convention: 34′ of refraction at the horizon and 16′ of half diameter.
    /// </summary>
    public const double RiseSetDeg = -50 / 60.0;

    /// <summary>Altitude at the beginning and end of civil twilight: outdoors one still sees what one does.</summary>
    public const double CivilDeg = -6;

    // Dynamical time minus UTC, s: 69.2 s since 2017; that it drifts by a second in some years moves the Sun by 10⁻⁵°.
    private const double DynamicalAheadS = 69.2;

    /// <summary>Right ascension, declination (degrees, apparent, true equator of date) and distance (au).</summary>
    /// <param name="centuries">Julian centuries of dynamical time since J2000.0.</param>
    public static (double RightAscensionDeg, double DeclinationDeg, double DistanceAu) Apparent(double centuries)
    {
        double t = centuries;
        double mean = 280.46646 + t * (36000.76983 + t * 0.0003032);
        double anomaly = 357.52911 + t * (35999.05029 - t * 0.0001537);
        double eccentricity = 0.016708634 - t * (0.000042037 + t * 0.0000001267);
        double centre = (1.914602 - t * (0.004817 + t * 0.000014)) * Angles.SinCosDeg(anomaly).Sin
            + (0.019993 - t * 0.000101) * Angles.SinCosDeg(2 * anomaly).Sin
            + 0.000289 * Angles.SinCosDeg(3 * anomaly).Sin;
        double distance = 1.000001018 * (1 - eccentricity * eccentricity)
            / (1 + eccentricity * Angles.SinCosDeg(anomaly + centre).Cos);
        (double sinNode, double cosNode) = Angles.SinCosDeg(Node(t));
        (double sinLon, double cosLon) = Angles.SinCosDeg(mean + centre - 0.00569 - 0.00478 * sinNode);
        (double sinTilt, double cosTilt) = Angles.SinCosDeg(Obliquity(t) + 0.00256 * cosNode);
        double ascension = Angles.Azimuth(Angles.Atan2Deg(cosTilt * sinLon, cosLon));
        return (ascension, Math.Asin(sinTilt * sinLon) / Angles.RadPerDeg, distance);
    }

    /// <summary>Where it stands, seen from the ground (parallax included, refraction not).</summary>
    /// <param name="at">The place.</param>
    /// <param name="utc">The moment.</param>
    public static SunPosition Position(GeoPoint at, Instant utc)
    {
        (double hourDeg, double declinationDeg) = HourAngle(at.LongitudeDeg, utc);
        (double sinHour, double cosHour) = Angles.SinCosDeg(hourDeg);
        (double sinDec, double cosDec) = Angles.SinCosDeg(declinationDeg);
        (double sinLat, double cosLat) = Angles.SinCosDeg(at.LatitudeDeg);
        double altitude = Math.Asin(sinLat * sinDec + cosLat * cosDec * cosHour) / Angles.RadPerDeg;
        double azimuth = Angles.Atan2Deg(-sinHour * cosDec, sinDec * cosLat - cosDec * cosHour * sinLat);
        // The Sun's parallax is 8.8″.
        return new(altitude - 8.8 / 3600 * Angles.SinCosDeg(altitude).Cos, Angles.Azimuth(azimuth));
    }

    /// <summary>The day by the Sun that belongs to a calendar date at a place.</summary>
    /// <param name="at">The place.</param>
    /// <param name="date">Date by local mean time, that is, of the noon.</param>
    public static SunDay Day(GeoPoint at, DateOnly date)
    {
        Instant noon = Instant.FromUtc(date, TimeSpan.FromHours(12)).PlusSeconds(-at.LongitudeDeg * 240);
        for (int i = 0; i < 3; i++) noon = noon.PlusSeconds(-HourAngle(at.LongitudeDeg, noon).HourDeg * 240);
        return new SunDay(at, noon);
    }

    /// <summary>The day by the Sun in which a moment lies, from midnight to midnight by local mean time.</summary>
    public static SunDay DayOf(GeoPoint at, Instant utc) => Day(at, utc.PlusSeconds(at.LongitudeDeg * 240).Date);

    /// <summary>Local hour angle (−180° to 180°, 0 at noon) and declination.</summary>
    private static (double HourDeg, double DeclinationDeg) HourAngle(double longitudeDeg, Instant utc)
    {
        double days = utc.SecondsSince(J2000) / 86400, t = days / 36525;
        (double ascension, double declination, _) = Apparent((days + DynamicalAheadS / 86400) / 36525);
        double equation = -0.00478 * Angles.SinCosDeg(Node(t)).Sin * Angles.SinCosDeg(Obliquity(t)).Cos;
        double sidereal = 280.46061837 + 360.98564736629 * days + 0.000387933 * t * t + equation;
        return (Math.IEEERemainder(sidereal + longitudeDeg - ascension, 360), declination);
    }

    private static readonly Instant J2000 = Instant.FromUtc(new DateOnly(2000, 1, 1), TimeSpan.FromHours(12));

    private static double Node(double t) => 125.04 - 1934.136 * t;

    private static double Obliquity(double t) => 23.43929111 - t * (0.01300417 + t * (1.64e-7 - t * 5.04e-7));
}
