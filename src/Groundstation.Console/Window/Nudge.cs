namespace Groundstation.Console.Window;

/// <summary>Wakes the screen's thread when another thread has news; never blocks that one, and needs no closing.</summary>
internal sealed class Nudge
{
    private readonly object _gate = new();
    private bool _given;

    /// <summary>There is news.</summary>
    public void Give()
    {
        lock (_gate)
        {
            _given = true;
            Monitor.Pulse(_gate);
        }
    }

    /// <summary>Waits for news since the last wait, but not longer than this.</summary>
    public void Await(TimeSpan longest)
    {
        lock (_gate)
        {
            if (!_given) Monitor.Wait(_gate, longest);
            _given = false;
        }
    }
}
