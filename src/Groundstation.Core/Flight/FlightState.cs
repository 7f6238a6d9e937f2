using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Flight;

/// <summary>Phase of the flight. The lower-case names are what logs and screens show.</summary>
public enum Phase
{
    /// <summary>Before launch, standing.</summary>
    Pad,

    /// <summary>Climbing.</summary>
    Ascent,

    /// <summary>Neither climbing nor falling, at height.</summary>
    Float,

    /// <summary>Falling, from burst, cut-down or leak.</summary>
    Descent,

    /// <summary>Standing on the ground again.</summary>
    Landed,
}

/// <summary>A moment and place on the flight's way.</summary>
/// <param name="Utc">When.</param>
/// <param name="Position">Where.</param>
/// <param name="Height">How high.</param>
public readonly record struct Waypoint(Instant Utc, GeoPoint Position, HeightMsl Height);

/// <summary>A canopy that was seen to open more, tangle or tear on the way down.</summary>
/// <param name="Utc">When it was recognised: one to three minutes after it happened.</param>
/// <param name="BeforeMps">Rate of descent at sea level in the 1976 atmosphere before, m/s.</param>
/// <param name="AfterMps">The same after, as first known.</param>
public readonly record struct CanopyChange(Instant Utc, double BeforeMps, double AfterMps);

/// <summary>What is known of the flight, from believed fixes only.</summary>
public sealed record FlightState
{
    /// <summary>Phase; after silence the phase the model expects, see <see cref="PhaseHeard"/>.</summary>
    public Phase Phase { get; init; } = Phase.Pad;

    /// <summary>True when <see cref="Phase"/> follows from fixes; false when only the model says so, in silence.</summary>
    public bool PhaseHeard { get; init; } = true;

    /// <summary>Vertical rate, m/s, up positive, smoothed over about 15 s; null until two fixes are believed.</summary>
    public double? VerticalRateMps { get; init; }

    /// <summary>Standing place before launch: mean of the believed fixes on the pad, else the plan's, else the first fix.</summary>
    public Waypoint? Pad { get; init; }

    /// <summary>When and where the ascent began.</summary>
    public Waypoint? Launch { get; init; }

    /// <summary>Highest believed fix so far.</summary>
    public Waypoint? Highest { get; init; }

    /// <summary>Where the descent began: burst, cut-down or leak.</summary>
    public Waypoint? Burst { get; init; }

    /// <summary>
    /// True when the turn from climb to fall was heard; false when it was falling already when it was heard (again), so
    /// that <see cref="Burst"/> lies below the true burst.
    /// </summary>
    public bool BurstHeard { get; init; }

    /// <summary>Where it was recognised to stand after the flight.</summary>
    public Waypoint? Landed { get; init; }

    /// <summary>Newest believed fix.</summary>
    public Fix? Newest { get; init; }

    /// <summary>
    /// Estimated rate of descent at sea level in the 1976 atmosphere, m/s, from the live rate in the √ρ law, or from the
    /// plan before there is one.
    /// </summary>
    public double DescentRateSeaLevelMps { get; init; }

    /// <summary>One standard deviation of ln(<see cref="DescentRateSeaLevelMps"/>).</summary>
    public double DescentRateLnSigma { get; init; }

    /// <summary>True when <see cref="DescentRateSeaLevelMps"/> has been measured in this descent.</summary>
    public bool DescentRateMeasured { get; init; }

    /// <summary>The newest change of the canopy in this descent; null when none was seen.</summary>
    public CanopyChange? CanopyChanged { get; init; }
}
