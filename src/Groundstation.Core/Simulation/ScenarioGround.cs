using System.Collections.Immutable;
using Groundstation.Core.Earth;

namespace Groundstation.Core.Simulation;

/// <summary>A place on the chase car's way.</summary>
/// <param name="AtS">When it is there, s after launch.</param>
/// <param name="Position">Where.</param>
public readonly record struct ChasePoint(double AtS, GeoPoint Position);

/// <summary>Room on the laptop's disk.</summary>
/// <param name="FromS">From when on, s after launch.</param>
/// <param name="FreeMb">How much, MB (10⁶ bytes); 0: nothing can be written.</param>
public readonly record struct DiskRoom(double FromS, double FreeMb);

/// <summary>What happens on the ground while the balloon flies.</summary>
public sealed record SimulatedGround
{
    /// <summary>The chase car's way, in straight lines at even speed from place to place; empty: there is no car.</summary>
    public ImmutableArray<ChasePoint> Chase { get; init; } = [];

    /// <summary>Times in which the chase car's receiver is unplugged, earliest first, not overlapping.</summary>
    public ImmutableArray<LinkGap> ChaseGaps { get; init; } = [];

    /// <summary>Room on the disk, earliest first; empty: plenty.</summary>
    public ImmutableArray<DiskRoom> Disk { get; init; } = [];
}
