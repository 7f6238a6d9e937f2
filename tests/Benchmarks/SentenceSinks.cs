using Groundstation.Core.Sentences;

namespace Groundstation.Benchmarks;

/// <summary>Keeps each accepted sentence's text once.</summary>
internal sealed class Keeper : ISentenceSink
{
    private int _lastXdr = -1;

    public List<byte[]> Sentences { get; } = [];

    public void Rejected(in Rejection rejection) { }

    public void Other(in Sentence sentence) => Keep(sentence);

    public void Gga(in Sentence sentence, in Gga message) => Keep(sentence);

    public void Rmc(in Sentence sentence, in Rmc message) => Keep(sentence);

    public void Gll(in Sentence sentence, in Gll message) => Keep(sentence);

    public void Gns(in Sentence sentence, in Gns message) => Keep(sentence);

    public void Gsa(in Sentence sentence, in Gsa message) => Keep(sentence);

    public void Gsv(in Sentence sentence, in Gsv message) => Keep(sentence);

    public void Vtg(in Sentence sentence, in Vtg message) => Keep(sentence);

    public void Zda(in Sentence sentence, in Zda message) => Keep(sentence);

    public void Gst(in Sentence sentence, in Gst message) => Keep(sentence);

    public void Xdr(in Sentence sentence, in XdrMeasurement measurement)
    {
        // One call a measurement: the same sentence is kept at its first only.
        if (_lastXdr == Sentences.Count && Sentences[^1].AsSpan().SequenceEqual(sentence.Text)) return;
        Keep(sentence);
        _lastXdr = Sentences.Count;
    }

    private void Keep(in Sentence sentence) => Sentences.Add(sentence.Text.ToArray());
}

/// <summary>Counts, and adds up a value of each message so that no decoding can be left out.</summary>
internal struct Counter : ISentenceSink
{
    public long Accepted;
    public long Refused;
    public double Sum;

    public void Rejected(in Rejection rejection) => Refused++;

    public void Other(in Sentence sentence) => Accepted++;

    public void Gga(in Sentence sentence, in Gga message) => Add(message.LatitudeDeg + message.AltitudeMslM);

    public void Rmc(in Sentence sentence, in Rmc message) => Add(message.LatitudeDeg + message.SpeedMps);

    public void Gll(in Sentence sentence, in Gll message) => Add(message.LatitudeDeg);

    public void Gns(in Sentence sentence, in Gns message) => Add(message.LatitudeDeg + message.AltitudeMslM);

    public void Gsa(in Sentence sentence, in Gsa message) => Add(message.Hdop + message.Satellites[0]);

    public void Gsv(in Sentence sentence, in Gsv message) => Add(message.Satellites[0].SnrDb);

    public void Vtg(in Sentence sentence, in Vtg message) => Add(message.SpeedMps);

    public void Zda(in Sentence sentence, in Zda message) => Add(message.Time?.Ticks);

    public void Gst(in Sentence sentence, in Gst message) => Add(message.AltitudeSigmaM);

    // The recordings' XDR carry one measurement each.
    public void Xdr(in Sentence sentence, in XdrMeasurement measurement) => Add(measurement.Value);

    private void Add(double? value)
    {
        Accepted++;
        Sum += value ?? 0;
    }
}
