using System.Collections.Immutable;

namespace Groundstation.Io.Inspection;

/// <summary>How far a recording's receiver can be trusted with a flight.</summary>
public enum Fitness
{
    /// <summary>Everything the station needs is there.</summary>
    Fit,

    /// <summary>It will do, with the cautions named.</summary>
    FitWithCautions,

    /// <summary>Something that a flight needs is missing or too bad.</summary>
    NotFit,
}

/// <summary>What a recording holds. Times are UTC in ISO 8601; figures are rounded as their names suggest.</summary>
public sealed record InspectionReport
{
    /// <summary>The file, as named.</summary>
    public required string Recording { get; init; }

    /// <summary>Its length, bytes.</summary>
    public required long Bytes { get; init; }

    /// <summary>Its lines, comment lines included.</summary>
    public required long Lines { get; init; }

    /// <summary>Lines that begin with <c>#</c>: notes by whoever kept the log.</summary>
    public required long CommentLines { get; init; }

    /// <summary>Lines of the station's own that could not be read.</summary>
    public required long DamagedLines { get; init; }

    /// <summary>The last line has no end: cut off by a kill, or by whoever made the log.</summary>
    public required bool TornEnd { get; init; }

    /// <summary>Where arrival times come from, in words.</summary>
    public required string TimesFrom { get; init; }

    /// <summary>The first few lost links that the station recorded, each with its cause.</summary>
    public ImmutableArray<string> LinksLost { get; init; } = [];

    /// <summary>Each source, in the order first heard.</summary>
    public required ImmutableArray<SourceReport> Sources { get; init; }
}

/// <summary>One source in a recording.</summary>
public sealed record SourceReport
{
    /// <summary>Its name in TAG blocks, or the one given to a log without them.</summary>
    public required string Source { get; init; }

    /// <summary>First and last arrival time; null when nothing in it tells the time.</summary>
    public required string? FirstUtc { get; init; }

    /// <summary>See <see cref="FirstUtc"/>.</summary>
    public required string? LastUtc { get; init; }

    /// <summary>Seconds between the two.</summary>
    public required double DurationS { get; init; }

    /// <summary>Talkers heard, most frequent first.</summary>
    public required ImmutableArray<string> Talkers { get; init; }

    /// <summary>Satellite systems in use or in view, in words.</summary>
    public required ImmutableArray<string> Systems { get; init; }

    /// <summary>What the receiver says about itself: texts, and proprietary sentences sent a few times only.</summary>
    public required ImmutableArray<string> Identification { get; init; }

    /// <summary>Accepted sentences.</summary>
    public required long Accepted { get; init; }

    /// <summary>Accepted sentences a second, gaps left out; null when the time is not known.</summary>
    public required double? SentencesPerSecond { get; init; }

    /// <summary>Epochs a second: the inverse of the median interval; null with fewer than two.</summary>
    public required double? EpochsPerSecond { get; init; }

    /// <summary>Accepted sentences by address, most frequent first.</summary>
    public required ImmutableArray<SentenceCount> Sentences { get; init; }

    /// <summary>Rejected stretches by reason, most frequent first.</summary>
    public required ImmutableArray<ReasonCount> Rejected { get; init; }

    /// <summary>Rejected share of everything framed, 0–1.</summary>
    public required double RejectedShare { get; init; }

    /// <summary>A fault of the line that the bytes point to; empty when none.</summary>
    public required string LineFault { get; init; }

    /// <summary>Epochs.</summary>
    public required long Epochs { get; init; }

    /// <summary>Epochs believed.</summary>
    public required long Believed { get; init; }

    /// <summary>Reasons against the others, most frequent first; a fix may have several.</summary>
    public required ImmutableArray<ReasonCount> Refused { get; init; }

    /// <summary>Height above mean sea level; null when no epoch has one.</summary>
    public required AltitudeRange? Altitude { get; init; }

    /// <summary>Where it was; null when no epoch is believed.</summary>
    public required PositionRange? Position { get; init; }

    /// <summary>Stretches without an epoch.</summary>
    public required GapReport Gaps { get; init; }

    /// <summary>From the last epoch to the end of the recording, s; null when no longer than a gap.</summary>
    public required double? SilentAtEndS { get; init; }

    /// <summary>Dates.</summary>
    public required DateReport Dates { get; init; }

    /// <summary>The verdict.</summary>
    public required FitnessReport Fitness { get; init; }
}

/// <summary>How often a sentence came.</summary>
/// <param name="Address">Talker and formatter, or a proprietary address.</param>
/// <param name="Count">How often.</param>
public sealed record SentenceCount(string Address, long Count);

/// <summary>How often something was rejected or refused for one reason.</summary>
/// <param name="Reason">The reason's word, as logs and screens show it.</param>
/// <param name="Count">How often.</param>
/// <param name="FirstLines">Line numbers, from 1, of the first few.</param>
public sealed record ReasonCount(string Reason, long Count, ImmutableArray<long> FirstLines);

/// <summary>Heights above mean sea level, m.</summary>
/// <param name="MinM">Lowest.</param>
/// <param name="MaxM">Highest.</param>
/// <param name="OfBelieved">True: of believed epochs; false: none is believed, so of all that carry a height.</param>
/// <param name="LimitM">
/// The receiver's altitude limit, where fixes stopped near one while sentences went on; else null.
/// </param>
public sealed record AltitudeRange(double MinM, double MaxM, bool OfBelieved, double? LimitM);

/// <summary>Where believed epochs lie, WGS 84, degrees.</summary>
/// <param name="FirstLatitudeDeg">First.</param>
/// <param name="FirstLongitudeDeg">First.</param>
/// <param name="LastLatitudeDeg">Last.</param>
/// <param name="LastLongitudeDeg">Last.</param>
/// <param name="FarthestKm">Greatest distance from the first, km.</param>
public sealed record PositionRange(double FirstLatitudeDeg, double FirstLongitudeDeg, double LastLatitudeDeg,
    double LastLongitudeDeg, double FarthestKm);

/// <summary>A stretch without an epoch.</summary>
/// <param name="FromUtc">Arrival time of the epoch before.</param>
/// <param name="Seconds">How long.</param>
/// <param name="Line">Line of the epoch after it.</param>
public sealed record Gap(string FromUtc, double Seconds, long Line);

/// <summary>Stretches without an epoch.</summary>
/// <param name="ThresholdS">From how long on an interval counts as a gap, s.</param>
/// <param name="Count">How many.</param>
/// <param name="TotalS">Together, s.</param>
/// <param name="Longest">The longest few, in the order of time.</param>
public sealed record GapReport(double ThresholdS, long Count, double TotalS, ImmutableArray<Gap> Longest);

/// <summary>Dates.</summary>
/// <param name="First">First date that came with a fix, as yyyy-MM-dd, as sent; null when none.</param>
/// <param name="Last">Last date that came with a fix.</param>
/// <param name="Midnights">Midnights passed.</param>
/// <param name="Problems">What is wrong with them; empty when nothing.</param>
public sealed record DateReport(string? First, string? Last, int Midnights, ImmutableArray<DateProblem> Problems);

/// <summary>One thing that is wrong with dates or times.</summary>
/// <param name="Kind"><c>no_date</c>, <c>default_date</c>, <c>rollover</c>, <c>backwards</c> or <c>wobble</c>.</param>
/// <param name="Count">How often.</param>
/// <param name="FirstLine">Line of the first; null when it is the absence of something.</param>
/// <param name="Text">In words.</param>
public sealed record DateProblem(string Kind, long Count, long? FirstLine, string Text);

/// <summary>Whether it is fit for flight.</summary>
/// <param name="Verdict">The verdict.</param>
/// <param name="Reasons">Why: what is good when fit, what is missing when not.</param>
/// <param name="Cautions">What to look at all the same.</param>
public sealed record FitnessReport(Fitness Verdict, ImmutableArray<string> Reasons, ImmutableArray<string> Cautions);
