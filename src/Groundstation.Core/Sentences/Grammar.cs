using System.Globalization;

namespace Groundstation.Core.Sentences;

/// <summary>
/// The grammar of single fields. Every method reads the whole field or fails: a number with an exponent, <c>nan</c>,
/// <c>inf</c>, a second sign or a letter among its digits is no number.
/// </summary>
internal static class Grammar
{
    // Integers up to 2^53 and powers of ten up to 10^22 are exact doubles, so their quotient is correctly rounded.
    private const ulong ExactMantissa = 1UL << 53;

    // 10^-11 minute is 20 nanometres, and 180 degrees in such units still fit an exact double.
    private const int MinuteDecimals = 11;

    // Arrays, since a span over constants costs an allocation a call until the method is compiled for the second time.
    private static readonly double[] PowersOfTen =
        [1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18];

    private static readonly int[] TicksPerDecimal = [10_000_000, 1_000_000, 100_000, 10_000, 1000, 100, 10, 1];

    private static bool IsDigit(byte b) => (uint)(b - '0') <= 9;

    /// <summary>Decimal number with optional sign and point, correctly rounded.</summary>
    public static bool TryNumber(ReadOnlySpan<byte> field, out double value)
    {
        value = 0;
        bool negative = false;
        int at = 0;
        if (!field.IsEmpty && field[0] is (byte)'-' or (byte)'+')
        {
            negative = field[0] == (byte)'-';
            at = 1;
        }

        if (!TryDecimal(field[at..], out ulong mantissa, out int decimals)) return false;
        if (mantissa <= ExactMantissa && field.Length <= 19)
        {
            value = decimals == 0 ? mantissa : mantissa / PowersOfTen[decimals];
            if (negative) value = -value;
            return true;
        }

        return field.Length <= 40 && double.TryParse(field,
            NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value);
    }

    /// <summary>
    /// Digits with at most one point, at least one digit. The mantissa is only meaningful up to 19 characters, which
    /// callers check.
    /// </summary>
    private static bool TryDecimal(ReadOnlySpan<byte> field, out ulong mantissa, out int decimals)
    {
        mantissa = 0;
        decimals = 0;
        int at = 0;
        for (; at < field.Length && IsDigit(field[at]); at++) mantissa = (mantissa * 10) + (uint)(field[at] - '0');
        if (at == field.Length) return at > 0;
        if (field[at] != (byte)'.') return false;
        decimals = field.Length - ++at;
        for (; at < field.Length; at++)
        {
            if (!IsDigit(field[at])) return false;
            mantissa = (mantissa * 10) + (uint)(field[at] - '0');
        }

        return field.Length > 1;
    }

    /// <summary>One to nine digits, no sign.</summary>
    public static bool TryDigits(ReadOnlySpan<byte> field, out int value)
    {
        value = 0;
        if (field.Length is 0 or > 9) return false;
        foreach (byte b in field)
        {
            if (!IsDigit(b)) return false;
            value = (value * 10) + (b - '0');
        }

        return true;
    }

    /// <summary>
    /// Degrees and minutes run together (<c>dddmm.mmmm</c>): the two digits before the point are minutes, whatever
    /// stands left of them is degrees. Fewer digits than usual are accepted, because receivers exist that write
    /// <c>0.0</c> or drop leading zeros; more are not.
    /// </summary>
    /// <param name="field">The field.</param>
    /// <param name="limitDeg">90 for latitude, 180 for longitude.</param>
    /// <param name="degrees">Degrees, not negative, correctly rounded; of a minute's decimals, 11 count.</param>
    public static bool TryAngle(ReadOnlySpan<byte> field, int limitDeg, out double degrees)
    {
        degrees = 0;
        int whole = 0;
        uint ddmm = 0;
        for (; whole < field.Length && IsDigit(field[whole]); whole++) ddmm = (ddmm * 10) + field[whole] - '0';
        if (whole < 1 || whole > (limitDeg == 90 ? 4 : 5)) return false;
        ulong fraction = 0;
        int decimals = 0;
        if (whole < field.Length)
        {
            if (field[whole] != (byte)'.') return false;
            foreach (byte b in field[(whole + 1)..])
            {
                if (!IsDigit(b)) return false;
                if (decimals == MinuteDecimals) continue;
                fraction = (fraction * 10) + b - '0';
                decimals++;
            }
        }

        ulong scale = (ulong)PowersOfTen[decimals];
        uint deg = ddmm / 100;
        uint min = ddmm % 100;
        // One chipset family writes its position before the first fix as 8960.0000: the pole. It is the only place
        // where sixty minutes are taken for a degree; anywhere else they are a damaged field.
        bool pole = limitDeg == 90 && deg == 89 && min == 60 && fraction == 0;
        if (min >= 60 && !pole) return false;
        ulong minutesScaled = (((deg * 60UL) + min) * scale) + fraction;
        degrees = minutesScaled / (60.0 * scale);
        return degrees <= limitDeg;
    }

    /// <summary>
    /// Time of day <c>hhmmss</c> with any number of decimals, rounded once to 100 ns. A leap second <c>:60</c> must
    /// neither be lost nor collide with midnight: second 60 + f is given as 59.999 + f/1000, which keeps the order of
    /// all epochs.
    /// </summary>
    public static bool TryTime(ReadOnlySpan<byte> field, out TimeSpan time)
    {
        time = default;
        if (field.Length < 6 || !TryTwo(field, 0, out int h) || !TryTwo(field, 2, out int m)
            || !TryTwo(field, 4, out int s))
            return false;
        if (h > 23 || m > 59 || s > 60) return false;
        long fraction = 0;
        if (field.Length > 6)
        {
            if (field[6] != (byte)'.') return false;
            var decimals = field[7..];
            for (int i = 0; i < decimals.Length; i++)
            {
                if (!IsDigit(decimals[i])) return false;
                if (i < 7) fraction += (decimals[i] - '0') * TicksPerDecimal[i + 1];
                else if (i == 7 && decimals[i] >= (byte)'5') fraction++;
            }
        }

        long ticks = s == 60
            ? (59 * TimeSpan.TicksPerSecond) + (999 * TimeSpan.TicksPerMillisecond) + (fraction / 1000)
            : (s * TimeSpan.TicksPerSecond) + fraction;
        time = new TimeSpan((((h * 60L) + m) * TimeSpan.TicksPerMinute) + ticks);
        return true;
    }

    /// <summary>
    /// Date <c>ddmmyy</c>, years 80–99 being 1980–1999. Six digits that name no day, and digits with a minus among them
    /// (a receiver after the GPS week rollover of 2019 wrote <c>2208-1</c>), are "no date"; anything else is damage.
    /// </summary>
    public static bool TryDate(ReadOnlySpan<byte> field, out DateOnly? date)
    {
        date = null;
        if (field.Length == 6 && TryTwo(field, 0, out int day) && TryTwo(field, 2, out int month)
            && TryTwo(field, 4, out int year))
        {
            date = Calendar(day, month, year < 80 ? 2000 + year : 1900 + year);
            return true;
        }

        bool minus = false;
        foreach (byte b in field)
        {
            if (b == (byte)'-') minus = true;
            else if (!IsDigit(b)) return false;
        }

        return minus;
    }

    /// <summary>The date, or null when there is no such day.</summary>
    public static DateOnly? Calendar(int day, int month, int year) =>
        year is >= 1 and <= 9999 && month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, month)
            ? new DateOnly(year, month, day)
            : null;

    private static bool TryTwo(ReadOnlySpan<byte> field, int at, out int value)
    {
        uint tens = (uint)(field[at] - '0');
        uint ones = (uint)(field[at + 1] - '0');
        value = (int)((tens * 10) + ones);
        return tens <= 9 && ones <= 9;
    }
}
