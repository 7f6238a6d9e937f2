using System.Collections.Immutable;
using Groundstation.Core.Chase;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Core.Alarms;

/// <summary>Everything the alarm rules look at, at one moment.</summary>
public sealed record AlarmInput
{
    /// <summary>Arrival time now: what delays and ages count in.</summary>
    public required Instant Arrival { get; init; }

    /// <summary>Arrival time of the station's first event.</summary>
    public required Instant Started { get; init; }

    /// <summary>The plan, with its limits.</summary>
    public required FlightPlan Plan { get; init; }

    /// <summary>The flight.</summary>
    public required FlightState Flight { get; init; }

    /// <summary>Landing estimate; null before the first.</summary>
    public LandingEstimate? Landing { get; init; }

    /// <summary>Payload's measurements.</summary>
    public Telemetry Telemetry { get; init; } = Telemetry.None;

    /// <summary>Health of the tracker's receivers.</summary>
    public ImmutableArray<ReceiverHealth> Receivers { get; init; } = [];

    /// <summary>Links of all sources.</summary>
    public ImmutableArray<LinkStatus> Links { get; init; } = [];

    /// <summary>Age of the newest believed fix, seconds of arrival time; null before the first.</summary>
    public double? HeardAgeS { get; init; }

    /// <summary>Epochs heard in a row, newest last, that were refused although the receiver claimed a fix.</summary>
    public int RefusedInARow { get; init; }

    /// <summary>Reasons of the newest of them.</summary>
    public Saying RefusedDetail { get; init; } = Saying.None;

    /// <summary>Newest epoch, believed or not.</summary>
    public Fix? NewestFix { get; init; }

    /// <summary>What is heard of the tracker, with a believed fix or without.</summary>
    public Contact Contact { get; init; }

    /// <summary>Time since a launch that only the operator marked, s, while no fix was ever believed; else null.</summary>
    public double? MarkedAgeS { get; init; }

    /// <summary>Altitude limit that the receiver seems to have reached, while it is heard; null: none.</summary>
    public HeightMsl? AltitudeLimit { get; init; }

    /// <summary>Age of the newest byte from any tracker receiver, seconds; from the start if there was none.</summary>
    public double ByteAgeS { get; init; }

    /// <summary>Age of the newest epoch, believed or not, seconds; null before the first.</summary>
    public double? EpochAgeS { get; init; }

    /// <summary>Usual time between two epochs, seconds; 1 until it is known. Sets how long a silence must be to be one.</summary>
    public double EpochIntervalS { get; init; } = 1;

    /// <summary>What cannot be written to the flight folder at the moment and why; empty when all is well.</summary>
    public string StorageTrouble { get; init; } = "";

    /// <summary>Keep-outs that the landing estimate meets, the likeliest first.</summary>
    public ImmutableArray<KeepOutShare> KeepOuts { get; init; } = [];

    /// <summary>How the ascent rate goes.</summary>
    public AscentTrend Ascent { get; init; } = new();

    /// <summary>Where the flight began; null: not known.</summary>
    public GeoPoint? Pad { get; init; }

    /// <summary>How the chase stands; null: the car's place is not known.</summary>
    public ChaseState? Chase { get; init; }

    /// <summary>Age of the newest believed fix of the chase receiver, s; from its link's opening if there was none.</summary>
    public double ChaseAgeS { get; init; }

    /// <summary>Host clock ahead of the receiver's UTC, s, negative when behind; null: not known.</summary>
    public double? HostAheadS { get; init; }

    /// <summary>Room left on the disk of the flight folder, MB (10⁶ bytes); null: not told, which means there is plenty.</summary>
    public double? DiskFreeMb { get; init; }
}
