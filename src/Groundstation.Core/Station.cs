using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Core;

/// <summary>
/// The whole way on one page: bytes → sentences → fixes → flight → landing → alarms → callouts → snapshot.
/// A synchronous state machine over recorded events; each event carries its arrival time, which never decreases.
/// The same events in the same order give the same rows and snapshots to the byte, live or replayed.
/// </summary>
public sealed class Station
{
    private Instant _arrival;
    private readonly FlightPlan _plan;

    /// <summary>A station at the start of a flight.</summary>
    /// <param name="plan">The plan in force.</param>
    /// <param name="log">Takes the rows of the flight folder.</param>
    public Station(FlightPlan plan, IFlightLog log)
    {
        _plan = plan;
        _ = log;
    }

    /// <summary>Bytes from a source, cut anywhere.</summary>
    public void Receive(SourceId source, Instant at, ReadOnlySpan<byte> bytes)
    {
        Tick(at);
    }

    /// <summary>A link was opened, lost, or ended.</summary>
    public void Link(LinkStatus status) => Tick(status.Since);

    /// <summary>The operator did something.</summary>
    public void Act(Instant at, OperatorAct act) => Tick(at);

    /// <summary>
    /// Time has come to <paramref name="at"/> with nothing heard. Every event does this first: all whole seconds of
    /// arrival time up to it are worked through, so that a tick need only be recorded when nothing else was.
    /// </summary>
    public void Tick(Instant at) => _arrival = at > _arrival ? at : _arrival;

    /// <summary>What the screens show now.</summary>
    public Snapshot Snapshot() =>
        new() { Utc = _arrival, Arrival = _arrival, Plan = _plan, Flight = new Flight.FlightState() };
}
