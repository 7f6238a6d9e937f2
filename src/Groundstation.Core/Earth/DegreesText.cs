using System.Globalization;
using System.Text.RegularExpressions;

namespace Groundstation.Core.Earth;

/// <summary>Reads latitude and longitude in degrees, with or without minutes and seconds.</summary>
internal static partial class DegreesText
{
    private const string Example = "e.g. 47.12345, -11.56789 or 47°07.407′N 11°34.073′W";

    /// <summary>Reads capitals, trimmed. See <see cref="CoordinateText.Read"/>.</summary>
    public static (GeoPoint? Place, string Complaint) Read(string typed)
    {
        if (DecimalCommas().Count(typed) > 1) return (null, "decimals are written with a point: 47.12345, -11.56789");
        if (Halves(typed) is not var (first, second)) return (null, "needs latitude and longitude, " + Example);
        (Angle? a, string complaint) = AngleOf(first);
        if (a is not { } one) return (null, complaint);
        (Angle? b, complaint) = AngleOf(second);
        if (b is not { } two) return (null, complaint);
        if (one.IsLongitude == true || two.IsLongitude == false) (one, two) = (two, one);
        if (one.IsLongitude == true || two.IsLongitude == false)
            return (null, "needs one latitude (N or S) and one longitude (E or W)");
        if (Math.Abs(one.Deg) > 90) return (null, "latitude runs from -90 to 90");
        if (Math.Abs(two.Deg) > 180) return (null, "longitude runs from -180 to 180");
        return (new GeoPoint(one.Deg, two.Deg), "");
    }

    /// <summary>The texts of the two angles: cut at a letter, at a comma, or in the middle.</summary>
    private static (string, string)? Halves(string typed)
    {
        int letters = typed.Count("NSEW".Contains), firstLetter = typed.AsSpan().IndexOfAny("NSEW");
        if (letters > 2) return null;
        if (letters == 2)
        {
            // In front of its angle the second letter begins the second half; behind it the first ends the first.
            int cut = firstLetter == 0 ? typed.AsSpan().LastIndexOfAny("NSEW") : firstLetter + 1;
            return (typed[..cut], typed[cut..]);
        }
        string[] parts = typed.Split([',', ';'], StringSplitOptions.TrimEntries);
        if (parts.Length == 2) return (parts[0], parts[1]);
        MatchCollection numbers = Numbers().Matches(typed);
        if (parts.Length > 2 || numbers.Count == 0 || numbers.Count % 2 != 0) return null;
        int middle = numbers[numbers.Count / 2].Index;
        return (typed[..middle], typed[middle..]);
    }

    private static (Angle?, string) AngleOf(string half)
    {
        string text = half.Trim(' ', '\t', ',', ';');
        Match form = Form().Match(text);
        if (!form.Success) return (null, $"cannot read {Shown(text)}, {Example}");
        string letter = form.Groups["before"].Value + form.Groups["after"].Value;
        bool negative = form.Groups["sign"].Value is "-" or "−";
        if (letter.Length > 1) return (null, $"{Shown(text)} has two letters");
        if (letter.Length == 1 && form.Groups["sign"].Length > 0)
            return (null, $"{Shown(text)} has both sign and letter");
        (string d, string m, string s) = (form.Groups["d"].Value, form.Groups["m"].Value, form.Groups["s"].Value);
        if ((m.Length > 0 && d.Contains('.')) || (s.Length > 0 && m.Contains('.')))
            return (null, $"only the last number of {Shown(text)} can have decimals");
        (double minutes, double seconds) = (Number(m), Number(s));
        if (minutes >= 60 || seconds >= 60) return (null, "minutes and seconds run from 0 to below 60");
        double deg = Number(d) + minutes / 60 + seconds / 3600;
        bool? longitude = letter.Length == 0 ? null : letter is "E" or "W";
        return (new Angle(negative || letter is "S" or "W" ? -deg : deg, longitude), "");
    }

    private static double Number(string text) =>
        text.Length == 0 ? 0 : double.Parse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);

    private static string Shown(string text) => text.Length <= 30 ? $"\"{text}\"" : $"\"{text[..30]}…\"";

    private readonly record struct Angle(double Deg, bool? IsLongitude);

    [GeneratedRegex(@"[0-9],[0-9]")]
    private static partial Regex DecimalCommas();

    [GeneratedRegex(@"[-+−]?[0-9]+(\.[0-9]*)?")]
    private static partial Regex Numbers();

    [GeneratedRegex(@"^(?<before>[NSEW])?\s*(?<sign>[-+−])?\s*(?<d>[0-9]{1,10}(\.[0-9]{0,15})?)\s*[°º:D]?"
        + @"(\s*(?<m>[0-9]{1,3}(\.[0-9]{0,15})?)\s*['′’:M]?"
        + @"(\s*(?<s>[0-9]{1,3}(\.[0-9]{0,15})?)\s*([""″”]|'')?)?)?\s*(?<after>[NSEW])?$")]
    private static partial Regex Form();
}
