using Groundstation.Core.Quantities;

namespace Groundstation.Io.Recordings;

/// <summary>
/// Arrival time as the stamps of a recording's lines give it. It never goes back, nor on by more than a year: such a
/// stamp is a damaged one, not a flight, and the station would work through every second of it.
/// </summary>
/// <param name="start">Where it stands before the first line.</param>
internal struct StampedTime(Instant start)
{
    private static readonly TimeSpan _farthest = TimeSpan.FromDays(366);

    private bool _started, _stamped;

    /// <summary>The time of the newest line.</summary>
    public Instant Now { get; private set; } = start;

    /// <summary>
    /// A line with a stamp, UNIX milliseconds, or with none. The first stamp is believed as it is, but for going back.
    /// </summary>
    public void Take(long? unixMilliseconds)
    {
        if (unixMilliseconds is { } ms && Instant.FromUnixMilliseconds(ms) is var at
            && (!_started || (at > Now && (!_stamped || at - Now < _farthest))))
            Now = at;
        _started = true;
        _stamped |= unixMilliseconds is not null;
    }

    /// <summary>A line whose time something else tells.</summary>
    public void Take(Instant at)
    {
        Now = Instant.Later(Now, at);
        _started = true;
    }
}
