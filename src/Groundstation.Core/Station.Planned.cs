using Groundstation.Core.Earth;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core;

/// <summary>
/// Until the first believed fix, screens show where the planned flight would land. It is no estimate of the flight: no log,
/// alarm or callout knows it.
/// </summary>
public sealed partial class Station
{
    private (Instant Launch, double? GroundM, LandingEstimate Landing)? _planned;

    /// <summary>
    /// The planned flight's landing, for a launch at the planned time or, once that is over or where there is none, at this
    /// minute. Null: a fix was believed, or the plan lacks launch site or winds.
    /// </summary>
    private LandingEstimate? Planned()
    {
        if (_flight.Newest is not null || _clock.Arrival == default || _plan.LaunchSite is null
            || _plan.Winds.IsDefaultOrEmpty) return null;
        // Whole minutes: it takes some 20 ms to work out, and ten snapshots a second are asked for.
        Instant minute = new(_clock.Utc.Ticks - _clock.Utc.Ticks % TimeSpan.TicksPerMinute);
        Instant launch = _plan.LaunchUtc is { } planned && planned > minute ? planned : minute;
        if (_planned is not { } known || known.Launch != launch || known.GroundM != _groundToldM)
        {
            FlightPlan plan = _groundToldM is { } m ? _plan with { LandingGround = new HeightMsl(m) } : _plan;
            LandingEstimate landing = PlannedFlight.Of(plan, launch, _groundToldM is null ? _terrain : null).Landing;
            _planned = known = (launch, _groundToldM, landing with { Method = LandingMethod.Planned });
        }
        return known.Landing;
    }
}
