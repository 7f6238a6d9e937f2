using System.Collections.Immutable;
using Groundstation.Core.Earth;
using Groundstation.Core.Landing;

namespace Groundstation.Io.Exports;

/// <summary>The border of a search area as a ring of places.</summary>
public static class AreaRing
{
    // The greatest error of a chord, 1 − cos(π/72), is a thousandth of the radius.
    private const int Sides = 72;

    /// <summary>
    /// An ellipse around a place, drawn by geodesics from its centre: exact in distance and direction from there.
    /// </summary>
    /// <param name="centre">Its centre.</param>
    /// <param name="area">Semi-axes and azimuth.</param>
    /// <returns>72 places, counterclockwise seen from above, not closed.</returns>
    public static ImmutableArray<GeoPoint> Of(GeoPoint centre, SearchArea area)
    {
        var ring = ImmutableArray.CreateBuilder<GeoPoint>(Sides);
        for (int i = 0; i < Sides; i++)
        {
            (double sin, double cos) = Math.SinCos(-2 * Math.PI * i / Sides);
            (double along, double across) = (area.MajorM * cos, area.MinorM * sin);
            double azimuth = area.AzimuthDeg + Math.Atan2(across, along) * (180 / Math.PI);
            ring.Add(Geodesic.Direct(centre, azimuth, Math.Sqrt(along * along + across * across)));
        }

        return ring.MoveToImmutable();
    }
}
