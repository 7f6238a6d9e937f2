namespace Groundstation.Core.Sentences;

/// <summary>XDR: any number of measurements, four fields each.</summary>
internal static class XdrSentences
{
    /// <summary>
    /// Gives the measurements one by one. Unit or name may be empty, the last may be cut short, and a value that is no
    /// number is missing: a broken thermometer must not take the battery's voltage with it. A type that is no letter
    /// means that the fields are not where they should be, and nothing is given.
    /// </summary>
    public static RejectReason? Read<TSink>(in Sentence sentence, ref FieldReader f, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        if (f.Count < 2) return RejectReason.FieldCount;
        for (int field = 1; field <= f.Count; field += 4)
        {
            f.Letter(field);
            f.Letter(field + 2);
            if (f[field].IsEmpty && field + 1 <= f.Count) f.Break();
        }

        if (f.Broken) return RejectReason.FieldGrammar;
        for (int field = 1; field < f.Count; field += 4)
        {
            var measurement = new XdrMeasurement
            {
                Index = field / 4,
                Type = (char)f[field][0],
                Value = Grammar.TryNumber(f[field + 1], out double value) ? value : null,
                Unit = f[field + 2] is [var unit] ? (char)unit : '\0',
                Name = f[field + 3],
            };
            sink.Xdr(sentence, measurement);
        }

        return null;
    }
}
