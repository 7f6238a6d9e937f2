using System.Globalization;
using System.Text;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Xunit;

namespace Groundstation.Core.Tests.Sentences;

/// <summary>Keeps all that a stream gives, as typed messages in order and as one text line each.</summary>
public sealed class Collector : ISentenceSink
{
    private int _measurementsLeft;

    /// <summary>One call each: word, arrival ticks, bytes, decoded content.</summary>
    public List<string> Calls { get; } = [];

    /// <summary>TAG block and bytes of every sentence and rejection, in order.</summary>
    public List<(string Tag, string Bytes)> Pieces { get; } = [];

    /// <summary>Decoded messages, in order.</summary>
    public List<object> Messages { get; } = [];

    /// <summary>Sentence texts of accepted sentences, in order.</summary>
    public List<string> Accepted { get; } = [];

    /// <summary>Addresses of those that went to Other, in order.</summary>
    public List<string> Others { get; } = [];

    /// <summary>Reason and bytes (Latin-1) of what was rejected, in order.</summary>
    public List<(RejectReason Reason, string Bytes)> Rejections { get; } = [];

    /// <summary>What was not verified, in order.</summary>
    public List<string> Unverified { get; } = [];

    /// <summary>TAG block's source and time with each accepted sentence.</summary>
    public List<(string Source, Instant? Time)> Tags { get; } = [];

    /// <summary>Feeds bytes in one call and ends the stream.</summary>
    public static Collector Of(ReadOnlySpan<byte> bytes, bool allowNoChecksum = false)
    {
        var sink = new Collector();
        var stream = new SentenceStream(new SourceId("radio1"), allowNoChecksum);
        stream.Push(new Instant(1), bytes, ref sink);
        stream.Flush(new Instant(1), ref sink);
        return sink;
    }

    /// <summary>The same for text, one byte a character.</summary>
    public static Collector Of(string text, bool allowNoChecksum = false) =>
        Of(Encoding.Latin1.GetBytes(text), allowNoChecksum);

    /// <summary>The only message, of a given type.</summary>
    public T Only<T>() => (T)Assert.Single(Messages);

    public void Rejected(in Rejection rejection)
    {
        string bytes = Encoding.Latin1.GetString(rejection.Bytes);
        Rejections.Add((rejection.Reason, bytes));
        string tag = Encoding.Latin1.GetString(rejection.TagText);
        Pieces.Add((tag, bytes));
        Calls.Add($"{rejection.Heard.Ticks} {rejection.Reason} {tag} {bytes}");
    }

    public void Other(in Sentence sentence)
    {
        Others.Add(Encoding.Latin1.GetString(sentence.Address));
        Accept(sentence, null);
    }

    public void Gga(in Sentence sentence, in Gga message) => Accept(sentence, message);

    public void Rmc(in Sentence sentence, in Rmc message) => Accept(sentence, message);

    public void Gll(in Sentence sentence, in Gll message) => Accept(sentence, message);

    public void Gns(in Sentence sentence, in Gns message) => Accept(sentence, message);

    public void Gsa(in Sentence sentence, in Gsa message) => Accept(sentence, message);

    public void Gsv(in Sentence sentence, in Gsv message) => Accept(sentence, message);

    public void Vtg(in Sentence sentence, in Vtg message) => Accept(sentence, message);

    public void Zda(in Sentence sentence, in Zda message) => Accept(sentence, message);

    public void Gst(in Sentence sentence, in Gst message) => Accept(sentence, message);

    public void Xdr(in Sentence sentence, in XdrMeasurement measurement) => Accept(sentence,
        new Measured(measurement.Type, measurement.Value, measurement.Unit,
            Encoding.Latin1.GetString(measurement.Name)));

    private void Accept(in Sentence sentence, object? message)
    {
        string text = Encoding.Latin1.GetString(sentence.Text);
        if (_measurementsLeft == 0) Pieces.Add((Encoding.Latin1.GetString(sentence.TagText), text));
        // An XDR comes once for each of its measurements, four fields each, the last may be cut; it is one piece.
        if (message is Measured)
            _measurementsLeft = (_measurementsLeft == 0 ? (text.Count(c => c == ',') + 2) / 4 : _measurementsLeft) - 1;
        var tag = sentence.Tag;
        if (message is not null) Messages.Add(message);
        Accepted.Add(text);
        if (!sentence.Verified) Unverified.Add(text);
        Tags.Add((Encoding.Latin1.GetString(tag.Source), tag.Time));
        Calls.Add(string.Create(CultureInfo.InvariantCulture,
            $"{sentence.Heard.Ticks} {text} {Encoding.Latin1.GetString(sentence.TagText)} {message}"));
    }
}

/// <summary>One XDR measurement, kept.</summary>
public sealed record Measured(char Type, double? Value, char Unit, string Name);
