using System.Globalization;

namespace Groundstation.Core.Earth;

/// <summary>Military Grid Reference System (NGA.STND.0037): letters for the 100 km square, then digits, truncated.</summary>
public static partial class Mgrs
{
    private const string Bands = "CDEFGHJKLMNPQRSTUVWX";
    private const string Rows = "ABCDEFGHJKLMNPQRSTUV";
    private static readonly string[] Columns = ["ABCDEFGH", "JKLMNPQR", "STUVWXYZ"];

    /// <summary>Reference with <paramref name="digits"/> digits for each of easting and northing.</summary>
    /// <param name="at">The place.</param>
    /// <param name="digits">1 (10 km) to 5 (1 m).</param>
    public static string From(GeoPoint at, int digits = 5)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(digits, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(digits, 5);
        Utm utm = Utm.From(at);
        // A place on a square's edge must not fall out of it by the projection's last nanometre.
        long east = (long)Math.Floor(utm.EastingM + 1e-6), north = (long)Math.Floor(utm.NorthingM + 1e-6);
        string square = utm.Zone == 0 ? PolarSquare(utm.North, east, north) : Square(at, utm.Zone, east, north);
        long unit = (long)Math.Pow(10, 5 - digits);
        string format = new('0', digits);
        return square + (east % 100_000 / unit).ToString(format, CultureInfo.InvariantCulture)
            + (north % 100_000 / unit).ToString(format, CultureInfo.InvariantCulture);
    }

    private static string Square(GeoPoint at, int zone, long east, long north)
    {
        int band = Math.Clamp((int)Math.Floor((at.LatitudeDeg + 80) / 8), 0, Bands.Length - 1);
        int row = (int)(north / 100_000 + (zone % 2 == 0 ? 5 : 0)) % Rows.Length;
        return string.Create(CultureInfo.InvariantCulture,
            $"{zone:00}{Bands[band]}{Columns[(zone - 1) % 3][(int)(east / 100_000) - 1]}{Rows[row]}");
    }

    private static string PolarSquare(bool north, long east, long northing)
    {
        bool eastern = east >= 2_000_000;
        (string columns, int left, string rows, int bottom) = Polar(north, eastern);
        char band = north ? eastern ? 'Z' : 'Y' : eastern ? 'B' : 'A';
        return $"{band}{columns[(int)(east / 100_000) - left]}{rows[(int)(northing / 100_000) - bottom]}";
    }

    // The polar squares leave out letters that would look like those of the neighbouring UTM zones. Left and bottom:
    // the first square's edge, 100 km.
    private static (string Columns, int Left, string Rows, int Bottom) Polar(bool north, bool eastern) =>
        (north, eastern) switch
        {
            (false, false) => ("JKLPQRSTUXYZ", 8, "ABCDEFGHJKLMNPQRSTUVWXYZ", 8),
            (false, true) => ("ABCFGHJKLPQR", 20, "ABCDEFGHJKLMNPQRSTUVWXYZ", 8),
            (true, false) => ("RSTUXYZ", 13, "ABCDEFGHJKLMNP", 13),
            (true, true) => ("ABCFGHJ", 20, "ABCDEFGHJKLMNP", 13),
        };
}
