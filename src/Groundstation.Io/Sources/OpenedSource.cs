namespace Groundstation.Io.Sources;

/// <summary>
/// A source that is open. It has one pending read at most, which is never cancelled, because a cancelled serial read
/// can swallow bytes; disposing ends it.
/// </summary>
/// <param name="read">Reads into the buffer; 0 means the other end hung up.</param>
/// <param name="close">Closes it.</param>
/// <param name="gone">Says why it is no longer there, null while it is; asked in silence. Null: nothing to ask.</param>
/// <param name="bufferSize">Most bytes of one read.</param>
internal sealed class OpenedSource(Func<Memory<byte>, Task<int>> read, Action close, Func<string?>? gone = null,
    int bufferSize = 4096) : IDisposable
{
    // A port whose driver hangs in close must not hang the program with it.
    private static readonly TimeSpan _longestClose = TimeSpan.FromSeconds(2);

    // Not pooled: an abandoned read owns it until the source is closed.
    private readonly byte[] _buffer = new byte[bufferSize];
    private Task<int>? _pending;
    private byte[] _before = [];
    private bool _closed;

    /// <summary>How it was opened, for the screen; may be empty.</summary>
    public string Detail { get; set; } = "";

    /// <summary>True when its end is no loss: standard input.</summary>
    public bool EndsForGood { get; init; }

    /// <summary>Why it is no longer there; null while it is.</summary>
    public string? Gone() => gone?.Invoke();

    /// <summary>Puts bytes back that were read while it was being tried out: they are read first.</summary>
    public void PutBack(byte[] bytes) => _before = bytes;

    /// <summary>
    /// Reads what comes. Null when nothing has come for a while; empty at its end. The bytes are good until the next
    /// call.
    /// </summary>
    public async ValueTask<ReadOnlyMemory<byte>?> ReadAsync(TimeSpan quiet, TimeProvider time, CancellationToken stop)
    {
        if (_before.Length > 0)
        {
            ReadOnlyMemory<byte> before = _before;
            _before = [];
            return before;
        }

        _pending ??= read(_buffer);
        if (!_pending.IsCompleted)
        {
            using CancellationTokenSource enough = CancellationTokenSource.CreateLinkedTokenSource(stop);
            Task first = await Task.WhenAny(_pending, Task.Delay(quiet, time, enough.Token)).ConfigureAwait(false);
            await enough.CancelAsync().ConfigureAwait(false);
            if (first != _pending)
            {
                stop.ThrowIfCancellationRequested();
                return null;
            }
        }

        Task<int> done = _pending;
        _pending = null;
        return _buffer.AsMemory(0, await done.ConfigureAwait(false));
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (_closed)
            return;
        _closed = true;
        // The abandoned read ends in an exception that nobody waits for.
        _pending?.ContinueWith(static read => read.Exception, CancellationToken.None,
            TaskContinuationOptions.OnlyOnFaulted, TaskScheduler.Default);
        Task.Run(() =>
        {
            try
            {
                close();
            }
            catch (Exception e) when (SourceTrouble.Is(e))
            {
                // It is gone already: that is why it is being closed.
            }
        }).Wait(_longestClose);
    }
}
