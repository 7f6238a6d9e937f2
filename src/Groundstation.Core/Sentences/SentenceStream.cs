using System.Buffers;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Core.Sentences;

/// <summary>
/// Cuts one source's bytes into sentences, judges each, and hands it to a sink decoded. Allocates nothing per sentence.
/// <para>
/// A stretch ends at CR, LF, <c>$</c> or <c>!</c>, or at <see cref="LineCap"/> bytes; empty ones between CR and LF
/// vanish. So a sentence is given out at the first byte of its line end, or when the next one starts: its checksum's
/// digits alone are not the end of it, since <c>*</c> may stand in the data and three digits make no checksum. How the
/// bytes are cut into calls changes nothing but the arrival time, which is that of the call that completed the stretch.
/// </para>
/// <para>
/// Every byte is accounted for: it is part of a sentence or a rejection or of the TAG block in front of it, or it is a
/// line end or one of several <c>$</c> in a row (a receiver exists that always doubles it; that is one start, not a
/// fault).
/// </para>
/// </summary>
public sealed partial class SentenceStream
{
    /// <summary>
    /// The longest stretch without a line end or a start that is still looked at as one. The standard says 82;
    /// sentences of 205 bytes are seen. What exceeds the cap is rejected in pieces of this size.
    /// </summary>
    public const int LineCap = 1024;

    private static readonly SearchValues<byte> Delimiters = SearchValues.Create("\r\n$!"u8);

    private readonly SourceId _source;
    private readonly bool _allowNoChecksum;
    private byte[] _pending = new byte[LineCap];
    private byte[] _tag = new byte[LineCap];
    private ushort[] _commas = new ushort[SentenceScan.CommaRoom];
    private int _pendingLength;
    private int _tagLength;
    private bool _cut; // the stretch went over the cap; what follows is the rest of it
    private bool _lineStart = true;
    private bool _comment; // the line began with #, as the notes in receivers' logs do

    /// <summary>A stream at its beginning.</summary>
    /// <param name="source">The source, as it shall stand in every sentence and rejection.</param>
    /// <param name="allowNoChecksum">Whether sentences without a checksum are accepted, marked as not verified.</param>
    public SentenceStream(SourceId source, bool allowNoChecksum)
    {
        _source = source;
        _allowNoChecksum = allowNoChecksum;
    }

    /// <summary>Takes bytes as they arrive, cut anywhere, and calls the sink for all that they complete.</summary>
    /// <param name="heard">Their arrival time.</param>
    /// <param name="bytes">The bytes; not kept.</param>
    /// <param name="sink">Called synchronously; must not call back into this stream.</param>
    public void Push<TSink>(Instant heard, ReadOnlySpan<byte> bytes, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        while (!bytes.IsEmpty)
        {
            bool open = _pendingLength > 0 || _cut;
            if (!open)
            {
                if (bytes[0] is (byte)'\r' or (byte)'\n')
                {
                    EndLine();
                    bytes = bytes[1..];
                    continue;
                }

                if (bytes[0] is (byte)'$' or (byte)'!')
                {
                    var scan = SentenceScan.Over(bytes, _commas);
                    if (scan.Ended && scan.Length <= LineCap)
                    {
                        Judge(heard, bytes[..scan.Length], scan, EndOf(bytes[scan.Length]), ref sink);
                        bytes = bytes[scan.Length..];
                        continue;
                    }
                }
            }

            bytes = bytes[PushPiece(heard, bytes, open, ref sink)..];
        }
    }

    /// <summary>
    /// The source fell silent for good (link lost, end of a recording): what is pending is judged as it stands. A whole
    /// sentence that only lacks its line end is accepted, a stump is rejected as truncated.
    /// </summary>
    public void Flush<TSink>(Instant heard, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        if (_pendingLength > 0) CompletePending(heard, Ending.Silence, ref sink);
        _cut = false;
        EndLine();
    }

    /// <summary>The general way for a stretch that spans calls, is no sentence, or is too long.</summary>
    /// <returns>How many bytes were taken.</returns>
    private int PushPiece<TSink>(Instant heard, ReadOnlySpan<byte> bytes, bool open, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        int own = open ? 0 : 1; // the first byte of a new stretch is its own, be it a start delimiter
        int found = bytes[own..].IndexOfAny(Delimiters);
        int end = found < 0 ? bytes.Length : found + own;
        int room = LineCap - _pendingLength;
        if (end > room)
        {
            bytes[..room].CopyTo(_pending.AsSpan(_pendingLength));
            bool sentence = !_cut && _pending[0] is (byte)'$' or (byte)'!';
            Reject(heard, _pending, sentence ? RejectReason.TooLong : RejectReason.NotASentence, ref sink);
            _pendingLength = 0;
            _tagLength = 0;
            _cut = true;
            _lineStart = false;
            return room;
        }

        bytes[..end].CopyTo(_pending.AsSpan(_pendingLength));
        _pendingLength += end;
        if (found < 0) return end;
        CompletePending(heard, EndOf(bytes[end]), ref sink);
        return end;
    }

    private void CompletePending<TSink>(Instant heard, Ending ending, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        var piece = _pending.AsSpan(0, _pendingLength);
        bool wasCut = _cut;
        _pendingLength = 0;
        _cut = false;
        if (piece.IsEmpty) return;
        if (!wasCut && piece[0] is (byte)'$' or (byte)'!')
        {
            Judge(heard, piece, SentenceScan.Over(piece, _commas), ending, ref sink);
            return;
        }

        if (_lineStart && !wasCut) _comment = piece[0] == (byte)'#';
        _lineStart = false;
        if (ending == Ending.NextStart) Prefix(heard, piece, ref sink);
        else Reject(heard, piece, RejectReason.NotASentence, ref sink);
    }

    /// <summary>
    /// What stands in front of a start delimiter: TAG blocks, noise, or noise and then TAG blocks. The block nearest to
    /// the sentence is the sentence's own; one farther off, from a relay, is checked and let go.
    /// </summary>
    private void Prefix<TSink>(Instant heard, ReadOnlySpan<byte> piece, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct
    {
        if (piece.IsEmpty) return;
        int open = piece[^1] == (byte)'\\' ? piece[..^1].LastIndexOf((byte)'\\') : -1;
        if (open < 0)
        {
            bool damaged = piece[0] == (byte)'\\';
            Reject(heard, piece, damaged ? RejectReason.TagBlock : RejectReason.NotASentence, ref sink);
            return;
        }

        Prefix(heard, piece[..open], ref sink);
        var block = piece[(open + 1)..^1];
        _tagLength = 0;
        if (!TagBlock.TryParse(block, out _))
        {
            Reject(heard, piece[open..], RejectReason.TagBlock, ref sink);
            return;
        }

        block.CopyTo(_tag);
        _tagLength = block.Length;
    }

    private void Reject<TSink>(Instant heard, ReadOnlySpan<byte> bytes, RejectReason reason, ref TSink sink)
        where TSink : ISentenceSink, allows ref struct =>
        sink.Rejected(new Rejection
        {
            Source = _source,
            Heard = heard,
            Bytes = bytes,
            Reason = _comment ? RejectReason.NotASentence : reason,
            TagText = _tag.AsSpan(0, _tagLength),
        });

    private void EndLine()
    {
        _lineStart = true;
        _comment = false;
        _tagLength = 0;
    }

    private static Ending EndOf(byte delimiter) =>
        delimiter is (byte)'\r' or (byte)'\n' ? Ending.Line : Ending.NextStart;

    /// <summary>What ended a stretch.</summary>
    private enum Ending
    {
        Line,
        NextStart,
        Silence,
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal SentenceStream Copy()
    {
        var copy = (SentenceStream)MemberwiseClone();
        copy._pending = [.. _pending];
        copy._tag = [.. _tag];
        copy._commas = [.. _commas];
        return copy;
    }
}
