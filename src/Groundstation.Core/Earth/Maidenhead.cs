namespace Groundstation.Core.Earth;

/// <summary>
/// Maidenhead locator as used in amateur radio: fields of 20° × 10°, squares of 2° × 1°, subsquares of 5′ × 2.5′, then
/// tenths and twenty-fourths in turn. A locator names the cell that holds the place, it does not round.
/// </summary>
public static class Maidenhead
{
    /// <summary>
    /// Locator of <paramref name="pairs"/> pairs of characters; 3 (JN58td) is usual, 5 is 39 m × 19 m at the equator.
    /// </summary>
    /// <param name="at">The place; the poles belong to the cells below, longitude 180° is −180°.</param>
    /// <param name="pairs">1 to 5.</param>
    public static string From(GeoPoint at, int pairs = 3)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(pairs, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(pairs, 5);
        // decimal: 0.1° has no exact double, and a place on a cell's edge must fall into the cell it begins.
        decimal lon = ((decimal)at.LongitudeDeg % 360 + 540) % 360;
        decimal lat = Math.Min((decimal)at.LatitudeDeg + 90, 180 - 0.0000000001m);
        (decimal width, decimal height) = (360, 180);
        Span<char> locator = stackalloc char[2 * pairs];
        for (int pair = 0; pair < pairs; pair++)
        {
            int parts = pair == 0 ? 18 : pair % 2 == 1 ? 10 : 24;
            (width, height) = (width / parts, height / parts);
            (int x, int y) = ((int)(lon / width), (int)(lat / height));
            (lon, lat) = (lon - x * width, lat - y * height);
            char zero = pair == 0 ? 'A' : pair % 2 == 1 ? '0' : 'a';
            (locator[2 * pair], locator[2 * pair + 1]) = ((char)(zero + x), (char)(zero + y));
        }
        return new(locator);
    }

    /// <summary>Reads a locator of 1 to 5 pairs, in capital or small letters.</summary>
    /// <returns>The middle of the cell that it names, or why it is no locator.</returns>
    public static (GeoPoint? Middle, string Complaint) Read(ReadOnlySpan<char> locator)
    {
        if (locator.Length is 0 or > 10 || locator.Length % 2 != 0)
            return (null, "a locator has 2, 4, 6, 8 or 10 characters: JN58TD");
        (double lon, double lat, double width, double height) = (-180, -90, 360, 180);
        for (int pair = 0; pair < locator.Length / 2; pair++)
        {
            int parts = pair == 0 ? 18 : pair % 2 == 1 ? 10 : 24;
            char zero = pair % 2 == 1 ? '0' : 'A';
            (width, height) = (width / parts, height / parts);
            int x = char.ToUpperInvariant(locator[2 * pair]) - zero;
            int y = char.ToUpperInvariant(locator[2 * pair + 1]) - zero;
            if (x < 0 || y < 0 || x >= parts || y >= parts)
            {
                (string low, string high) = (new(zero, 2), new((char)(zero + parts - 1), 2));
                return (null, $"in a locator {locator.Slice(2 * pair, 2)} must lie between {low} and {high}");
            }
            (lon, lat) = (lon + x * width, lat + y * height);
        }
        return (new GeoPoint(lat + height / 2, lon + width / 2), "");
    }
}
