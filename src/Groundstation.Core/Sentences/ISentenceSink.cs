namespace Groundstation.Core.Sentences;

/// <summary>
/// Takes what the framer and decoder give, in the order of the bytes. Each accepted sentence reaches exactly one
/// method; a type that no later stage uses reaches <see cref="Other"/>.
/// </summary>
public interface ISentenceSink
{
    /// <summary>A stretch of bytes that is no acceptable sentence.</summary>
    void Rejected(in Rejection rejection);

    /// <summary>
    /// An accepted sentence of a type not decoded further: proprietary, encapsulated, or of no use here.
    /// </summary>
    void Other(in Sentence sentence);

    /// <summary>GGA.</summary>
    void Gga(in Sentence sentence, in Gga message);

    /// <summary>RMC.</summary>
    void Rmc(in Sentence sentence, in Rmc message);

    /// <summary>GLL.</summary>
    void Gll(in Sentence sentence, in Gll message);

    /// <summary>GNS.</summary>
    void Gns(in Sentence sentence, in Gns message);

    /// <summary>GSA.</summary>
    void Gsa(in Sentence sentence, in Gsa message);

    /// <summary>GSV.</summary>
    void Gsv(in Sentence sentence, in Gsv message);

    /// <summary>VTG.</summary>
    void Vtg(in Sentence sentence, in Vtg message);

    /// <summary>ZDA.</summary>
    void Zda(in Sentence sentence, in Zda message);

    /// <summary>GST.</summary>
    void Gst(in Sentence sentence, in Gst message);

    /// <summary>One measurement of an XDR; called once for each quadruple of the sentence.</summary>
    void Xdr(in Sentence sentence, in XdrMeasurement measurement);
}
