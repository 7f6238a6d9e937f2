using Groundstation.Core.Earth;

namespace Groundstation.Console.Plots;

/// <summary>Distance and direction between two places, for text.</summary>
internal static class Ground
{
    /// <summary>Metres and initial bearing (degrees true) from one place to another.</summary>
    public static (double Metres, double BearingDeg) Way(GeoPoint from, GeoPoint to)
    {
        GeoPoint middle = new((from.LatitudeDeg + to.LatitudeDeg) / 2, from.LongitudeDeg);
        (double east, double north) = new Local(middle).Of(new GeoPoint(
            middle.LatitudeDeg + (to.LatitudeDeg - from.LatitudeDeg), to.LongitudeDeg));
        return (Math.Sqrt(east * east + north * north), (Math.Atan2(east, north) * 180 / Math.PI + 360) % 360);
    }
}
