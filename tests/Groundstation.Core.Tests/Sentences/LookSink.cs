using Groundstation.Core.Sentences;
using Xunit;

namespace Groundstation.Core.Tests.Sentences;

/// <summary>Looks at a sentence while its bytes are there.</summary>
public delegate void Look(in Sentence sentence);

/// <summary>Looks at the sentences that have no message of their own; no other may come.</summary>
public sealed class LookSink(Look look) : ISentenceSink
{
    public bool Looked { get; private set; }

    public void Other(in Sentence sentence)
    {
        look(sentence);
        Looked = true;
    }

    public void Rejected(in Rejection rejection) => Assert.Fail(rejection.Reason.ToString());

    public void Gga(in Sentence sentence, in Gga message) { }

    public void Rmc(in Sentence sentence, in Rmc message) { }

    public void Gll(in Sentence sentence, in Gll message) { }

    public void Gns(in Sentence sentence, in Gns message) { }

    public void Gsa(in Sentence sentence, in Gsa message) { }

    public void Gsv(in Sentence sentence, in Gsv message) { }

    public void Vtg(in Sentence sentence, in Vtg message) { }

    public void Zda(in Sentence sentence, in Zda message) { }

    public void Gst(in Sentence sentence, in Gst message) { }

    public void Xdr(in Sentence sentence, in XdrMeasurement measurement) { }
}
