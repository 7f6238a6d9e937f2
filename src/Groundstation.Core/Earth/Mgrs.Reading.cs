using System.Globalization;

namespace Groundstation.Core.Earth;

/// <summary>From a reference back to the place.</summary>
public static partial class Mgrs
{
    /// <summary>Reads a reference.</summary>
    /// <param name="reference">
    /// Capital letters and digits without blanks: <c>32UPU9160434032</c>, or <c>ZAH</c> with digits near the poles. An
    /// even number of digits after the letters, at most ten; none names the 100 km square.
    /// </param>
    /// <returns>
    /// The middle of the square that the reference names, and the square's side in metres; or why it is none.
    /// </returns>
    public static (GeoPoint? Middle, double SideM, string Complaint) Read(ReadOnlySpan<char> reference)
    {
        int zoneDigits = 0;
        while (zoneDigits < reference.Length && char.IsAsciiDigit(reference[zoneDigits])) zoneDigits++;
        ReadOnlySpan<char> rest = reference[zoneDigits..];
        int letters = 0;
        while (letters < rest.Length && char.IsAsciiLetterUpper(rest[letters])) letters++;
        ReadOnlySpan<char> digits = rest[letters..];
        if (letters != 3 || zoneDigits > 2 || digits.Length > 10 || digits.ContainsAnyExceptInRange('0', '9'))
            return (null, 0, "an MGRS reference is zone, three letters, digits: 32UPU9160434032");
        if (digits.Length % 2 != 0)
            return (null, 0, "an MGRS reference has as many digits for the easting as for the northing");
        int each = digits.Length / 2;
        double side = Math.Pow(10, 5 - each);
        (double east, double north) = (Part(digits[..each], side), Part(digits[each..], side));
        int zone = zoneDigits == 0 ? 0 : int.Parse(reference[..zoneDigits], CultureInfo.InvariantCulture);
        (GeoPoint? at, string complaint) = zoneDigits == 0
            ? PolarPlace(rest, east, north) : Place(zone, rest, east, north);
        return (at, side, complaint);
    }

    private static double Part(ReadOnlySpan<char> digits, double side) =>
        ((digits.Length > 0 ? int.Parse(digits, CultureInfo.InvariantCulture) : 0) + 0.5) * side;

    private static (GeoPoint?, string) Place(int zone, ReadOnlySpan<char> letters, double eastM, double northM)
    {
        if (zone is < 1 or > 60) return (null, "zones run from 1 to 60");
        int band = Bands.IndexOf(letters[0], StringComparison.Ordinal);
        if (band < 0) return (null, $"{letters[0]} is no latitude band: C to X without I and O");
        int column = Columns[(zone - 1) % 3].IndexOf(letters[1], StringComparison.Ordinal);
        int row = Rows.IndexOf(letters[2], StringComparison.Ordinal);
        if (column < 0 || row < 0) return (null, $"zone {zone} has no square {letters[1]}{letters[2]}");
        bool north = band >= 10;
        double middleDeg = band == 19 ? 78 : -76 + 8 * band, eastingM = 100_000 * (column + 1) + eastM;
        double rowM = 100_000 * ((row - (zone % 2 == 0 ? 5 : 0) + Rows.Length) % Rows.Length) + northM;
        // Row letters come again every 2000 km: the one meant is the one nearest to the middle of the band.
        double aboutM = Utm.From(new GeoPoint(middleDeg, zone * 6 - 183)).NorthingM;
        double northingM = rowM + 2_000_000 * Math.Round((aboutM - rowM) / 2_000_000);
        Utm utm = new(zone, north, eastingM, northingM);
        if (utm.Fault() is not null)
            return (null, $"zone {zone} has no square {letters[1]}{letters[2]} in band {letters[0]}");
        GeoPoint at = utm.ToGeoPoint();
        // A square cut by the band's edge has its middle up to half a degree outside.
        double half = band == 19 ? 6.5 : 4.5;
        return Math.Abs(at.LatitudeDeg - middleDeg) <= half
            ? (at, "") : (null, $"square {letters[1]}{letters[2]} does not lie in band {letters[0]}");
    }

    private static (GeoPoint?, string) PolarPlace(ReadOnlySpan<char> letters, double eastM, double northM)
    {
        if (letters[0] is not ('A' or 'B' or 'Y' or 'Z'))
            return (null, "a reference without a zone begins with A, B, Y or Z and lies near a pole");
        (bool north, bool eastern) = (letters[0] >= 'Y', letters[0] is 'B' or 'Z');
        (string columns, int left, string rows, int bottom) = Polar(north, eastern);
        int column = columns.IndexOf(letters[1], StringComparison.Ordinal);
        int row = rows.IndexOf(letters[2], StringComparison.Ordinal);
        Utm utm = new(0, north, 100_000 * (left + column) + eastM, 100_000 * (bottom + row) + northM);
        return column >= 0 && row >= 0 && utm.Fault() is null
            ? (utm.ToGeoPoint(), "") : (null, $"there is no polar square {letters}");
    }
}
