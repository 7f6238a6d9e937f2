namespace Groundstation.Console.Feeds;

/// <summary>A session's own thread: everything the station does happens on it, never on the screen's.</summary>
internal sealed class SessionThread : IDisposable
{
    private readonly CancellationTokenSource _stop = new();
    private readonly Thread _thread;
    private Exception? _broken;

    /// <summary>Starts the work; it ends when its token is cancelled.</summary>
    public SessionThread(Action<CancellationToken> work)
    {
        _thread = new Thread(() =>
        {
#pragma warning disable CA1031 // Whatever ends the session is told after the terminal is back: see Broken.
            try
            {
                work(_stop.Token);
            }
            catch (Exception e)
            {
                Volatile.Write(ref _broken, e);
            }
#pragma warning restore CA1031
        })
        { Name = "station", IsBackground = true };
        _thread.Start();
    }

    /// <summary>What ended the work by force; null while all is well.</summary>
    public Exception? Broken => Volatile.Read(ref _broken);

    /// <summary>Asks the work to end.</summary>
    public void Stop() => _stop.Cancel();

    /// <summary>Waits for the work to end by itself or because it was asked to.</summary>
    public void Wait() => _thread.Join();

    /// <inheritdoc/>
    public void Dispose()
    {
        Stop();
        Wait();
        _stop.Dispose();
    }
}
