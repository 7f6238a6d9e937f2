using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Callouts;

/// <summary>What a callout is made from.</summary>
/// <param name="Utc">Station time.</param>
/// <param name="Flight">The flight.</param>
/// <param name="Landing">The landing estimate.</param>
/// <param name="Silent">True while an alarm says that nothing believed is heard; it stands some seconds longer.</param>
/// <param name="Chase">The chase car's newest place; null: not known.</param>
/// <param name="Pad">The launch place; null: not known.</param>
public sealed record CalloutScene(Instant Utc, FlightState Flight, LandingEstimate Landing, bool Silent,
    Waypoint? Chase, GeoPoint? Pad)
{
    // In ten minutes a car is anywhere within ten kilometres.
    private const double FreshS = 600;

    // The alarms of a silence return five seconds after it has ended.
    private const double AlarmReturnsS = 6;

    /// <summary>What is heard of the tracker, with a believed fix or without.</summary>
    public Contact Contact { get; init; }

    /// <summary>Time since the tracker's last sign of life, s; null: there was none.</summary>
    public double? SilentS { get; init; }

    /// <summary>Altitude limit of its receiver, while it is heard and that explains why there is no fix; else null.</summary>
    public HeightMsl? Limit { get; init; }

    /// <summary>The launch as the operator marked it, while no fix tells of it; else null.</summary>
    public Instant? Marked { get; init; }

    /// <summary>Age of the newest believed fix, s. In silence an estimate is made every ten seconds only.</summary>
    public double AgeS => Landing.HeardAgeS + Math.Max(0, Utc.SecondsSince(Landing.Utc));

    /// <summary>True when this is the first call after one that said it is not heard.</summary>
    public bool Back { get; init; }

    /// <summary>True when no fix was ever believed: the landing is the planned flight's.</summary>
    public bool Planned => Landing.Method == LandingMethod.Planned;

    /// <summary>True in the first seconds after a silence.</summary>
    public bool HeardAgain => Silent && !Planned && Landing.HeardAgeS < AlarmReturnsS;

    /// <summary>True while no believed fix comes.</summary>
    public bool Unheard => (Silent || Marked is not null) && !HeardAgain;

    /// <summary>Where bearings start, and what it is called: the chase car, else the launch place.</summary>
    public (GeoPoint At, string Name)? From => Chase is { } car ? (car.Position, Stale ? "your last place" : "you")
        : Pad is { } pad ? (pad, "launch") : null;

    /// <summary>True when the chase car has not told its place for ten minutes.</summary>
    public bool Stale => Chase is { } car && Utc.SecondsSince(car.Utc) > FreshS;

    /// <summary>True when it was heard to stand on the ground.</summary>
    public bool HasLanded => Flight is { Phase: Phase.Landed, PhaseHeard: true };
}
