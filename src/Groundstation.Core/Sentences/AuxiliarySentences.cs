using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Core.Sentences;

/// <summary>
/// GBS, DTM, HDT, THS, MWV, MDA: checked with every sentence, decoded for those who ask. No later stage needs them on
/// the straight path, so a sink has no method for them.
/// </summary>
internal static class AuxiliarySentences
{
    /// <summary>GBS: 8 fields, 10 from 4.10 on (system and signal identifiers).</summary>
    public static RejectReason? Read(ref FieldReader f, out Gbs message)
    {
        message = default;
        if (f.Count is < 8 or > 10) return RejectReason.FieldCount;
        message = new Gbs(f.Time(1), f.Number(2), f.Number(3), f.Number(4), f.Integer(5, 999), f.Unsigned(6, 1),
            f.Number(7), f.Unsigned(8));
        f.HexDigit(9);
        f.HexDigit(10);
        return f.Broken ? RejectReason.FieldGrammar : null;
    }

    /// <summary>DTM: 8 fields.</summary>
    public static RejectReason? ReadDtm(ref FieldReader f, out double? latitude, out double? longitude,
        out double? altitude)
    {
        latitude = longitude = altitude = null;
        if (f.Count != 8) return RejectReason.FieldCount;
        if (!IsDatum(f[1]) || !IsDatum(f[8])) f.Break();
        f.OneOf(2, "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"u8);
        latitude = f.Unsigned(3) * (f.OneOf(4, "NS"u8) == 'S' ? -1 : 1);
        longitude = f.Unsigned(5) * (f.OneOf(6, "EW"u8) == 'W' ? -1 : 1);
        altitude = f.Number(7);
        return f.Broken ? RejectReason.FieldGrammar : null;
    }

    /// <summary>HDT: heading and T. THS: heading and mode.</summary>
    public static RejectReason? Read(ref FieldReader f, bool ths, out Heading message)
    {
        message = default;
        if (f.Count != 2) return RejectReason.FieldCount;
        double? heading = f.Unsigned(1, 360);
        message = new Heading(heading, ths ? f.OneOf(2, "AEMSV"u8) : null);
        if (!ths) f.OneOf(2, "T"u8);
        return f.Broken ? RejectReason.FieldGrammar : null;
    }

    /// <summary>MWV: angle, reference, speed, unit, status.</summary>
    public static RejectReason? Read(ref FieldReader f, out Mwv message)
    {
        message = default;
        if (f.Count != 5) return RejectReason.FieldCount;
        double? angle = f.Unsigned(1, 360);
        char? reference = f.OneOf(2, "RT"u8);
        double? speed = f.Unsigned(3);
        double? unitMps = f.OneOf(4, "NMKS"u8) switch
        {
            'N' => KnotMps,
            'M' => 1,
            'K' => 1 / 3.6,
            'S' => MileM / 3600,
            _ => null,
        };
        if (speed is not null && unitMps is null) f.Break();
        message = new Mwv(angle, reference == 'T', speed * unitMps, f.OneOf(5, "AV"u8) == 'A');
        return f.Broken ? RejectReason.FieldGrammar : null;
    }

    /// <summary>MDA: 20 fields.</summary>
    public static RejectReason? Read(ref FieldReader f, out Mda message)
    {
        message = default;
        if (f.Count != 20) return RejectReason.FieldCount;
        double? inches = WithUnit(ref f, 1, "I"u8);
        double? bar = WithUnit(ref f, 3, "B"u8);
        double? air = WithUnit(ref f, 5, "C"u8);
        WithUnit(ref f, 7, "C"u8);
        double? humidity = f.Unsigned(9, 100);
        f.Unsigned(10);
        double? dewPoint = WithUnit(ref f, 11, "C"u8);
        double? windFrom = f.Unsigned(13, 360);
        f.OneOf(14, "T"u8);
        f.Unsigned(15, 360);
        f.OneOf(16, "M"u8);
        double? knots = f.Unsigned(17);
        f.OneOf(18, "N"u8);
        double? mps = f.Unsigned(19);
        f.OneOf(20, "M"u8);
        message = new Mda((bar * 1e5) ?? (inches * InchOfMercuryPa), air, humidity, dewPoint, windFrom,
            mps ?? (knots * KnotMps));
        return f.Broken ? RejectReason.FieldGrammar : null;
    }

    /// <summary>A number and its unit letter, which may only be blank together with the number.</summary>
    private static double? WithUnit(ref FieldReader f, int field, ReadOnlySpan<byte> unit)
    {
        double? value = f.Number(field);
        if (f.OneOf(field + 1, unit) is null && value is not null) f.Break();
        return value;
    }

    private static bool IsDatum(ReadOnlySpan<byte> code)
    {
        foreach (byte b in code)
            if (b is not ((>= (byte)'A' and <= (byte)'Z') or (>= (byte)'0' and <= (byte)'9'))) return false;
        return code.Length <= 3;
    }
}
