namespace Groundstation.Core.Earth;

/// <summary>
/// The inverse problem, Karney 2013 sections 4 and 5 (equation numbers in brackets): Newton's method on the azimuth at
/// the first place, bracketed so that it always converges, with the paper's starting guess near antipodal points.
/// </summary>
internal static class GeodesicInverse
{
    public static GeodesicLine Solve(Ellipsoid ellipsoid, GeoPoint p1, GeoPoint p2)
    {
        // Brought into the form of (44): λ₁₂ ≥ 0, φ₁ ≤ 0, |φ₁| ≥ |φ₂|; undone at the end.
        double lon12 = LongitudeDifference(p1.LongitudeDeg, p2.LongitudeDeg);
        bool mirrored = lon12 < 0;
        lon12 = Math.Abs(lon12);
        double lat1 = p1.LatitudeDeg, lat2 = p2.LatitudeDeg;
        bool swapped = Math.Abs(lat1) < Math.Abs(lat2);
        if (swapped)
            (lat1, lat2) = (lat2, lat1);
        bool flipped = lat1 > 0;
        if (flipped)
            (lat1, lat2) = (-lat1, -lat2);

        GeodesicProblem g = new(ellipsoid, lat1, lat2, lon12);
        double distance = g.Solve(out double sinA1, out double cosA1, out double sinA2, out double cosA2);

        if (swapped)
        {
            (sinA1, sinA2) = (sinA2, sinA1);
            (cosA1, cosA2) = (cosA2, cosA1);
        }

        // Mirroring east-west changes the sign of the sine, mirroring north-south that of the cosine. Swapping the
        // places turns the line round and mirrors it east-west at once, which leaves the cosine's sign to change.
        if (mirrored)
            (sinA1, sinA2) = (-sinA1, -sinA2);
        if (swapped != flipped)
            (cosA1, cosA2) = (-cosA1, -cosA2);
        if (distance == 0)
            return new(0, 0, 0);
        return new(distance, Angles.Azimuth(Angles.Atan2Deg(sinA1, cosA1)),
            Angles.Azimuth(Angles.Atan2Deg(sinA2, cosA2)));
    }

    private static double LongitudeDifference(double from, double to)
    {
        double d = Math.IEEERemainder(Math.IEEERemainder(to, 360) - Math.IEEERemainder(from, 360), 360);
        return d == -180 ? 180 : d;
    }
}
