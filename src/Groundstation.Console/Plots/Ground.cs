using Groundstation.Core.Earth;

namespace Groundstation.Console.Plots;

/// <summary>Distance and direction between two places, for text.</summary>
internal static class Ground
{
    /// <summary>
    /// Metres along the geodesic and its azimuth at the start (degrees true) from one place to another.
    /// </summary>
    public static (double Metres, double BearingDeg) Way(GeoPoint from, GeoPoint to)
    {
        GeodesicLine line = Geodesic.Inverse(from, to);
        return (line.DistanceM, line.AzimuthDeg);
    }
}
