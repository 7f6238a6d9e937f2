using System.Buffers.Text;
using Groundstation.Core.Sentences;

namespace Groundstation.Io.Recordings;

/// <summary>
/// The UTC inside one line of a log: time of day from GGA, RMC, GLL, GNS and ZDA, date from RMC and ZDA. Only to place
/// a log's lines in time; what a fix's time is, the core decides for itself.
/// </summary>
/// <param name="TimeOfDay">Time since UTC midnight, 0 ≤ t ≤ 24 h, whole milliseconds.</param>
/// <param name="Date">The date, where the sentence carries one.</param>
/// <param name="DateSure">True when the receiver stood behind it: RMC status A, or ZDA.</param>
internal readonly record struct SentenceTime(TimeSpan TimeOfDay, DateOnly? Date, bool DateSure)
{
    /// <summary>Reads a line's last sentence. False when it carries no time.</summary>
    /// <param name="line">The line.</param>
    /// <param name="unverified">Take it although its checksum is missing or wrong.</param>
    /// <param name="time">What it says.</param>
    public static bool TryRead(ReadOnlySpan<byte> line, bool unverified, out SentenceTime time)
    {
        time = default;
        int dollar = line.LastIndexOf((byte)'$');
        if (dollar < 0)
            return false;
        ReadOnlySpan<byte> body = line[(dollar + 1)..];
        int star = body.LastIndexOf((byte)'*');
        bool verified = star >= 0 && body.Length >= star + 3
            && Checksum.Read(body[(star + 1)..(star + 3)]) == Checksum.Of(body[..star]);
        if (!verified && !unverified)
            return false;
        if (star >= 0)
            body = body[..star];
        if (body.Length < 6 || body[5] != ',' || body[0] == 'P')
            return false;
        ReadOnlySpan<byte> type = body[2..5];
        bool rmc = type.SequenceEqual("RMC"u8);
        bool zda = type.SequenceEqual("ZDA"u8);
        int timeField = type.SequenceEqual("GLL"u8) ? 5 : 1;
        if (!rmc && !zda && timeField == 1 && !type.SequenceEqual("GGA"u8) && !type.SequenceEqual("GNS"u8))
            return false;
        if (!TryTimeOfDay(Field(body, timeField), out TimeSpan tod))
            return false;
        DateOnly? date = rmc ? ReadDate(Field(body, 9)) : zda ? ReadDate(body) : null;
        time = new SentenceTime(tod, date, zda || (rmc && Field(body, 2) is [(byte)'A']));
        return true;
    }

    private static ReadOnlySpan<byte> Field(ReadOnlySpan<byte> body, int index)
    {
        for (; index > 0; index--)
        {
            int comma = body.IndexOf((byte)',');
            if (comma < 0)
                return default;
            body = body[(comma + 1)..];
        }

        int end = body.IndexOf((byte)',');
        return end < 0 ? body : body[..end];
    }

    /// <summary>
    /// hhmmss with any count of decimals; milliseconds are kept, the rest is cut. 60 is a leap second.
    /// </summary>
    private static bool TryTimeOfDay(ReadOnlySpan<byte> text, out TimeSpan tod)
    {
        tod = default;
        if (text.Length < 6 || !TwoDigits(text, 0, 23, out int h) || !TwoDigits(text, 2, 59, out int m)
            || !TwoDigits(text, 4, 60, out int s) || (text.Length > 6 && text[6] != '.'))
            return false;
        int ms = 0;
        for (int i = 0, unit = 100; i < 3; i++, unit /= 10)
        {
            if (text.Length <= 7 + i)
                break;
            if (text[7 + i] is < (byte)'0' or > (byte)'9')
                return false;
            ms += (text[7 + i] - '0') * unit;
        }

        tod = new TimeSpan(0, h, m, s, ms);
        return true;
    }

    private static DateOnly? ReadDate(ReadOnlySpan<byte> text)
    {
        if (text.Length == 6 && TwoDigits(text, 0, 31, out int day) && TwoDigits(text, 2, 12, out int month)
            && TwoDigits(text, 4, 99, out int year))
            return MakeDate(year >= 80 ? 1900 + year : 2000 + year, month, day);
        if (Field(text, 0).EndsWith("ZDA"u8) && TwoDigits(Field(text, 2), 0, 31, out day)
            && TwoDigits(Field(text, 3), 0, 12, out month)
            && Utf8Parser.TryParse(Field(text, 4), out year, out int used) && used == 4)
            return MakeDate(year, month, day);
        return null;
    }

    private static DateOnly? MakeDate(int year, int month, int day) =>
        year is >= 1980 and < 2200 && month >= 1 && day >= 1 && day <= DateTime.DaysInMonth(year, month)
            ? new DateOnly(year, month, day)
            : null;

    private static bool TwoDigits(ReadOnlySpan<byte> text, int at, int max, out int value)
    {
        value = 0;
        if (text.Length < at + 2 || text.Slice(at, 2).ContainsAnyExceptInRange((byte)'0', (byte)'9'))
            return false;
        value = (text[at] - '0') * 10 + text[at + 1] - '0';
        return value <= max;
    }
}
