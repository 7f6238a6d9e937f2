using System.Collections.Immutable;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;

namespace Groundstation.Core.Fixes;

/// <summary>How well one source is heard, over the last minute of arrival time unless said otherwise.</summary>
public sealed record ReceiverHealth
{
    /// <summary>Which source.</summary>
    public required SourceId Source { get; init; }

    /// <summary>Accepted sentences a second.</summary>
    public double SentencesPerSecond { get; init; }

    /// <summary>Epochs a second, believed or not.</summary>
    public double FixesPerSecond { get; init; }

    /// <summary>Share of lines rejected, 0–1.</summary>
    public double RejectedShare { get; init; }

    /// <summary>Accepted sentences since start.</summary>
    public long Accepted { get; init; }

    /// <summary>Rejected stretches since start, by reason.</summary>
    public required ImmutableArray<KeyValuePair<RejectReason, long>> Rejected { get; init; }

    /// <summary>A line fault that the bytes point to ("wrong baud rate?", "parity or 8th bit?"), else empty.</summary>
    public string LineFault { get; init; } = "";

    /// <summary>Satellites used in the newest epoch.</summary>
    public int? SatellitesUsed { get; init; }

    /// <summary>Satellites in view with their signal strength, strongest first.</summary>
    public required ImmutableArray<SatelliteInView> InView { get; init; }

    /// <summary>Arrival time of the first byte.</summary>
    public Instant? FirstByte { get; init; }

    /// <summary>Arrival time of the newest byte.</summary>
    public Instant? LastByte { get; init; }

    /// <summary>Arrival time of the newest believed fix.</summary>
    public Instant? LastBelieved { get; init; }

    /// <summary>Fixes believed since start.</summary>
    public long Believed { get; init; }

    /// <summary>Fixes refused since start.</summary>
    public long Refused { get; init; }
}
