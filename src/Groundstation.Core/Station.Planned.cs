using Groundstation.Core.Earth;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core;

/// <summary>
/// Until the first believed fix, screens show where the planned flight would land. It is no estimate of the flight: no log
/// or alarm knows it. Once the operator has marked the launch it is all there is to tell the chase team, named as planned.
/// </summary>
public sealed partial class Station
{
    private (Instant Launch, double? GroundM, PlannedFlight Flight)? _planned;

    /// <summary>
    /// The planned flight's landing, for a launch at the planned time or, once that is over or where there is none, at this
    /// minute; once the launch is marked, for that one. Null: a fix was believed, or the plan lacks launch site or winds; of
    /// a marked launch the site alone gives a place, with a wide area.
    /// </summary>
    private LandingEstimate? Planned()
    {
        if (_flight.Newest is not null || _clock.Arrival == default || _plan.LaunchSite is null) return null;
        if (UnheardLaunch is { } marked) return PlannedFlightOf(marked).At(_clock.Utc);
        if (_plan.Winds.IsDefaultOrEmpty) return null;
        // Whole minutes: it takes some 20 ms to work out, and ten snapshots a second are asked for.
        Instant minute = new(_clock.Utc.Ticks - _clock.Utc.Ticks % TimeSpan.TicksPerMinute);
        Instant launch = _plan.LaunchUtc is { } planned && planned > minute ? planned : minute;
        return PlannedFlightOf(launch).Landing with { Method = LandingMethod.Planned };
    }

    private PlannedFlight PlannedFlightOf(Instant launch)
    {
        if (_planned is { } known && known.Launch == launch && known.GroundM == _groundToldM) return known.Flight;
        FlightPlan plan = _groundToldM is { } m ? _plan with { LandingGround = new HeightMsl(m) } : _plan;
        PlannedFlight flight = PlannedFlight.Of(plan, launch, _groundToldM is null ? _terrain : null);
        _planned = (launch, _groundToldM, flight);
        return flight;
    }

    /// <summary>The estimate that is told now: the flight's, or, of a launch that was only marked, the planned one.</summary>
    private LandingEstimate? ToTell => _landing ?? (UnheardLaunch is null ? null : Planned());
}
