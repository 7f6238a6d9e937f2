using Groundstation.Core.Quantities;

namespace Groundstation.Core.Sentences;

/// <content>The verdict on one stretch that begins with <c>$</c> or <c>!</c>.</content>
public sealed partial class SentenceStream
{
    private void Judge<TSink>(Instant heard, ReadOnlySpan<byte> text, SentenceScan scan, Ending ending, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        _lineStart = false;
        if (text.Length == 1 && ending == Ending.NextStart) return; // $$: one start, and its TAG block stays with it
        if (scan.BadByte)
        {
            JudgeWithBadByte(heard, text, ref sink);
        }
        else
        {
            var reason = Accept(heard, text, scan, ending, ref sink);
            if (reason is { } why) Reject(heard, text, why, ref sink);
        }

        _tagLength = 0;
    }

    /// <summary>
    /// A byte outside printable ASCII: the stretch is bad, unless a whole sentence stands in front of the first such
    /// byte. That is a receiver whose line end was lost in noise; the sentence is good and the rest is noise.
    /// </summary>
    private void JudgeWithBadByte<TSink>(Instant heard, ReadOnlySpan<byte> text, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        int bad = text.IndexOfAnyExceptInRange((byte)0x20, (byte)0x7E);
        var head = text[..bad];
        if (head.Length > 3 && head[^3] == (byte)'*')
        {
            var scan = SentenceScan.Over(head, _commas);
            if (Accept(heard, head, scan, Ending.Silence, ref sink) is null)
            {
                _tagLength = 0;
                Reject(heard, text[bad..], RejectReason.NotASentence, ref sink);
                return;
            }
        }

        Reject(heard, text, RejectReason.BadByte, ref sink);
    }

    /// <summary>Checks and decodes a stretch of printable ASCII.</summary>
    /// <returns>Null when the sink has it, else the reason against it.</returns>
    private RejectReason? Accept<TSink>(Instant heard, ReadOnlySpan<byte> text, in SentenceScan scan, Ending ending,
        ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        // Without a line end behind it, whatever is not whole has been cut off by what came next.
        bool cutOff = ending != Ending.Line;
        int digits = scan.Star < 0 ? -1 : text.Length - scan.Star - 1;
        bool verified = digits > 0;
        int bodyEnd = scan.Star < 0 ? text.Length : scan.Star;
        if (verified)
        {
            int told = Checksum.Read(text[(scan.Star + 1)..]);
            if (told < 0)
                return cutOff && digits == 1 ? RejectReason.Truncated : RejectReason.MalformedChecksum;
            // The scan's XOR covers the star and the two digits as well; they are taken out again here.
            if (told != (scan.Xor ^ '*' ^ text[^2] ^ text[^1])) return RejectReason.Checksum;
        }
        else if (cutOff)
        {
            return RejectReason.Truncated;
        }

        int addressEnd = scan.Commas > 0 ? _commas[0] : bodyEnd;
        var address = text[1..addressEnd];
        if (!IsAddress(address)) return verified ? RejectReason.BadAddress : RejectReason.NoChecksum;
        _commas[scan.Commas] = (ushort)bodyEnd;
        var sentence = new Sentence
        {
            Source = _source,
            Heard = heard,
            Text = text,
            Address = address,
            Verified = verified,
            TagText = _tag.AsSpan(0, _tagLength),
        };
        var fields = new FieldReader(text, _commas.AsSpan(0, scan.Commas + 1));
        if (verified) return SentenceDecoder.Decode(sentence, fields, ref sink);

        // A line that stops short of the fields its type must have was cut off; only a whole one lacks its checksum.
        if (scan.Star < 0 && SentenceDecoder.IsCutShort(sentence, fields)) return RejectReason.Truncated;
        return _allowNoChecksum && !_comment
            ? SentenceDecoder.Decode(sentence, fields, ref sink)
            : RejectReason.NoChecksum;
    }

    /// <summary>
    /// Talker and formatter are capital letters and digits, five of them; makers use three to eight as well. A
    /// proprietary address is P and a maker's three letters, and then anything up to the comma.
    /// </summary>
    private static bool IsAddress(ReadOnlySpan<byte> address)
    {
        if (address.Length < 3 || address[0] is < (byte)'A' or > (byte)'Z') return false;
        var strict = address[0] == (byte)'P' && address.Length > 4 ? address[..4] : address;
        int wrong = 0;
        foreach (byte b in strict)
        {
            bool letter = (uint)(b - 'A') <= 'Z' - 'A';
            bool digit = (uint)(b - '0') <= 9;
            wrong |= letter | digit ? 0 : 1;
        }

        return wrong == 0 && strict.Length <= 15;
    }
}
