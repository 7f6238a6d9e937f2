using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Core.Sentences;

/// <summary>GGA, RMC, GLL and GNS: the sentences with a position.</summary>
internal static class PositionSentences
{
    /// <summary>
    /// GGA: 14 fields; the trailing ones may be missing from the altitude's unit on, and one chipset family appends a
    /// fifteenth. Age and station of the differential correction are checked, not kept.
    /// </summary>
    public static RejectReason? Read(ref FieldReader f, out Gga message)
    {
        message = default;
        if (f.Count is < 10 or > 15) return RejectReason.FieldCount;
        var time = f.Time(1);
        f.Position(2, out double? latitude, out double? longitude);
        int? quality = f.Integer(6, 9);
        int? satellites = f.Integer(7, 999);
        double? hdop = f.Dilution(8);
        double? altitude = f.Metres(9);
        double? separation = f.Metres(11);
        f.Unsigned(13);
        f.Integer(14, 9999);
        f.Unsigned(15);
        if (f.Broken) return RejectReason.FieldGrammar;
        message = new Gga(time, latitude, longitude, quality is <= 8 ? (FixQuality)quality : null, satellites, hdop,
            altitude, separation);
        return null;
    }

    /// <summary>RMC: 9 fields at least; variation, mode (2.3) and navigational status (4.10) may be missing.</summary>
    public static RejectReason? Read(ref FieldReader f, out Rmc message)
    {
        message = default;
        if (f.Count is < 9 or > 13) return RejectReason.FieldCount;
        var time = f.Time(1);
        char? status = f.Letter(2);
        f.Position(3, out double? latitude, out double? longitude);
        double? knots = f.Unsigned(7);
        double? course = f.Unsigned(8, 360);
        var date = f.Date(9);
        f.Unsigned(10, 180);
        f.OneOf(11, "EW"u8);
        char? mode = f.Letter(12);
        char? navigationalStatus = f.Letter(13);
        if (f.Broken) return RejectReason.FieldGrammar;
        message = new Rmc(time, status, latitude, longitude, knots * KnotMps, course, date, mode, navigationalStatus);
        return null;
    }

    /// <summary>GLL: position alone in the oldest form, then time and status, then mode (2.3).</summary>
    public static RejectReason? Read(ref FieldReader f, out Gll message)
    {
        message = default;
        if (f.Count is < 4 or > 7) return RejectReason.FieldCount;
        f.Position(1, out double? latitude, out double? longitude);
        var time = f.Time(5);
        char? status = f.Letter(6);
        char? mode = f.Letter(7);
        if (f.Broken) return RejectReason.FieldGrammar;
        message = new Gll(time, latitude, longitude, status, mode);
        return null;
    }

    /// <summary>GNS: one mode letter for each satellite system; navigational status (4.10) may be missing.</summary>
    public static RejectReason? Read(ref FieldReader f, out Gns message)
    {
        message = default;
        if (f.Count is < 10 or > 13) return RejectReason.FieldCount;
        var time = f.Time(1);
        f.Position(2, out double? latitude, out double? longitude);
        var modes = f[6];
        if (modes.ContainsAnyExceptInRange((byte)'A', (byte)'Z')) f.Break();
        int? satellites = f.Integer(7, 999);
        double? hdop = f.Dilution(8);
        double? altitude = f.Number(9);
        double? separation = f.Number(10);
        f.Unsigned(11);
        f.Integer(12, 9999);
        f.Letter(13);
        if (f.Broken) return RejectReason.FieldGrammar;
        message = new Gns(time, latitude, longitude, modes.ContainsAny("ADPRF"u8), satellites, hdop, altitude,
            separation);
        return null;
    }
}
