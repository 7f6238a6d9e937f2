using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Core.Sentences;

/// <summary>
/// An accepted sentence: framed, checksum good, fields in their grammar. A view of the receive buffer, gone when the
/// sink returns; nothing is allocated for it.
/// </summary>
public readonly ref struct Sentence
{
    /// <summary>Where it came from.</summary>
    public required SourceId Source { get; init; }

    /// <summary>Arrival time of its last byte.</summary>
    public required Instant Heard { get; init; }

    /// <summary>From <c>$</c> or <c>!</c> to the checksum's last digit, without line end and TAG block.</summary>
    public required ReadOnlySpan<byte> Text { get; init; }

    /// <summary>
    /// Address field without <c>$</c>: talker and formatter (<c>GNGGA</c>), or a proprietary one (<c>PUBX</c>).
    /// </summary>
    public required ReadOnlySpan<byte> Address { get; init; }

    /// <summary>False when it came without a checksum and the setting allows that.</summary>
    public required bool Verified { get; init; }

    /// <summary>
    /// The TAG block in front of it, between its backslashes, checksum already found good; empty without one.
    /// </summary>
    public ReadOnlySpan<byte> TagText { get; init; }

    /// <summary>What the TAG block says; all empty without one. Parsed at each call.</summary>
    public TagBlock Tag => TagBlock.TryParse(TagText, out var tag) ? tag : default;
}

/// <summary>Why a line, or a stump of one, is no sentence. The word is what logs and screens show.</summary>
public enum RejectReason
{
    /// <summary>The checksum does not match.</summary>
    Checksum,

    /// <summary>No checksum, and the setting asks for one.</summary>
    NoChecksum,

    /// <summary>The checksum is not exactly two hexadecimal digits.</summary>
    MalformedChecksum,

    /// <summary>Cut off: the next sentence or a line end came too early.</summary>
    Truncated,

    /// <summary>A byte outside printable ASCII in it.</summary>
    BadByte,

    /// <summary>Longer than the line cap.</summary>
    TooLong,

    /// <summary>The address field is no talker and formatter.</summary>
    BadAddress,

    /// <summary>Number of fields wrong for its type.</summary>
    FieldCount,

    /// <summary>A field breaks its grammar or range.</summary>
    FieldGrammar,

    /// <summary>The TAG block in front is damaged; the sentence behind it is judged for itself.</summary>
    TagBlock,

    /// <summary>Bytes that are no sentence: noise, binary, text.</summary>
    NotASentence,
}

/// <summary>One rejected stretch of bytes; a view of the receive buffer.</summary>
public readonly ref struct Rejection
{
    /// <summary>Where it came from.</summary>
    public required SourceId Source { get; init; }

    /// <summary>Arrival time of its last byte.</summary>
    public required Instant Heard { get; init; }

    /// <summary>The bytes, as they came.</summary>
    public required ReadOnlySpan<byte> Bytes { get; init; }

    /// <summary>The one reason.</summary>
    public required RejectReason Reason { get; init; }

    /// <summary>The undamaged TAG block in front of it, between its backslashes; empty without one.</summary>
    public ReadOnlySpan<byte> TagText { get; init; }
}
