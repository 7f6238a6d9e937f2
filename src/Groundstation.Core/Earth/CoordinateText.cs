using System.Globalization;
using System.Text.RegularExpressions;

namespace Groundstation.Core.Earth;

/// <summary>
/// Places as text: written in one format, read in any (<see cref="CoordinateFormat"/>). What is written is read back as
/// the same place, as far as the format's digits go.
/// </summary>
public static partial class CoordinateText
{
    /// <summary>Coarser than this a text names no place to drive to.</summary>
    public const double CoarsestM = 10_000;

    /// <summary>Writes a place.</summary>
    /// <param name="at">The place, WGS 84.</param>
    /// <param name="format">How.</param>
    /// <param name="stepM">
    /// What matters to the reader, metres: from 10, 100 and 1000 on a decimal more is left out, where the format has
    /// any to leave. A place written in full has a step of one to three metres, a locator one of 20 to 40.
    /// </param>
    public static string Write(GeoPoint at, CoordinateFormat format, double stepM = 1)
    {
        int less = stepM >= 1000 ? 3 : stepM >= 100 ? 2 : stepM >= 10 ? 1 : 0;
        return format switch
        {
            CoordinateFormat.DegreesMinutesSeconds when less == 3 => Write(at, CoordinateFormat.DegreesMinutes, stepM),
            CoordinateFormat.DegreesMinutes =>
                $"{Minutes(at.LatitudeDeg, 2, 3 - less, "NS")} {Minutes(at.LongitudeDeg, 3, 3 - less, "EW")}",
            CoordinateFormat.DegreesMinutesSeconds =>
                $"{Seconds(at.LatitudeDeg, 2, less, "NS")} {Seconds(at.LongitudeDeg, 3, less, "EW")}",
            CoordinateFormat.Utm => Utm.From(at).ToString(),
            CoordinateFormat.Mgrs => Spaced(Mgrs.From(at, 5 - less), 5 - less),
            CoordinateFormat.Maidenhead => Maidenhead.From(at, 5),
            _ => $"{Decimal(at.LatitudeDeg, 5 - less, "NS")} {Decimal(at.LongitudeDeg, 5 - less, "EW")}",
        };
    }

    /// <summary>
    /// Reads a place in any of the formats: decimal degrees with signs or hemisphere letters, degrees and minutes,
    /// degrees, minutes and seconds (with or without the signs ° ′ ″; latitude first unless letters say otherwise), UTM
    /// with the hemisphere as a word or letter or with the latitude band, MGRS, or a Maidenhead locator. MGRS and
    /// locators give the middle of their square.
    /// </summary>
    /// <param name="text">What somebody typed.</param>
    /// <returns>The place, or null and why, in one line that says what to type instead.</returns>
    public static (GeoPoint? Place, string Complaint) Read(string text)
    {
        string typed = text.Trim().ToUpperInvariant();
        if (typed.Length == 0) return (null, "type a place, e.g. 47.12345, -11.56789");
        if (typed.Length > 200) return (null, "that is too long for a place");
        string joined = Blanks().Replace(typed, "");
        if (LooksLikeLocator().IsMatch(joined)) return Locator(joined);
        if (LooksLikeMgrs().IsMatch(joined)) return Reference(joined);
        if (UtmForm().Match(typed) is { Success: true } utm) return Grid(utm);
        return DegreesText.Read(typed);
    }

    private static (GeoPoint?, string) Locator(string text)
    {
        (GeoPoint? middle, string complaint) = Maidenhead.Read(text);
        return middle is null || text.Length >= 6 ? (middle, complaint)
            : (null, $"{text} names an area of more than a hundred kilometres: give 6 to 10 characters");
    }

    private static (GeoPoint?, string) Reference(string text)
    {
        (GeoPoint? middle, double side, string complaint) = Mgrs.Read(text);
        return middle is null || side <= CoarsestM ? (middle, complaint)
            : (null, $"{text} names a square of 100 km: give its digits too");
    }

    private static (GeoPoint?, string) Grid(Match form)
    {
        string zoneText = form.Groups["zone"].Value, letter = form.Groups["letter"].Value;
        int zone = zoneText.Length > 0 ? int.Parse(zoneText, CultureInfo.InvariantCulture) : 0;
        if (zone == 0 && zoneText.Length > 0) return (null, "UTM zones run from 1 to 60");
        (double east, double north) = (Number(form.Groups["east"]), Number(form.Groups["north"]));
        // C to M are bands of the south, N to X of the north; N is so either way, S is not.
        Utm utm = new(zone, letter is "NORTH" or [>= 'N'], east, north);
        if (letter == "S")
        {
            (bool isBand, bool isSouth) = (BandS(utm), (utm with { North = false }).Fault() is null);
            if (isBand && isSouth)
                return (null, "S may be the latitude band or the southern hemisphere: write north or south instead");
            if (!isBand) utm = utm with { North = false };
        }
        return utm.Fault() is { } fault ? (null, fault) : (utm.ToGeoPoint(), "");
    }

    private static bool BandS(Utm utm) =>
        utm.Zone > 0 && utm.Fault() is null && utm.ToGeoPoint().LatitudeDeg is >= 32 and < 40;

    private static double Number(Group group) => double.Parse(group.ValueSpan, CultureInfo.InvariantCulture);

    private static string Decimal(double deg, int decimals, string letters) =>
        Fixed(Math.Abs(deg), 1, decimals) + letters[deg < 0 ? 1 : 0];

    // In whole steps of the last decimal: 59.9996′ must become the next degree, not 60.000′.
    private static string Minutes(double deg, int width, int decimals, string letters)
    {
        long unit = (long)Math.Pow(10, decimals), steps = (long)Math.Round(Math.Abs(deg) * 60 * unit);
        string minutes = Fixed(steps % (60 * unit) / (double)unit, 2, decimals);
        return $"{Padded(steps / (60 * unit), width)}°{minutes}'{letters[deg < 0 ? 1 : 0]}";
    }

    private static string Seconds(double deg, int width, int less, string letters)
    {
        long unit = less == 0 ? 10 : 1, steps = (long)Math.Round(Math.Abs(deg) * 3600 * unit);
        (string whole, string minutes) = (Padded(steps / (3600 * unit), width), Padded(steps / (60 * unit) % 60, 2));
        string seconds = Fixed(steps % (60 * unit) / (double)unit, 2, less == 0 ? 1 : 0);
        // Signs that every terminal and keyboard has.
        return $"{whole}°{minutes}'{seconds}\"{letters[deg < 0 ? 1 : 0]}";
    }

    private static string Fixed(double value, int whole, int decimals) => value.ToString(
        new string('0', whole) + (decimals > 0 ? "." + new string('0', decimals) : ""), CultureInfo.InvariantCulture);

    private static string Padded(long whole, int width) =>
        whole.ToString(CultureInfo.InvariantCulture).PadLeft(width, '0');

    /// <summary>Zone and band, square, easting, northing: read aloud and written down in these groups.</summary>
    private static string Spaced(string reference, int digits) => $"{reference[..^(2 * digits + 2)]} "
        + $"{reference[^(2 * digits + 2)..^(2 * digits)]} {reference[^(2 * digits)..^digits]} {reference[^digits..]}";

    [GeneratedRegex(@"\s+")]
    private static partial Regex Blanks();

    [GeneratedRegex("^[A-Z]{2}[0-9]{2}([A-Z]{2}([0-9]{2}([A-Z]{2})?)?)?$")]
    private static partial Regex LooksLikeLocator();

    [GeneratedRegex("^([0-9]{1,2}[A-Z]{3}[0-9]*|[ABYZ][A-Z]{2}[0-9]*)$")]
    private static partial Regex LooksLikeMgrs();

    [GeneratedRegex(@"^(UTM\s*)?((ZONE\s*)?(?<zone>[0-9]{1,2})\s*(?<letter>NORTH|SOUTH|[C-HJ-NP-X])"
        + @"|UPS\s*(?<letter>NORTH|SOUTH|N|S))"
        + @"[\s,]+(?<east>[0-9]{5,7}(\.[0-9]+)?)\s*M?\s*E?[\s,]+(?<north>[0-9]{1,8}(\.[0-9]+)?)\s*M?\s*N?$")]
    private static partial Regex UtmForm();
}
