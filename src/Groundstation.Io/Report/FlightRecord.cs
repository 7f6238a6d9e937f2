using System.Collections.Immutable;
using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Io.Report;

/// <summary>One epoch of a tracker with what the station made of the flight at that moment.</summary>
/// <param name="Fix">The epoch, believed or not.</param>
/// <param name="Phase">Phase by the fixes.</param>
/// <param name="RateMps">Smoothed vertical rate, m/s, up positive; null until known.</param>
/// <param name="Telemetry">The payload's newest measurements; each may be old, see <see cref="FreshPayload"/>.</param>
public sealed record EpochRow(Fix Fix, Phase Phase, double? RateMps, Telemetry Telemetry)
{
    // Payloads send their measurements every few to thirty seconds; what is older belongs to another height.
    private const double FreshS = 60;

    /// <summary>True when the payload's measurements belong to this epoch.</summary>
    public bool FreshPayload => Telemetry.Heard is { } heard && Fix.Heard.SecondsSince(heard) < FreshS;
}

/// <summary>The payload's measurements at a height.</summary>
/// <param name="Utc">Time of the believed fix they go with.</param>
/// <param name="Height">Its height.</param>
/// <param name="Phase">Phase then.</param>
/// <param name="Telemetry">The measurements.</param>
public sealed record PayloadRow(Instant Utc, HeightMsl Height, Phase Phase, Telemetry Telemetry);

/// <summary>One change of one alarm.</summary>
public sealed record AlarmRow(Instant Utc, string Change, AlarmState Alarm);

/// <summary>One act of the operator, or of the session for him.</summary>
public sealed record ActRow(Instant Heard, OperatorAct Act);

/// <summary>
/// A flight from its recording: everything that the report and the exports tell. Lists are oldest first.
/// </summary>
public sealed record FlightRecord
{
    /// <summary>The plan in force.</summary>
    public required FlightPlan Plan { get; init; }

    /// <summary>Name of the plan's file; null: none, the station's defaults were in force.</summary>
    public required string? PlanFile { get; init; }

    /// <summary>Name of the recording's file.</summary>
    public required string Recording { get; init; }

    /// <summary>The flight's name by its plan, else the recording's.</summary>
    public string Title => Plan.Stated.Contains("flight.name") ? Plan.Name : Recording;

    /// <summary>
    /// What is to be said of the recording: how it got its times, what is damaged, whether it is cut off.
    /// </summary>
    public required ImmutableArray<string> Notes { get; init; }

    /// <summary>Epochs of the trackers.</summary>
    public required ImmutableArray<EpochRow> Epochs { get; init; }

    /// <summary>Believed places of the chase car.</summary>
    public required ImmutableArray<Waypoint> Chase { get; init; }

    /// <summary>Layers of wind as measured, each when the payload left it.</summary>
    public required ImmutableArray<(Instant Utc, WindLayer Layer)> Winds { get; init; }

    /// <summary>The payload's measurements by height.</summary>
    public required ImmutableArray<PayloadRow> Payload { get; init; }

    /// <summary>Landing estimates, without their paths but for the last.</summary>
    public required ImmutableArray<LandingEstimate> Landings { get; init; }

    /// <summary>Changes of alarms.</summary>
    public required ImmutableArray<AlarmRow> Alarms { get; init; }

    /// <summary>Callouts as last marked.</summary>
    public required ImmutableArray<Callout> Callouts { get; init; }

    /// <summary>What the operator did.</summary>
    public required ImmutableArray<ActRow> Acts { get; init; }

    /// <summary>The station at the end of the recording.</summary>
    public required Snapshot Last { get; init; }

    /// <summary>Where the payload was found, as the team tells; null: not told.</summary>
    public GeoPoint? Found { get; init; }
}
