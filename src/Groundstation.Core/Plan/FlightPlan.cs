using System.Collections.Immutable;
using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Plan;

/// <summary>What is asked of a fix before it is believed.</summary>
/// <param name="MinSatellites">Fewest satellites used. Default 4: three dimensions need four.</param>
/// <param name="MaxHdop">Largest HDOP. Default 8 (common practice: above it positions are good for little).</param>
/// <param name="AllowNoChecksum">Take sentences without a checksum, marked unverified. Default no.</param>
public sealed record BeliefLimits(int MinSatellites = 4, double MaxHdop = 8, bool AllowNoChecksum = false);

/// <summary>When alarms are raised. Seconds, metres, m/s, V, °C.</summary>
public sealed record AlarmLimits
{
    /// <summary>No byte from a source for this long, s.</summary>
    public double NoBytesS { get; init; } = 15;

    /// <summary>No believed fix for this long, s.</summary>
    public double NoFixS { get; init; } = 30;

    /// <summary>Share of rejected lines over a minute that makes a bad link, 0–1.</summary>
    public double RejectedShare { get; init; } = 0.2;

    /// <summary>Ascent rate below which the ascent is too slow, m/s.</summary>
    public double AscentSlowMps { get; init; } = 2.5;

    /// <summary>Ascent rate above which the ascent is too fast, m/s.</summary>
    public double AscentFastMps { get; init; } = 9;

    /// <summary>Sea-level descent rate above which the canopy is in doubt, m/s.</summary>
    public double DescentFastMps { get; init; } = 9;

    /// <summary>Sea-level descent rate below which the descent is too slow, m/s.</summary>
    public double DescentSlowMps { get; init; } = 2.5;

    /// <summary>Height above the expected ground at which the approach is called, m.</summary>
    public double ApproachM { get; init; } = 1500;

    /// <summary>Battery voltage below which it is called low, V; null: not watched.</summary>
    public double? BatteryLowV { get; init; }

    /// <summary>
    /// Temperature inside the box below which it is called cold, °C. Boxes of sound flights reach −27; the lithium cells
    /// flown go down to −40, weaker and weaker.
    /// </summary>
    public double InsideColdC { get; init; } = -30;

    /// <summary>Temperature inside the box above which it is called hot, °C: lithium cells must not be warmer.</summary>
    public double InsideHotC { get; init; } = 60;

    /// <summary>
    /// Share of its best three-minute rate that an ascent may lose before a leak is suspected, 0–1. Sound balloons were
    /// seen to lose 0.31 (soundings: 6.2 to 4.3 m/s).
    /// </summary>
    public double AscentFallingShare { get; init; } = 0.4;

    /// <summary>Refused fixes in a row that are called outliers.</summary>
    public int OutliersInARow { get; init; } = 3;

    /// <summary>Distance of the balloon from the pad, m.</summary>
    public double PadDistanceM { get; init; } = 200_000;

    /// <summary>Distance of the balloon from the chase car, m.</summary>
    public double ChaseDistanceM { get; init; } = 100_000;

    /// <summary>Room on the disk below which it is called nearly full, MB (10⁶ bytes); a flight takes 10 to 50.</summary>
    public double DiskLowMb { get; init; } = 200;

    /// <summary>Difference between host clock and receiver's UTC, s.</summary>
    public double ClockWrongS { get; init; } = 10;

    /// <summary>No place from the chase receiver for this long, s.</summary>
    public double ChaseNoFixS { get; init; } = 60;

    /// <summary>Time in hand before the landing below which the chase is behind, s.</summary>
    public double ChaseMarginS { get; init; }

    /// <summary>Share of landings in a keep-out that is an advisory, 0–1: one in twenty meets the 95 % search area.</summary>
    public double KeepOutAdvisoryShare { get; init; } = 0.05;

    /// <summary>Share that is a caution.</summary>
    public double KeepOutCautionShare { get; init; } = 0.2;

    /// <summary>Share that is a warning.</summary>
    public double KeepOutWarningShare { get; init; } = 0.5;

    /// <summary>How long an alarm is shelved, s.</summary>
    public double ShelveS { get; init; } = 900;
}

/// <summary>
/// The plan of a flight, as far as the station needs it. Every value has a default, so that <c>watch</c> works without
/// a plan; <see cref="Stated"/> says which ones the file gave.
/// </summary>
public sealed record FlightPlan
{
    /// <summary>Name of the flight.</summary>
    public string Name { get; init; } = "flight";

    /// <summary>Planned moment of launch; null: not stated. For the plan sheet and the notice, not for the
    /// flight.</summary>
    public Instant? LaunchUtc { get; init; }

    /// <summary>Balloon and gas. Where a balloon is stated, ascent rate and burst height follow from them.</summary>
    public FillPlan Fill { get; init; } = new();

    /// <summary>What hangs under the balloon.</summary>
    public LoadPlan Load { get; init; } = new();

    /// <summary>The parachute's shape and size; its drag area is <see cref="CanopyDragAreaM2"/>.</summary>
    public CanopyPlan Canopy { get; init; } = new();

    /// <summary>Who flies what.</summary>
    public NoticePlan Notice { get; init; } = new();

    /// <summary>
    /// Mass under the parachute at landing (payload, line, canopy): all that hangs under the balloon, kg. Default 1.5.
    /// </summary>
    public double DescentMassKg { get; init; } = 1.5;

    /// <summary>Drag area Cd·S of the canopy, m²; null: not known, the descent rate at sea level is taken as
    /// given.</summary>
    public double? CanopyDragAreaM2 { get; init; }

    /// <summary>Rate of descent at sea level, m/s, expected before it is measured. Default 5 (common
    /// practice).</summary>
    public double DescentRateSeaLevelMps { get; init; } = 5;

    /// <summary>Standard deviation of ln(descent rate at sea level). 0.35 with no plan, 0.2 with one (flight-to-flight
    /// scatter of 20 %, Sirks et al. 2020, second-hand).</summary>
    public double DescentRateLnSigma { get; init; } = 0.35;

    /// <summary>Ascent rate expected at launch, m/s. Default 5 (common practice).</summary>
    public double AscentRateMps { get; init; } = 5;

    /// <summary>
    /// Standard deviation of ln(ascent rate) before it is measured; with a fill from <see cref="AscentSpread"/>.
    /// </summary>
    public double AscentRateLnSigma { get; init; } = AscentSpread.NoFill;

    /// <summary>Burst height expected. Default 30 km (common practice).</summary>
    public HeightMsl BurstHeight { get; init; } = new(30_000);

    /// <summary>Standard deviation of the burst height, m. Default 2500 without a plan, 1500 with one.</summary>
    public double BurstSigmaM { get; init; } = 2500;

    /// <summary>Launch site; null: where the first fixes are.</summary>
    public GeoPoint? LaunchSite { get; init; }

    /// <summary>Height of the launch site; null: from the first fixes.</summary>
    public HeightMsl? LaunchHeight { get; init; }

    /// <summary>Height of the ground where the landing is expected; null: the launch ground's.</summary>
    public HeightMsl? LandingGround { get; init; }

    /// <summary>Full path of the folder with SRTM tiles; null: none. Opened by the shell, not here.</summary>
    public string? TerrainFolder { get; init; }

    /// <summary>Full paths of the user's own map files, with the areas to keep out of; empty: none.</summary>
    public ImmutableArray<string> KeepOutFiles { get; init; } = [];

    /// <summary>What those files hold. Read by the shell, not here.</summary>
    public Overlays Overlays { get; init; } = Overlays.None;

    /// <summary>Height above which the tracker's receiver gives no fix; null: none known.</summary>
    public HeightMsl? TrackerAltitudeLimit { get; init; }

    /// <summary>What wind files tell, in the order of the plan, or the plan's own levels; empty: nothing.</summary>
    public ImmutableArray<WindForecast> Winds { get; init; } = [];

    /// <summary>Full paths of the wind files, a station after a #; read by the shell, not here.</summary>
    public ImmutableArray<string> WindFiles { get; init; } = [];

    /// <summary>What is asked of a fix.</summary>
    public BeliefLimits Belief { get; init; } = new();

    /// <summary>When alarms are raised.</summary>
    public AlarmLimits Alarms { get; init; } = new();

    /// <summary>Roads are longer than the straight line by this factor. Default 1.3 (common practice).</summary>
    public double ChaseRoadFactor { get; init; } = 1.3;

    /// <summary>Speed of the chase car where none is measured, m/s. Default 14: 50 km/h, villages included.</summary>
    public double ChaseSpeedMps { get; init; } = 14;

    /// <summary>Units shown.</summary>
    public DisplayUnits Units { get; init; }

    /// <summary>How callouts are worded, and when they come.</summary>
    public CalloutSettings Callouts { get; init; } = new();

    /// <summary>What reads callouts aloud.</summary>
    public SpeechSettings Speech { get; init; } = SpeechSettings.None;

    /// <summary>Seed of the station's random draws; recorded with the flight.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>The keys that the plan file gave, as <c>section.key</c>; empty with no plan.</summary>
    public ImmutableArray<string> Stated { get; init; } = [];

    /// <summary>Everything by default.</summary>
    public static readonly FlightPlan Default = new();
}
