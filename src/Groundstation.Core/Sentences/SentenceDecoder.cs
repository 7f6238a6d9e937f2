using System.Runtime.CompilerServices;

namespace Groundstation.Core.Sentences;

/// <summary>
/// Tells a sentence's type by its last three letters, checks its fields and hands it to the sink. A good checksum is
/// not enough: radios splice two sentences together so that the checksum holds, about once in a thousand faults.
/// </summary>
internal static class SentenceDecoder
{
    /// <summary>Decodes a sentence.</summary>
    /// <returns>Null when the sink has it, else the reason against it.</returns>
    public static RejectReason? Decode<TSink>(in Sentence sentence, FieldReader fields, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        // Each type has a method of its own, never inlined: in one method, the locals of all types together, half a
        // kilobyte, would be zeroed for every sentence, which took a third of the whole time.
        var formatter = FormatterOf(sentence);
        switch (formatter)
        {
            case Formatter.Gga: return Gga(sentence, ref fields, ref sink);
            case Formatter.Rmc: return Rmc(sentence, ref fields, ref sink);
            case Formatter.Gll: return Gll(sentence, ref fields, ref sink);
            case Formatter.Gns: return Gns(sentence, ref fields, ref sink);
            case Formatter.Gsa: return Gsa(sentence, ref fields, ref sink);
            case Formatter.Gsv: return Gsv(sentence, ref fields, ref sink);
            case Formatter.Vtg: return Vtg(sentence, ref fields, ref sink);
            case Formatter.Zda: return Zda(sentence, ref fields, ref sink);
            case Formatter.Gst: return Gst(sentence, ref fields, ref sink);
            case Formatter.Xdr: return XdrSentences.Read(sentence, ref fields, ref sink);
            default:
                var reason = Check(formatter, ref fields);
                if (reason is null) sink.Other(sentence);
                return reason;
        }
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static RejectReason? Gga<TSink>(in Sentence sentence, ref FieldReader fields, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        var reason = PositionSentences.Read(ref fields, out Gga message);
        if (reason is null) sink.Gga(sentence, message);
        return reason;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static RejectReason? Rmc<TSink>(in Sentence sentence, ref FieldReader fields, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        var reason = PositionSentences.Read(ref fields, out Rmc message);
        if (reason is null) sink.Rmc(sentence, message);
        return reason;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static RejectReason? Gll<TSink>(in Sentence sentence, ref FieldReader fields, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        var reason = PositionSentences.Read(ref fields, out Gll message);
        if (reason is null) sink.Gll(sentence, message);
        return reason;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static RejectReason? Gns<TSink>(in Sentence sentence, ref FieldReader fields, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        var reason = PositionSentences.Read(ref fields, out Gns message);
        if (reason is null) sink.Gns(sentence, message);
        return reason;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static RejectReason? Gsa<TSink>(in Sentence sentence, ref FieldReader fields, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        var reason = SatelliteSentences.Read(ref fields, out Gsa message);
        if (reason is null) sink.Gsa(sentence, message);
        return reason;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static RejectReason? Gsv<TSink>(in Sentence sentence, ref FieldReader fields, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        var reason = SatelliteSentences.Read(ref fields, IsQuasiZenithMaker(sentence.Address), out Gsv message);
        if (reason is null) sink.Gsv(sentence, message);
        return reason;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static RejectReason? Vtg<TSink>(in Sentence sentence, ref FieldReader fields, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        var reason = MotionSentences.Read(ref fields, out Vtg message);
        if (reason is null) sink.Vtg(sentence, message);
        return reason;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static RejectReason? Zda<TSink>(in Sentence sentence, ref FieldReader fields, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        var reason = MotionSentences.Read(ref fields, out Zda message);
        if (reason is null) sink.Zda(sentence, message);
        return reason;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static RejectReason? Gst<TSink>(in Sentence sentence, ref FieldReader fields, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        var reason = MotionSentences.Read(ref fields, out Gst message);
        if (reason is null) sink.Gst(sentence, message);
        return reason;
    }

    /// <summary>Whether a sentence is of a type, whoever talks.</summary>
    public static bool Is(in Sentence sentence, ReadOnlySpan<byte> formatter) =>
        FormatterOf(sentence) != Formatter.Unknown && sentence.Address[2..].SequenceEqual(formatter);

    /// <summary>Whether a sentence has another number of fields than its type must have.</summary>
    public static bool IsCutShort(in Sentence sentence, FieldReader fields) => FormatterOf(sentence) switch
    {
        Formatter.Gga => PositionSentences.Read(ref fields, out Gga _),
        Formatter.Rmc => PositionSentences.Read(ref fields, out Rmc _),
        Formatter.Gll => PositionSentences.Read(ref fields, out Gll _),
        Formatter.Gns => PositionSentences.Read(ref fields, out Gns _),
        Formatter.Gsa => SatelliteSentences.Read(ref fields, out Gsa _),
        Formatter.Gsv => SatelliteSentences.Read(ref fields, IsQuasiZenithMaker(sentence.Address), out _),
        Formatter.Vtg => MotionSentences.Read(ref fields, out Vtg _),
        Formatter.Zda => MotionSentences.Read(ref fields, out Zda _),
        Formatter.Gst => MotionSentences.Read(ref fields, out Gst _),
        var other => Check(other, ref fields),
    } == RejectReason.FieldCount;

    /// <summary>Checks the fields of a type that has no sink method; of an unknown type nothing is asked.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static RejectReason? Check(Formatter formatter, ref FieldReader fields) => formatter switch
    {
        Formatter.Gbs => AuxiliarySentences.Read(ref fields, out Gbs _),
        Formatter.Dtm => AuxiliarySentences.ReadDtm(ref fields, out _, out _, out _),
        Formatter.Hdt => AuxiliarySentences.Read(ref fields, false, out _),
        Formatter.Ths => AuxiliarySentences.Read(ref fields, true, out _),
        Formatter.Mwv => AuxiliarySentences.Read(ref fields, out Mwv _),
        Formatter.Mda => AuxiliarySentences.Read(ref fields, out Mda _),
        _ => null,
    };

    private static Formatter FormatterOf(in Sentence sentence)
    {
        var address = sentence.Address;
        if (address.Length != 5 || sentence.Text[0] != (byte)'$') return Formatter.Unknown;
        // $P is proprietary: $PGRMB is no RMB. One maker gives its quasi-zenith satellites the talker PQ all the same.
        if (address[0] == (byte)'P' && !IsQuasiZenithMaker(address)) return Formatter.Unknown;
        return (Formatter)((address[2] << 16) | (address[3] << 8) | address[4]);
    }

    private static bool IsQuasiZenithMaker(ReadOnlySpan<byte> address) =>
        address[0] == (byte)'P' && address[1] == (byte)'Q';

    /// <summary>The last three letters of the address as one number.</summary>
    private enum Formatter
    {
        Unknown = 0,
        Gga = ('G' << 16) | ('G' << 8) | 'A',
        Rmc = ('R' << 16) | ('M' << 8) | 'C',
        Gll = ('G' << 16) | ('L' << 8) | 'L',
        Gns = ('G' << 16) | ('N' << 8) | 'S',
        Gsa = ('G' << 16) | ('S' << 8) | 'A',
        Gsv = ('G' << 16) | ('S' << 8) | 'V',
        Vtg = ('V' << 16) | ('T' << 8) | 'G',
        Zda = ('Z' << 16) | ('D' << 8) | 'A',
        Gst = ('G' << 16) | ('S' << 8) | 'T',
        Gbs = ('G' << 16) | ('B' << 8) | 'S',
        Dtm = ('D' << 16) | ('T' << 8) | 'M',
        Hdt = ('H' << 16) | ('D' << 8) | 'T',
        Ths = ('T' << 16) | ('H' << 8) | 'S',
        Mwv = ('M' << 16) | ('W' << 8) | 'V',
        Mda = ('M' << 16) | ('D' << 8) | 'A',
        Xdr = ('X' << 16) | ('D' << 8) | 'R',
    }
}
