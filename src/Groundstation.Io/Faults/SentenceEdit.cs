using System.Globalization;
using System.Text;
using Groundstation.Core.Sentences;

namespace Groundstation.Io.Faults;

/// <summary>One whole sentence taken apart, to be changed and sealed again.</summary>
internal sealed class SentenceEdit
{
    private readonly string[] _fields;

    private SentenceEdit(string[] fields) => _fields = fields;

    /// <summary>Its type without the talker: <c>GGA</c>.</summary>
    public string Type => _fields[0].Length > 2 ? _fields[0][2..] : "";

    /// <summary>Talker and type.</summary>
    public string Address => _fields[0];

    /// <summary>How many fields there are, with the address.</summary>
    public int Count => _fields.Length;

    /// <summary>A field, the address being number 0; empty where there is none.</summary>
    public string this[int field]
    {
        get => field < _fields.Length ? _fields[field] : "";
        set
        {
            if (field < _fields.Length)
                _fields[field] = value;
        }
    }

    /// <summary>Takes a piece apart; null when it is not one whole sentence that its checksum holds for.</summary>
    public static SentenceEdit? Of(ReadOnlySpan<byte> piece)
    {
        ReadOnlySpan<byte> line = piece.TrimEnd("\r\n"u8);
        if (line.Length < 9 || line[0] != '$' || line[^3] != '*'
            || line[1..].ContainsAnyExceptInRange((byte)' ', (byte)'~') || line[1..].ContainsAny((byte)'$', (byte)'!'))
            return null;
        string body = Encoding.ASCII.GetString(line[1..^3]);
        return Encoding.ASCII.GetBytes(SentenceWriter.Seal(body)).AsSpan().SequenceEqual(line)
            ? new SentenceEdit(body.Split(',')) : null;
    }

    /// <summary>The sentence again, with its line end.</summary>
    public byte[] Seal() => Encoding.ASCII.GetBytes(SentenceWriter.Seal(string.Join(',', _fields)) + "\r\n");

    /// <summary>Number of the latitude's field; its hemisphere and the longitude follow. 0: it has none.</summary>
    public int PlaceField => Type switch { "GGA" or "GNS" => 2, "RMC" => 3, "GLL" => 1, _ => 0 };

    /// <summary>The altitude above mean sea level, m; null when it has none.</summary>
    public double? AltitudeM => Type is "GGA" or "GNS" && double.TryParse(this[9], NumberStyles.Float,
        CultureInfo.InvariantCulture, out double metres) ? metres : null;

    /// <summary>Moves the place by so many metres to the north and east.</summary>
    public void Move(double northM, double eastM)
    {
        int at = PlaceField;
        if (at == 0 || Degrees(this[at], this[at + 1] == "S") is not { } latitude
            || Degrees(this[at + 2], this[at + 3] == "W") is not { } longitude)
            return;
        latitude = Math.Clamp(latitude + northM / 111_195, -89.9, 89.9);
        longitude = Math.IEEERemainder(longitude + eastM / (111_195 * Math.Cos(latitude * Math.PI / 180)), 360);
        (this[at], this[at + 1]) = (Minutes(latitude, this[at]), latitude < 0 ? "S" : "N");
        (this[at + 2], this[at + 3]) = (Minutes(longitude, this[at + 2]), longitude < 0 ? "W" : "E");
    }

    /// <summary>Takes the fix out, as a receiver without one leaves its fields empty.</summary>
    public void TakeFix()
    {
        switch (Type)
        {
            case "GGA":
                Clear(2, 5);
                (this[6], this[7], this[8], this[9], this[11]) = ("0", "00", "99.99", "", "");
                break;
            case "GNS":
                Clear(2, 5);
                this[6] = new string('N', Math.Max(1, this[6].Length));
                (this[7], this[8], this[9], this[10]) = ("00", "99.99", "", "");
                break;
            case "RMC":
                (this[2], this[12]) = ("V", Count > 12 ? "N" : "");
                Clear(3, 8);
                break;
            case "GLL":
                Clear(1, 4);
                (this[6], this[7]) = ("V", "N");
                break;
            case "VTG":
                (this[1], this[3], this[5], this[7], this[9]) = ("", "", "", "", "N");
                break;
            case "GSA":
                this[2] = "1";
                Clear(3, 14);
                (this[15], this[16], this[17]) = ("99.99", "99.99", "99.99");
                break;
        }
    }

    /// <summary>Moves the date by so many days.</summary>
    public void MoveDate(int days)
    {
        if (Type == "RMC" && Date(this[9], "ddMMyy") is { } date)
            this[9] = Text(date.AddDays(days), "ddMMyy");
        if (Type == "ZDA" && Date(this[2] + this[3] + this[4], "ddMMyyyy") is { } day)
        {
            day = day.AddDays(days);
            (this[2], this[3], this[4]) = (Text(day, "dd"), Text(day, "MM"), Text(day, "yyyy"));
        }

        static DateTime? Date(string text, string form) => DateTime.TryParseExact(text, form,
            CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime read) && read.Year is > 1900 and < 2900
            ? read : null;
        static string Text(DateTime date, string form) => date.ToString(form, CultureInfo.InvariantCulture);
    }

    private void Clear(int first, int last)
    {
        for (int i = first; i <= last; i++)
            this[i] = "";
    }

    private static double? Degrees(string text, bool negative)
    {
        if (!double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value))
            return null;
        double degrees = Math.Floor(value / 100), result = degrees + (value - 100 * degrees) / 60;
        return negative ? -result : result;
    }

    /// <summary>Degrees and minutes with as many digits as there were.</summary>
    private static string Minutes(double degrees, string like)
    {
        int point = like.IndexOf('.', StringComparison.Ordinal);
        int decimals = point < 0 ? 0 : like.Length - point - 1, whole = point < 0 ? like.Length : point;
        double unit = Math.Pow(10, decimals);
        long units = (long)Math.Round(Math.Abs(degrees) * 60 * unit), perDegree = (long)(60 * unit);
        double number = units / perDegree * 100 + units % perDegree / unit;
        return number.ToString(new string('0', whole) + (decimals > 0 ? "." + new string('0', decimals) : ""),
            CultureInfo.InvariantCulture);
    }
}
