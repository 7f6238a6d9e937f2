namespace Groundstation.Core.Earth;

/// <summary>The shortest line between two places.</summary>
/// <param name="DistanceM">Its length on the ellipsoid, metres.</param>
/// <param name="AzimuthDeg">
/// Azimuth at the first place, degrees clockwise from true north, 0 ≤ a &lt; 360; 0 when the places coincide.
/// </param>
/// <param name="FinalAzimuthDeg">Azimuth at the second place, onwards in the same direction.</param>
public readonly record struct GeodesicLine(double DistanceM, double AzimuthDeg, double FinalAzimuthDeg);

/// <summary>
/// Geodesics on WGS 84, or another ellipsoid where given, after C. F. F. Karney, "Algorithms for geodesics", J. Geodesy
/// 87 (2013) 43–55: for all distances, near-antipodal points, poles and the antimeridian included. Good to about 15 nm.
/// </summary>
public static class Geodesic
{
    /// <summary>The place at a distance in a direction, on WGS 84.</summary>
    /// <param name="from">Start.</param>
    /// <param name="azimuthDeg">Azimuth at the start, degrees clockwise from true north; any turn.</param>
    /// <param name="distanceM">Length along the ellipsoid, metres; negative goes backwards.</param>
    public static GeoPoint Direct(GeoPoint from, double azimuthDeg, double distanceM) =>
        GeodesicDirect.Solve(Ellipsoid.Wgs84, from, azimuthDeg, distanceM, out _);

    /// <summary>The place at a distance in a direction, on an ellipsoid, and the azimuth there.</summary>
    /// <param name="ellipsoid">The ellipsoid.</param>
    /// <param name="from">Start.</param>
    /// <param name="azimuthDeg">Azimuth at the start, degrees clockwise from true north; any turn.</param>
    /// <param name="distanceM">Length along the ellipsoid, metres; negative goes backwards.</param>
    /// <param name="finalAzimuthDeg">Azimuth at the end, onwards, degrees, 0 ≤ a &lt; 360.</param>
    public static GeoPoint Direct(Ellipsoid ellipsoid, GeoPoint from, double azimuthDeg, double distanceM,
        out double finalAzimuthDeg) =>
        GeodesicDirect.Solve(ellipsoid, from, azimuthDeg, distanceM, out finalAzimuthDeg);

    /// <summary>Distance and azimuths between two places, on WGS 84.</summary>
    public static GeodesicLine Inverse(GeoPoint a, GeoPoint b) => GeodesicInverse.Solve(Ellipsoid.Wgs84, a, b);

    /// <summary>Distance and azimuths between two places, on an ellipsoid.</summary>
    public static GeodesicLine Inverse(Ellipsoid ellipsoid, GeoPoint a, GeoPoint b) =>
        GeodesicInverse.Solve(ellipsoid, a, b);

    /// <summary>Distance between two places on WGS 84, metres.</summary>
    public static double DistanceM(GeoPoint a, GeoPoint b) => Inverse(a, b).DistanceM;
}
