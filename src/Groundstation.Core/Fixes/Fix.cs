using System.Collections.Immutable;
using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;

namespace Groundstation.Core.Fixes;

/// <summary>
/// Every reason for which a fix can be refused; several can apply. <c>fixes.csv</c> shows their names.
/// </summary>
[Flags]
public enum RefusalReasons
{
    /// <summary>None: the fix is believed.</summary>
    None = 0,

    /// <summary>The receiver itself says it has no fix (quality 0, status V, mode N).</summary>
    NoFix = 1 << 0,

    /// <summary>Dead reckoning, typed in by hand, or a simulator's: quality 6–8, mode E, M or S.</summary>
    NotMeasured = 1 << 1,

    /// <summary>No position in it.</summary>
    NoPosition = 1 << 2,

    /// <summary>No altitude in it, or two dimensions only.</summary>
    NoAltitude = 1 << 3,

    /// <summary>Fewer satellites used than the plan asks.</summary>
    FewSatellites = 1 << 4,

    /// <summary>HDOP above the plan's limit.</summary>
    PoorHdop = 1 << 5,

    /// <summary>The same UTC as the epoch before, heard again with other content.</summary>
    FrozenUtc = 1 << 6,

    /// <summary>The same epoch again.</summary>
    Duplicate = 1 << 7,

    /// <summary>UTC earlier than the epoch before.</summary>
    TimeBackwards = 1 << 8,

    /// <summary>Altitude the same to the last digit while the flight is climbing or falling.</summary>
    FrozenAltitude = 1 << 9,

    /// <summary>Position the same to the last digit while the flight is moving.</summary>
    FrozenPosition = 1 << 10,

    /// <summary>Farther sideways from the predicted place than the flight can have come.</summary>
    HorizontalJump = 1 << 11,

    /// <summary>Farther up or down from the predicted height than the flight can have come.</summary>
    VerticalJump = 1 << 12,

    /// <summary>Within a kilometre of 0°, 0°: zeros in place of a position.</summary>
    NullIsland = 1 << 13,

    /// <summary>Altitude exactly zero in flight.</summary>
    ZeroAltitude = 1 << 14,

    /// <summary>Altitude far from what the measured pressure says.</summary>
    AgainstPressure = 1 << 15,

    /// <summary>Outside what any balloon reaches: below −500 m or above 60 km, speed above 250 m/s.</summary>
    OutOfRange = 1 << 16,

    /// <summary>UTC has run ahead of the arrival time by more than a link can hold back.</summary>
    TimeJump = 1 << 17,

    /// <summary>Sentences of the same epoch give positions far apart.</summary>
    SentencesDisagree = 1 << 18,

    /// <summary>
    /// One more epoch within a second, from a receiver that prints whole seconds: the first of the second stands for
    /// it. Nothing is wrong with it, so it counts neither as believed nor as refused.
    /// </summary>
    WithinSecond = 1 << 19,
}

/// <summary>Where a fix's date came from.</summary>
public enum DateOrigin
{
    /// <summary>The receiver sent it (RMC, ZDA), and it has been stable.</summary>
    Receiver,

    /// <summary>The receiver's date lies GPS week rollovers (1024 weeks each) back; they were added.</summary>
    ReceiverRolledOver,

    /// <summary>
    /// No usable date from the receiver: the day that brings its time nearest to the arrival, or to the UTC of another
    /// receiver that tells its date.
    /// </summary>
    NearestToArrival,
}

/// <summary>Where the height above mean sea level came from.</summary>
public enum HeightOrigin
{
    /// <summary>The receiver gave height and geoid separation.</summary>
    Receiver,

    /// <summary>
    /// The receiver gave a height without geoid separation. It is taken as above mean sea level, as the standard says;
    /// the ellipsoidal height then comes from the station's own geoid model.
    /// </summary>
    ReceiverWithoutSeparation,
}

/// <summary>
/// One epoch of one source: everything the sentences of one UTC moment said, joined, with the verdict on it.
/// Missing is null. Datum WGS 84.
/// </summary>
public sealed record Fix
{
    /// <summary>Which receiver.</summary>
    public required SourceId Source { get; init; }

    /// <summary>Arrival time of the epoch's first sentence.</summary>
    public required Instant Heard { get; init; }

    /// <summary>The receiver's UTC, dated as <see cref="DateFrom"/> says.</summary>
    public required Instant Utc { get; init; }

    /// <summary>Where the date in <see cref="Utc"/> came from.</summary>
    public required DateOrigin DateFrom { get; init; }

    /// <summary>
    /// By how much the date that the receiver sent last is ahead of the date taken, whole days; zero where it is the
    /// same, or none was sent.
    /// </summary>
    public TimeSpan DateSentOff { get; init; }

    /// <summary>Position.</summary>
    public GeoPoint? Position { get; init; }

    /// <summary>Height above mean sea level.</summary>
    public HeightMsl? Height { get; init; }

    /// <summary>Geoid above the ellipsoid, metres, as the receiver said or as the station's model gives it.</summary>
    public double? GeoidSeparationM { get; init; }

    /// <summary>Where <see cref="Height"/> came from; null without height.</summary>
    public HeightOrigin? HeightFrom { get; init; }

    /// <summary>GGA quality; null if not said.</summary>
    public FixQuality? Quality { get; init; }

    /// <summary>GSA dimension; null if not said.</summary>
    public FixDimension? Dimension { get; init; }

    /// <summary>Satellites used.</summary>
    public int? SatellitesUsed { get; init; }

    /// <summary>Horizontal dilution of precision.</summary>
    public double? Hdop { get; init; }

    /// <summary>Speed over ground, m/s, as the receiver said.</summary>
    public double? SpeedMps { get; init; }

    /// <summary>Course over ground, degrees true, as the receiver said.</summary>
    public double? CourseDeg { get; init; }

    /// <summary>All reasons against it.</summary>
    public RefusalReasons Refused { get; init; }

    /// <summary>The reasons in words with their figures (innovation and gate); empty when believed.</summary>
    public Saying Detail { get; init; } = Saying.None;

    /// <summary>
    /// True when it was believed against the fixes believed before: from those to this one lies no motion of the
    /// flight.
    /// </summary>
    public bool StartsAnew { get; init; }

    /// <summary>The same epoch as other receivers heard it, in the order of their arrival; it was the best.</summary>
    public ImmutableArray<Fix> Also { get; init; } = [];

    /// <summary>True when nothing speaks against it.</summary>
    public bool Believed => Refused == RefusalReasons.None;
}
