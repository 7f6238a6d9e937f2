using Groundstation.Core.Quantities;

namespace Groundstation.Core.Fixes;

/// <summary>
/// Recognises a receiver that sends several epochs a second and prints whole seconds: the same UTC again and again, yet
/// its clock runs. One epoch a second is taken from it, the first, whose place is that of the second's beginning; to
/// spread the others over the second would invent times that the receiver has not said. A clock that stands still is
/// none of this: its UTC never comes to the next second.
/// </summary>
internal sealed class WholeSeconds
{
    // Until two seconds have gone by like that, a repeated UTC is held for a frozen one.
    private const int Enough = 2;

    // Repeats at 1 Hz or slower are a clock that stands.
    private const double WithinS = 0.95;

    private Instant _utc;
    private Instant _first;
    private int _repeats;
    private int _seconds;

    /// <summary>An epoch with another UTC than the one before.</summary>
    public void Another(Fix fix)
    {
        bool next = fix.Utc - _utc == TimeSpan.FromSeconds(1);
        _seconds = next && _repeats > 0 ? Math.Min(_seconds + 1, Enough) : 0;
        (_utc, _first, _repeats) = (fix.Utc, fix.Heard, 0);
    }

    /// <summary>An epoch with the UTC of the one before: true when it is one more within that second.</summary>
    public bool Again(Fix fix)
    {
        _repeats++;
        return _seconds == Enough && fix.Utc.Ticks % TimeSpan.TicksPerSecond == 0
            && fix.Heard.SecondsSince(_first) < WithinS;
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public WholeSeconds Copy() => (WholeSeconds)MemberwiseClone();
}
