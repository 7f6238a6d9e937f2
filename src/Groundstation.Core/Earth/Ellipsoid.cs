namespace Groundstation.Core.Earth;

/// <summary>An oblate ellipsoid of revolution.</summary>
/// <param name="EquatorialRadiusM">Semi-major axis a, metres.</param>
/// <param name="InverseFlattening">1/f, above 50 (the geodesic series hold for |f| up to 1/50).</param>
public readonly record struct Ellipsoid(double EquatorialRadiusM, double InverseFlattening)
{
    /// <summary>WGS 84 (NGA.STND.0036): a = 6 378 137 m, 1/f = 298.257223563.</summary>
    public static readonly Ellipsoid Wgs84 = new(6_378_137, 298.257223563);

    /// <summary>Flattening f.</summary>
    public double Flattening => 1 / InverseFlattening;

    /// <summary>First eccentricity squared, f·(2 − f).</summary>
    public double EccentricitySquared => Flattening * (2 - Flattening);

    /// <summary>Semi-minor axis b, metres.</summary>
    public double PolarRadiusM => EquatorialRadiusM * (1 - Flattening);

    /// <summary>Radius of curvature in the meridian M, metres: dlat = north/(M + h).</summary>
    /// <param name="latitudeDeg">Geodetic latitude, degrees.</param>
    public double MeridianRadius(double latitudeDeg)
    {
        double w2 = W2(latitudeDeg);
        return EquatorialRadiusM * (1 - EccentricitySquared) / (w2 * Math.Sqrt(w2));
    }

    /// <summary>Radius of curvature in the prime vertical N, metres: dlon = east/((N + h)·cos lat).</summary>
    /// <param name="latitudeDeg">Geodetic latitude, degrees.</param>
    public double PrimeVerticalRadius(double latitudeDeg) => EquatorialRadiusM / Math.Sqrt(W2(latitudeDeg));

    private double W2(double latitudeDeg)
    {
        double sin = Math.Sin(latitudeDeg * Math.PI / 180);
        return 1 - EccentricitySquared * sin * sin;
    }
}
