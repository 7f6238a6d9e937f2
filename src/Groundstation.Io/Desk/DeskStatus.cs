using Groundstation.Core.Quantities;

namespace Groundstation.Io.Desk;

/// <summary>How a training desk stands. It tells nothing of what is still to come, not even how much.</summary>
public sealed record DeskStatus
{
    /// <summary>Times as fast as it was; null: as fast as it goes.</summary>
    public double? Rate { get; init; }

    /// <summary>Stands still.</summary>
    public bool Paused { get; init; }

    /// <summary>True when the recording's last event has been worked through.</summary>
    public bool Ended { get; init; }

    /// <summary>Begin of the loop, arrival time; null: none is marked.</summary>
    public Instant? LoopFrom { get; init; }

    /// <summary>End of the loop, arrival time; null: not marked yet.</summary>
    public Instant? LoopTo { get; init; }

    /// <summary>What became of the newest jump, in words; empty when there is nothing to say.</summary>
    public string Said { get; init; } = "";

    /// <summary>The debrief as made last; empty before.</summary>
    public System.Collections.Immutable.ImmutableArray<string> Debrief { get; init; } = [];

    /// <summary>Jumps so far.</summary>
    public int Jumps { get; init; }
}
