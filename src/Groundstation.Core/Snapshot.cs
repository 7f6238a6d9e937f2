using System.Collections.Immutable;
using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Chase;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Readiness;
using Groundstation.Core.Receive;

namespace Groundstation.Core;

/// <summary>One line of what happened, for the screen.</summary>
/// <param name="Utc">Station time.</param>
/// <param name="Text">In plain words.</param>
public sealed record EventLine(Instant Utc, Saying Text);

/// <summary>An earlier landing estimate.</summary>
/// <param name="Utc">When it was made.</param>
/// <param name="Position">Where it put the landing.</param>
/// <param name="Area95M">Semi-major axis of its 95 % area, metres.</param>
public readonly record struct PastEstimate(Instant Utc, GeoPoint Position, double Area95M);

/// <summary>What the operator marked with a key. The phase follows from fixes alone; a mark stands beside it.</summary>
/// <param name="Launch">Launch; null: not marked.</param>
/// <param name="Burst">Burst; null: not marked.</param>
public readonly record struct OperatorMarks(Instant? Launch, Instant? Burst);

/// <summary>Where the height of the ground at the landing comes from.</summary>
public enum GroundOrigin
{
    /// <summary>Nothing is known: sea level, with a wide doubt.</summary>
    Unknown,

    /// <summary>As high as the launch ground.</summary>
    Launch,

    /// <summary>The plan states it.</summary>
    Plan,

    /// <summary>Terrain tiles.</summary>
    Terrain,

    /// <summary>The operator told it.</summary>
    Operator,
}

/// <summary>
/// Everything a screen shows, at one moment, immutable: any thread may read it. Lists are newest last unless said.
/// </summary>
public sealed record Snapshot
{
    /// <summary>The station's UTC: the receiver's newest UTC plus the time since, else the arrival stamp.</summary>
    public required Instant Utc { get; init; }

    /// <summary>The arrival stamp of the newest event.</summary>
    public required Instant Arrival { get; init; }

    /// <summary>The plan in force.</summary>
    public required FlightPlan Plan { get; init; }

    /// <summary>The flight.</summary>
    public required FlightState Flight { get; init; }

    /// <summary>Newest epoch of the tracker, believed or not.</summary>
    public Fix? NewestFix { get; init; }

    /// <summary>Age of the newest believed fix, seconds of arrival time; null before the first.</summary>
    public double? HeardAgeS { get; init; }

    /// <summary>What is heard of the tracker, with a believed fix or without.</summary>
    public Contact Contact { get; init; }

    /// <summary>Newest landing estimate; before the first believed fix the planned flight's, marked so by its method.</summary>
    public LandingEstimate? Landing { get; init; }

    /// <summary>Keep-outs that the landing estimate meets, the likeliest first.</summary>
    public ImmutableArray<KeepOutShare> KeepOuts { get; init; } = [];

    /// <summary>The track: believed fixes, thinned so that at most a few thousand remain.</summary>
    public ImmutableArray<Waypoint> Track { get; init; } = [];

    /// <summary>Earlier landing estimates, thinned, oldest first.</summary>
    public ImmutableArray<PastEstimate> LandingHistory { get; init; } = [];

    /// <summary>Where the height of the ground in the landing estimate comes from.</summary>
    public GroundOrigin GroundFrom { get; init; }

    /// <summary>The operator's marks.</summary>
    public OperatorMarks Marks { get; init; }

    /// <summary>Units the operator chose for the screens; null: the plan's. Callouts keep the plan's.</summary>
    public DisplayUnits? Units { get; init; }

    /// <summary>
    /// Age from which the newest believed fix counts as not heard, s: the plan's limit, or three usual intervals of a
    /// tracker that sends more seldom.
    /// </summary>
    public double NotHeardAfterS { get; init; } = 30;

    /// <summary>The wind column, lowest layer first.</summary>
    public ImmutableArray<WindLayer> Winds { get; init; } = [];

    /// <summary>What the plan's wind files told before launch, lowest first; empty when it names none.</summary>
    public ImmutableArray<ForecastLevel> Foretold { get; init; } = [];

    /// <summary>Newest refused fixes, at most 50.</summary>
    public ImmutableArray<Fix> RecentRefused { get; init; } = [];

    /// <summary>Newest raw lines with their verdict, at most 50, made printable.</summary>
    public ImmutableArray<(SourceId Source, string Text, string Verdict)> RecentLines { get; init; } = [];

    /// <summary>Payload's measurements.</summary>
    public Telemetry Telemetry { get; init; } = Telemetry.None;

    /// <summary>Each source's health, in the order in which sources were named or heard.</summary>
    public ImmutableArray<ReceiverHealth> Receivers { get; init; } = [];

    /// <summary>Each source's link.</summary>
    public ImmutableArray<LinkStatus> Links { get; init; } = [];

    /// <summary>Alarms that are not normal, worst and newest first.</summary>
    public ImmutableArray<AlarmState> Alarms { get; init; } = [];

    /// <summary>What a search sheet would be made from now; null before the first estimate.</summary>
    public SheetMatter? Sheet { get; init; }

    /// <summary>Callouts so far.</summary>
    public ImmutableArray<Callout> Callouts { get; init; } = [];

    /// <summary>What happened, at most 200 lines.</summary>
    public ImmutableArray<EventLine> Events { get; init; } = [];

    /// <summary>How the chase stands; null: the car's place is not known.</summary>
    public ChaseState? ChaseNow { get; init; }

    /// <summary>Chase car's newest position.</summary>
    public Waypoint? Chase { get; init; }

    /// <summary>Fixes believed and refused since start.</summary>
    public (long Believed, long Refused) FixCounts { get; init; }

    /// <summary>How long believed fixes have come without a gap, seconds; null: none comes now.</summary>
    public double? FixHeldS { get; init; }

    /// <summary>What cannot be written at the moment; empty when all is.</summary>
    public string StorageTrouble { get; init; } = "";

    /// <summary>Room on the flight folder's disk as told last, MB (10⁶ bytes); null: never told.</summary>
    public double? DiskFreeMb { get; init; }

    /// <summary>True when heights of the ground are loaded.</summary>
    public bool HasTerrain { get; init; }

    /// <summary>Points of the launch checklist that people have confirmed, by their ids.</summary>
    public ImmutableArray<string> Confirmed { get; init; } = [];

    /// <summary>What was decided about the launch last; null: nothing yet.</summary>
    public LaunchDecision? Decision { get; init; }
}
