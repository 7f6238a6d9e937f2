using System.Collections.Immutable;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Core.Landing;

/// <summary>
/// A flight before its launch: the estimate that the station would make of a balloon let go at that moment.
/// </summary>
/// <param name="Launch">When and where it is let go.</param>
/// <param name="Landing">Path, landing place and areas.</param>
/// <param name="Burst">Expected burst, on the path.</param>
/// <param name="BurstArea50">Holds the burst in half of all flights; its centre is <paramref name="Burst"/>.</param>
/// <param name="BurstArea95">Holds the burst in 95 of 100 flights.</param>
/// <param name="Winds">What the winds rest on; null without wind files.</param>
public sealed record PlannedFlight(Waypoint Launch, LandingEstimate Landing, Waypoint Burst, SearchArea BurstArea50,
    SearchArea BurstArea95, ForecastPick? Winds)
{
    /// <summary>
    /// Works it out through the live code: one believed fix at the launch site, and the landing estimate that follows.
    /// </summary>
    /// <param name="plan">The plan; its launch site must be given.</param>
    /// <param name="launch">Moment of launch.</param>
    /// <param name="terrain">Height of the terrain at a place, metres above mean sea level; null where not
    /// known.</param>
    /// <exception cref="ArgumentException">The plan has no launch site.</exception>
    public static PlannedFlight Of(FlightPlan plan, Instant launch, Func<GeoPoint, double?>? terrain = null)
    {
        GeoPoint site = plan.LaunchSite ?? throw new ArgumentException("a launch site is needed", nameof(plan));
        HeightMsl height = plan.LaunchHeight ?? new(terrain?.Invoke(site) ?? 0);
        var flight = new FlightTracker(plan);
        flight.Fix(new Fix
        {
            Source = new SourceId("plan"),
            Heard = launch,
            Utc = launch,
            DateFrom = DateOrigin.Receiver,
            Position = site,
            Height = height,
        });
        LandingEstimate landing = new LandingEstimator(plan, terrain).Estimate(flight, launch, false, null)!;
        Waypoint burst = landing.Path.MaxBy(w => w.Height.Metres);
        (SearchArea half, SearchArea most) = new BurstSpread(plan).Areas(flight, height.Metres);
        return new(new(launch, site, height), landing, burst, half, most,
            plan.Winds.IsDefaultOrEmpty ? null : ForecastPick.For(plan, launch));
    }

    /// <summary>
    /// The landing as told at a moment after the launch, with nothing heard: the payload moves along the planned path.
    /// </summary>
    public LandingEstimate At(Instant utc)
    {
        Waypoint now = Landing.Expected(utc) ?? Landing.Path[^1];
        return Landing with
        {
            Method = LandingMethod.Planned,
            Utc = utc,
            Phase = utc < Burst.Utc ? Phase.Ascent : utc < Landing.LandingUtc ? Phase.Descent : Phase.Landed,
            Altitude = now.Height,
            HeardAgeS = utc.SecondsSince(Launch.Utc),
            Path = [now, .. Landing.Path.Where(w => w.Utc > utc)],
        };
    }

    /// <summary>
    /// Moments worth a look: every valid time of the wind files, and whole hours between, at most so many.
    /// </summary>
    /// <param name="plan">The plan.</param>
    /// <param name="near">Where the files tell no date, the moment nearest to this one is meant.</param>
    /// <param name="most">At most so many, at least 2.</param>
    public static ImmutableArray<Instant> Moments(FlightPlan plan, Instant near, int most)
    {
        Instant[] valid = [.. plan.Winds.Where(w => w.Valid is not null).Select(w =>
            w.Valid!.Value.Near(near)).Distinct().Order()];
        if (valid.Length < 2) return [.. valid];
        double hours = Math.Ceiling(valid[^1].SecondsSince(valid[0]) / 3600 / (most - 1));
        List<Instant> moments = [];
        for (Instant at = valid[0]; at < valid[^1]; at += TimeSpan.FromHours(Math.Max(hours, 1))) moments.Add(at);
        return [.. moments, valid[^1]];
    }
}
