using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Core.Sentences;

/// <summary>VTG, ZDA and GST: motion, clock and error estimate.</summary>
internal static class MotionSentences
{
    /// <summary>
    /// VTG: four values with a letter behind each, and mode (2.3); pairs at the end may be missing. Before 3.01 the
    /// four values came without letters: told apart by the second field, which is T or blank in the form with letters.
    /// </summary>
    public static RejectReason? Read(ref FieldReader f, out Vtg message)
    {
        message = default;
        bool plain = f.Count == 4 && f[2] is not [] and not [(byte)'T'];
        if (f.Count is not (4 or 6 or 8 or 9)) return RejectReason.FieldCount;
        int step = plain ? 1 : 2;
        double? courseTrue = f.Unsigned(1, 360);
        double? courseMagnetic = f.Unsigned(1 + step, 360);
        double? knots = f.Unsigned(1 + (2 * step));
        double? kilometresPerHour = f.Unsigned(1 + (3 * step));
        char? mode = null;
        if (!plain)
        {
            f.OneOf(2, "T"u8);
            f.OneOf(4, "M"u8);
            f.OneOf(6, "N"u8);
            f.OneOf(8, "K"u8);
            mode = f.Letter(9);
        }

        if (f.Broken) return RejectReason.FieldGrammar;
        message = new Vtg(courseTrue, courseMagnetic, (knots * KnotMps) ?? (kilometresPerHour / 3.6),
            mode);
        return null;
    }

    /// <summary>
    /// ZDA: time, day, month, year, and the local zone, which may be missing. Digits that name no day: no date.
    /// </summary>
    public static RejectReason? Read(ref FieldReader f, out Zda message)
    {
        message = default;
        if (f.Count is < 4 or > 6) return RejectReason.FieldCount;
        var time = f.Time(1);
        int? day = f.Integer(2, 99);
        int? month = f.Integer(3, 99);
        int? year = f.Integer(4, 9999);
        if (f.Number(5) is < -14 or > 14) f.Break();
        f.Integer(6, 59);
        if (day.HasValue != month.HasValue || day.HasValue != year.HasValue) f.Break();
        if (f.Broken) return RejectReason.FieldGrammar;
        var date = day is { } d && month is { } m && year is { } y ? Grammar.Calendar(d, m, y) : null;
        message = new Zda(time, date);
        return null;
    }

    /// <summary>GST: standard deviations of position, and of the ranges behind it.</summary>
    public static RejectReason? Read(ref FieldReader f, out Gst message)
    {
        message = default;
        if (f.Count != 8) return RejectReason.FieldCount;
        var time = f.Time(1);
        double? rms = f.Unsigned(2);
        f.Unsigned(3);
        f.Unsigned(4);
        f.Unsigned(5, 360);
        double? latitude = f.Unsigned(6);
        double? longitude = f.Unsigned(7);
        double? altitude = f.Unsigned(8);
        if (f.Broken) return RejectReason.FieldGrammar;
        message = new Gst(time, rms, latitude, longitude, altitude);
        return null;
    }
}
