using Groundstation.Core;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Recordings;

namespace Groundstation.Io.Sessions;

/// <summary>
/// One thing that came to a live session, in the order of its queue: bytes, a link's change or an act.
/// </summary>
/// <param name="Source">From which source; none for an act.</param>
/// <param name="At">When it came.</param>
internal readonly record struct Incoming(SourceId Source, Instant At)
{
    /// <summary>Bytes, in a pooled array; null when it is something else.</summary>
    public byte[]? Bytes { get; init; }

    /// <summary>How many of them.</summary>
    public int Count { get; init; }

    /// <summary>The link's state.</summary>
    public LinkState State { get; init; }

    /// <summary>The link's cause.</summary>
    public string? Why { get; init; }

    /// <summary>What the operator did; null when it is something else.</summary>
    public OperatorAct? Act { get; init; }
}

/// <summary>
/// The line of one source that is being received, and when it has to be recorded although it has no end yet.
/// </summary>
/// <param name="id">Which source.</param>
internal sealed class SourceLine(SourceId id)
{
    /// <summary>
    /// Half a second without a byte, or nearly a second since its first: a stretch is recorded as it is. So whatever
    /// came more than a second before a kill is in the recording, even from a sender that never ends a line.
    /// </summary>
    private static readonly TimeSpan _idle = TimeSpan.FromMilliseconds(500), _oldest = TimeSpan.FromMilliseconds(900);

    private readonly LineAssembler _assembler = new();
    private Instant _first;
    private Instant _last;

    /// <summary>Which source.</summary>
    public SourceId Id => id;

    /// <summary>When what waits is due without its line end; null when nothing waits.</summary>
    public Instant? Due => !_assembler.Pending ? null
        : _last + _idle < _first + _oldest ? _last + _idle : _first + _oldest;

    /// <summary>As <see cref="LineAssembler.Take"/>, with the time at which the bytes came.</summary>
    public int Take(ReadOnlySpan<byte> chunk, Instant at, out ReadOnlyMemory<byte> piece)
    {
        if (!_assembler.Pending)
            _first = at;
        _last = at;
        return _assembler.Take(chunk, out piece);
    }

    /// <summary>As <see cref="LineAssembler.TryFlush"/>.</summary>
    public bool TryFlush(out ReadOnlyMemory<byte> piece) => _assembler.TryFlush(out piece);
}
