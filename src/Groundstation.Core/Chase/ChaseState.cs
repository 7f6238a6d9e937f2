using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Chase;

/// <summary>How the chase stands at one moment.</summary>
public sealed record ChaseState
{
    /// <summary>The car's newest place.</summary>
    public required GeoPoint Position { get; init; }

    /// <summary>Age of that place, s.</summary>
    public required double AgeS { get; init; }

    /// <summary>True when the operator typed it, false when the car's own receiver gave it.</summary>
    public required bool Typed { get; init; }

    /// <summary>
    /// Mean speed over the ground in the last ten minutes, m/s; null until the car has been followed for a minute.
    /// </summary>
    public double? SpeedMps { get; init; }

    /// <summary>How fast it comes nearer to the landing estimate, m/s, negative when it goes away; null: not known.</summary>
    public double? ClosingMps { get; init; }

    /// <summary>Geodesic from the car to the landing estimate.</summary>
    public GeodesicLine? ToLanding { get; init; }

    /// <summary>Geodesic from the car to the balloon: where it is, or where it is expected in silence.</summary>
    public GeodesicLine? ToBalloon { get; init; }

    /// <summary>Geodesic from the car to the newest believed fix.</summary>
    public GeodesicLine? ToLastHeard { get; init; }

    /// <summary>Speed that <see cref="DriveS"/> counts with, m/s.</summary>
    public double CountedMps { get; init; }

    /// <summary>True when that is the plan's speed, because the car stands or its speed is not known.</summary>
    public bool SpeedFromPlan { get; init; }

    /// <summary>Drive to the landing estimate, s: the distance times the plan's road factor at that speed.</summary>
    public double? DriveS { get; init; }

    /// <summary>When the payload lands.</summary>
    public Instant? LandingUtc { get; init; }

    /// <summary>Time left after that drive until the landing, s, negative when it comes too late; null: it has landed.</summary>
    public double? MarginS { get; init; }
}
