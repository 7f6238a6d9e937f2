using Groundstation.Core.Quantities;

namespace Groundstation.Io.Faults;

/// <summary>What goes wrong.</summary>
public enum FaultKind
{
    /// <summary>Nothing of the tracker is heard.</summary>
    Silence,

    /// <summary>Sentences keep coming, but tell the same moment and place over and over.</summary>
    StalledFix,

    /// <summary>The altitude stays where it was; all else goes on.</summary>
    FrozenAltitude,

    /// <summary>The tracker's receiver gives no fix above a height.</summary>
    AltitudeLimit,

    /// <summary>Now and then the place is kilometres off for two seconds.</summary>
    Jumps,

    /// <summary>A share of the sentences is damaged on the way.</summary>
    Damaged,

    /// <summary>The receiver's date is off by some days: 1024 weeks, as after a rollover of the week number.</summary>
    WrongDate,

    /// <summary>The laptop's link is lost, as when a plug is pulled.</summary>
    Unplug,

    /// <summary>Nothing of the chase car is heard.</summary>
    ChaseLost,
}

/// <summary>What a beginning goes by.</summary>
public enum FaultBegin
{
    /// <summary>Seconds since the recording began.</summary>
    Recording,

    /// <summary>Seconds since launch, as the station counts them.</summary>
    Mission,

    /// <summary>A UTC time of day.</summary>
    TimeOfDay,

    /// <summary>The ascent passes a height, metres above mean sea level.</summary>
    AscentAbove,

    /// <summary>The descent passes a height, metres above mean sea level.</summary>
    DescentBelow,
}

/// <summary>Something that goes wrong for a while. The same faults in the same recording give the same bytes.</summary>
/// <param name="Kind">What.</param>
/// <param name="Begin">What its beginning goes by.</param>
/// <param name="From">When: seconds, seconds of the day, or metres.</param>
public sealed record Fault(FaultKind Kind, FaultBegin Begin, double From)
{
    /// <summary>How long, s; null: for good.</summary>
    public double? ForS { get; init; }

    /// <summary>Which source; null: every tracker's.</summary>
    public string? Source { get; init; }

    /// <summary>For <see cref="FaultKind.Damaged"/>: which share of the sentences, 0 to 1.</summary>
    public double Share { get; init; } = 0.2;

    /// <summary>For <see cref="FaultKind.AltitudeLimit"/>: the height, metres above mean sea level.</summary>
    public double LimitM { get; init; } = 18_000;

    /// <summary>For <see cref="FaultKind.Jumps"/>: seconds from one to the next.</summary>
    public double EveryS { get; init; } = 30;

    /// <summary>For <see cref="FaultKind.Jumps"/>: how far off, m.</summary>
    public double ByM { get; init; } = 5000;

    /// <summary>
    /// For <see cref="FaultKind.WrongDate"/>: how many days later (or, below 0, earlier) the date is.
    /// </summary>
    public int Days { get; init; } = -7168;
}

/// <summary>A fault with its times.</summary>
/// <param name="Fault">The fault.</param>
/// <param name="From">Arrival time of its beginning.</param>
/// <param name="To">Arrival time of its end.</param>
internal readonly record struct TimedFault(Fault Fault, Instant From, Instant To);
