using System.Collections.Immutable;
using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Simulation;

/// <summary>
/// Everything that a simulated flight follows from: the same scenario gives the same flight. The defaults are an
/// ordinary small flight in still air, with a receiver's and a radio's ordinary blemishes left out.
/// </summary>
public sealed record Scenario
{
    /// <summary>Name of the flight.</summary>
    public string Name { get; init; } = "simulated flight";

    /// <summary>Seed of all draws. Wind, gusts, receiver, telemetry and radio have streams of their own.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>When the balloon is let go.</summary>
    public required Instant LaunchUtc { get; init; }

    /// <summary>Where it is let go.</summary>
    public required GeoPoint LaunchSite { get; init; }

    /// <summary>How high that is. With a burst height no higher the payload drops at once, from rest.</summary>
    public HeightMsl LaunchHeight { get; init; }

    /// <summary>Height of the ground wherever it comes down.</summary>
    public HeightMsl LandingGround { get; init; }

    /// <summary>Time on the pad before launch, s.</summary>
    public double PadS { get; init; } = 120;

    /// <summary>Time that goes on after the landing, s.</summary>
    public double AfterLandingS { get; init; } = 300;

    /// <summary>The balloon.</summary>
    public SimulatedBalloon Balloon { get; init; } = new();

    /// <summary>What it comes down under.</summary>
    public SimulatedParachute Parachute { get; init; } = new();

    /// <summary>The air.</summary>
    public SimulatedAir Air { get; init; } = new();

    /// <summary>The tracker's satellite receiver.</summary>
    public SimulatedReceiver Receiver { get; init; } = new();

    /// <summary>The payload's sensors.</summary>
    public SimulatedSensors Sensors { get; init; } = new();

    /// <summary>The radio way to the ground.</summary>
    public SimulatedRadio Radio { get; init; } = new();

    /// <summary>What happens on the ground.</summary>
    public SimulatedGround Ground { get; init; } = new();
}

/// <summary>The balloon, until it lets go.</summary>
public sealed record SimulatedBalloon
{
    /// <summary>Ascent rate at sea level, m/s.</summary>
    public double AscentRateMps { get; init; } = 5;

    /// <summary>
    /// k in v = v₀·(ρ₀/ρ)^k: 0 keeps the rate; 1/6 is a sphere that keeps its lift and drag coefficient while it grows.
    /// </summary>
    public double AscentExponent { get; init; }

    /// <summary>Burst height.</summary>
    public HeightMsl BurstHeight { get; init; } = new(30_000);

    /// <summary>Height at which it levels off; null: it does not.</summary>
    public HeightMsl? FloatHeight { get; init; }

    /// <summary>How long it floats before the payload is let go, s.</summary>
    public double FloatS { get; init; } = 1800;

    /// <summary>Height at which it begins to leak; null: it does not.</summary>
    public HeightMsl? LeakHeight { get; init; }

    /// <summary>What the leak takes from the ascent rate, m/s a minute; the rate turns negative in time.</summary>
    public double LeakMpsPerMin { get; init; } = 0.2;

    /// <summary>Time after launch at which the line is cut, s; null: it is not.</summary>
    public double? CutDownS { get; init; }

    /// <summary>Swing of the payload below it, rms of each direction, degrees.</summary>
    public double SwingDeg { get; init; }
}

/// <summary>Parachute and what hangs under it.</summary>
public sealed record SimulatedParachute
{
    /// <summary>Mass of all that comes down, kg.</summary>
    public double MassKg { get; init; } = 1.5;

    /// <summary>Drag area Cd·S, m².</summary>
    public double DragAreaM2 { get; init; } = 0.96;

    /// <summary>Height on the way down at which lines tangle; null: they do not.</summary>
    public HeightMsl? TangledHeight { get; init; }

    /// <summary>Share of the drag area that a tangled canopy keeps.</summary>
    public double TangledShare { get; init; } = 0.4;

    /// <summary>Swing of the payload below it, rms of each direction, degrees.</summary>
    public double SwingDeg { get; init; }

    /// <summary>Length from the canopy, or the balloon, to the tracker, m: the swing's pendulum.</summary>
    public double LineM { get; init; } = 8;

    /// <summary>Rate of descent at sea level of the 1976 atmosphere, m/s: √(2·m·g₀/(ρ₀·CdS)).</summary>
    public double SeaLevelRateMps => RateMps(MassKg, DragAreaM2);

    /// <summary>The drag area that gives a rate of descent at sea level, m².</summary>
    public static double DragAreaFor(double massKg, double seaLevelRateMps) =>
        2 * massKg * Air.AtmosphereProfile.StandardGravity
        / (Air.StandardAtmosphere.SeaLevelDensityKgM3 * seaLevelRateMps * seaLevelRateMps);

    private static double RateMps(double massKg, double dragAreaM2) => Math.Sqrt(
        2 * massKg * Air.AtmosphereProfile.StandardGravity
        / (Air.StandardAtmosphere.SeaLevelDensityKgM3 * dragAreaM2));
}

/// <summary>Wind at one height. Between heights both components are linear; beyond the last they stay.</summary>
/// <param name="Height">Height.</param>
/// <param name="Wind">Velocity of the air there, at the time of launch and before anything random is added.</param>
public readonly record struct WindLevel(HeightMsl Height, Air.WindVector Wind);

/// <summary>The air: its state and how it moves.</summary>
public sealed record SimulatedAir
{
    /// <summary>Temperature off the 1976 standard at all heights, K.</summary>
    public double TemperatureOffsetK { get; init; }

    /// <summary>Pressure at mean sea level, Pa.</summary>
    public double SeaLevelPressurePa { get; init; } = 101_325;

    /// <summary>Mean winds, lowest first; none: still air.</summary>
    public ImmutableArray<WindLevel> Winds { get; init; } = [];

    /// <summary>
    /// Standard deviation of each wind component's slow change, m/s. The change is a stationary Gaussian field over
    /// height and time with correlation exp(−Δz/<see cref="ChangeHeightM"/>)·exp(−Δt/<see cref="ChangeS"/>).
    /// </summary>
    public double ChangeMps { get; init; }

    /// <summary>Its correlation height, m.</summary>
    public double ChangeHeightM { get; init; } = 1500;

    /// <summary>Its correlation time, s.</summary>
    public double ChangeS { get; init; } = 10_800;

    /// <summary>Standard deviation of each component of gusts at the ground, m/s.</summary>
    public double GustSurfaceMps { get; init; }

    /// <summary>The same well above the boundary layer, m/s.</summary>
    public double GustAloftMps { get; init; }

    /// <summary>Height above ground in which the first fades into the second, e-fold, m.</summary>
    public double GustDepthM { get; init; } = 800;

    /// <summary>Correlation time of gusts as the payload meets them, s.</summary>
    public double GustS { get; init; } = 8;

    /// <summary>Vertical motion of the air as a share of the horizontal gusts.</summary>
    public double GustVerticalShare { get; init; } = 0.5;
}
