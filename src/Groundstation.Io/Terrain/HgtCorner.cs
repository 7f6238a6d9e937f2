using System.Globalization;

namespace Groundstation.Io.Terrain;

/// <summary>
/// The south-west corner of a one-degree SRTM tile, whole degrees. The file's name says it:
/// <c>S01W079.hgt</c> covers 1°S to the equator, 79°W to 78°W.
/// </summary>
/// <param name="SouthDeg">Southern edge, −90 to 89, north positive.</param>
/// <param name="WestDeg">Western edge, −180 to 179, east positive.</param>
public readonly record struct HgtCorner(int SouthDeg, int WestDeg)
{
    /// <summary>
    /// Reads a file name; letters may be of either case, and a product's name may stand before the ending
    /// (<c>N35W098.SRTMGL1.hgt</c>). False for a name that is no tile's.
    /// </summary>
    public static bool TryParse(string fileName, out HgtCorner corner)
    {
        corner = default;
        ReadOnlySpan<char> name = fileName;
        if (name.Length < 11 || !name.EndsWith(".hgt", StringComparison.OrdinalIgnoreCase) || name[7] != '.')
            return false;
        if (!TryAxis(name[..3], 'N', 'S', 90, out int south) || !TryAxis(name[3..7], 'E', 'W', 180, out int west))
            return false;
        corner = new(south, west);
        return true;
    }

    /// <summary>As in a file's name, e.g. <c>N35W098</c>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"{(SouthDeg < 0 ? 'S' : 'N')}{Math.Abs(SouthDeg):00}{(WestDeg < 0 ? 'W' : 'E')}{Math.Abs(WestDeg):000}");

    private static bool TryAxis(ReadOnlySpan<char> text, char positive, char negative, int limitDeg, out int deg)
    {
        char letter = char.ToUpperInvariant(text[0]);
        if (!int.TryParse(text[1..], NumberStyles.None, CultureInfo.InvariantCulture, out deg))
            return false;
        if (letter == negative)
            deg = -deg;
        return (letter == positive || letter == negative) && deg >= -limitDeg && deg < limitDeg;
    }
}
