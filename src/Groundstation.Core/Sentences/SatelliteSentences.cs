namespace Groundstation.Core.Sentences;

/// <summary>GSA and GSV: satellites used and in view.</summary>
internal static class SatelliteSentences
{
    /// <summary>
    /// GSA: 17 fields, 18 from 4.11 on. With a fix all of them must be there; without one, receivers exist that send
    /// fewer.
    /// </summary>
    public static RejectReason? Read(ref FieldReader f, out Gsa message)
    {
        message = default;
        if (f.Count is < 2 or > 18) return RejectReason.FieldCount;
        f.OneOf(1, "AM"u8);
        int? dimension = f.Integer(2, 3);
        if (dimension == 0) f.Break();
        if (dimension > 1 && f.Count < 17) return RejectReason.FieldCount;
        var satellites = default(TwelveSatellites);
        int count = 0;
        for (int field = 3; field <= 14; field++)
            if (f.Integer(field, 999) is { } id and > 0) satellites[count++] = (short)id;
        double? pdop = f.Dilution(15);
        double? hdop = f.Dilution(16);
        double? vdop = f.Dilution(17);
        // One chipset family wrote its time dilution (3.3) there before 4.11 gave the field to the system identifier.
        bool timeDilution = f[18].Length > 1;
        int? system = timeDilution ? null : f.HexDigit(18);
        if (timeDilution) f.Unsigned(18);
        if (f.Broken) return RejectReason.FieldGrammar;
        message = new Gsa((FixDimension?)dimension, count, satellites, pdop, hdop, vdop, system);
        return null;
    }

    /// <summary>
    /// GSV: three fields, four for each of up to four satellites, and from 4.10 on a signal identifier: the number of
    /// fields left over by four tells whether it is there. A satellite without a number is skipped.
    /// </summary>
    /// <param name="f">The fields.</param>
    /// <param name="systemFollows">Whether this maker puts a system identifier behind the signal identifier.</param>
    /// <param name="message">What they say.</param>
    public static RejectReason? Read(ref FieldReader f, bool systemFollows, out Gsv message)
    {
        message = default;
        (int listed, int rest) = Math.DivRem(f.Count - 3, 4);
        if (f.Count < 3 || listed > 4 || rest > (systemFollows ? 2 : 1)) return RejectReason.FieldCount;
        int? parts = f.Integer(1, 99);
        int? part = f.Integer(2, 99);
        int? inView = f.Integer(3, 999);
        var satellites = default(FourSatellites);
        int count = 0;
        for (int i = 0; i < listed; i++)
        {
            int field = 4 + (4 * i);
            int? id = f.Integer(field, 999);
            int? elevation = f.StartsWith(field + 1, (byte)'-') ? Below(ref f, field + 1) : f.Integer(field + 1, 90);
            int? azimuth = f.Integer(field + 2, 360);
            int? strength = f.Integer(field + 3, 99);
            if (id is not > 0) continue;
            satellites[count++] = new SatelliteInView((short)id, (short?)elevation,
                (short?)(azimuth == 360 ? 0 : azimuth), (short?)(strength == 0 ? null : strength));
        }

        int? signal = rest == 0 ? null : f.HexDigit(4 + (4 * listed));
        if (rest == 2) f.HexDigit(5 + (4 * listed));
        if (f.Broken) return RejectReason.FieldGrammar;
        message = new Gsv(parts, part, inView, count, satellites, signal);
        return null;
    }

    /// <summary>Whole degrees of a satellite just below the horizon, told with a minus.</summary>
    private static int? Below(ref FieldReader f, int field)
    {
        if (Grammar.TryDigits(f[field][1..], out int value) && value <= 90) return -value;
        f.Break();
        return null;
    }
}
