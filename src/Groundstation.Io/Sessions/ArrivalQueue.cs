using System.Buffers;
using System.Collections.Concurrent;
using Groundstation.Core;
using Groundstation.Core.Receive;
using Groundstation.Io.Sources;

namespace Groundstation.Io.Sessions;

/// <summary>
/// Where the threads of the sources and the screen hand over to the station's: one queue, in the order of arrival, each
/// thing stamped as it comes. When the station lags behind, a source is made to wait; nothing is thrown away.
/// </summary>
internal sealed class ArrivalQueue : ISourceSink, IDisposable
{
    // Chunks of at most 64 kB, usually a line each: minutes of a busy receiver.
    private const int Length = 4096;

    private readonly BlockingCollection<Incoming> _waiting = new(Length);
    private readonly CancellationTokenSource _closing = new();

    /// <summary>Gives the stamps. To be set before the first source runs.</summary>
    public HostClock? Clock { get; set; }

    // The screen must not wait for room in the queue, nor may an act be lost: when it is full, acts wait here.
    private readonly ConcurrentQueue<OperatorAct> _acts = new();

    /// <summary>True when nothing waits.</summary>
    public bool IsEmpty => _waiting.Count == 0 && _acts.IsEmpty;

    /// <summary>Cancelled when nothing more is to come.</summary>
    public CancellationToken Closing => _closing.Token;

    /// <summary>Nothing more is to come; who waits for room gives up.</summary>
    public void Close() => _closing.Cancel();

    /// <inheritdoc/>
    public void Bytes(SourceId source, ReadOnlySpan<byte> bytes)
    {
        byte[] copy = ArrayPool<byte>.Shared.Rent(bytes.Length);
        bytes.CopyTo(copy);
        _waiting.Add(new Incoming(source, Clock!.Now) { Bytes = copy, Count = bytes.Length }, Closing);
    }

    /// <inheritdoc/>
    public void Link(SourceId source, LinkState state, string why) =>
        _waiting.Add(new Incoming(source, Clock!.Now) { State = state, Why = why }, Closing);

    /// <summary>Something the operator did. After the end it goes nowhere.</summary>
    public void Act(OperatorAct act)
    {
        if (!_closing.IsCancellationRequested && !_waiting.TryAdd(new Incoming(default, default) { Act = act }))
            _acts.Enqueue(act);
    }

    /// <summary>Takes the next thing, waiting for it at most so long.</summary>
    /// <exception cref="OperationCanceledException">Stopped.</exception>
    public bool TryTake(out Incoming next, int milliseconds, CancellationToken stop) =>
        TryTakeAct(out next) || _waiting.TryTake(out next, milliseconds, stop);

    /// <summary>Takes the next thing if there is one.</summary>
    public bool TryTake(out Incoming next) => TryTakeAct(out next) || _waiting.TryTake(out next);

    /// <summary>Gives back the array of bytes that have been worked through.</summary>
    public static void Return(byte[] bytes) => ArrayPool<byte>.Shared.Return(bytes);

    // Not disposed: a source that was left behind in a port that hangs may still reach for the queue and its end.
    /// <inheritdoc/>
    public void Dispose() => _closing.Cancel();

    private bool TryTakeAct(out Incoming next)
    {
        bool any = _acts.TryDequeue(out OperatorAct? act);
        next = new Incoming(default, default) { Act = act };
        return any;
    }
}
