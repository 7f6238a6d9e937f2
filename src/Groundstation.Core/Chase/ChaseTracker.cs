using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Chase;

/// <summary>Follows the chase car: its way of the last ten minutes, in steps of ten seconds. Size does not grow.</summary>
/// <param name="plan">Road factor, and speed where none is measured.</param>
internal sealed class ChaseTracker(FlightPlan plan)
{
    private const double KeptS = 600, StepS = 10, LeastS = 60;

    // Slower than a walk the car stands, and its mean speed says nothing on how it will drive.
    private const double StandingMps = 2;

    private Queue<(Instant At, GeoPoint Place)> _way = new();
    private (Instant At, GeoPoint Place, bool Typed)? _newest;
    private Instant _step;

    /// <summary>The car is somewhere.</summary>
    /// <param name="at">Station time.</param>
    /// <param name="place">Where.</param>
    /// <param name="typed">True when the operator typed it.</param>
    public void Take(Instant at, GeoPoint place, bool typed)
    {
        // Station time goes back when the tracker's date becomes known: the way before is in another time.
        if (_newest is { } before && at < before.At) _way.Clear();
        _newest = (at, place, typed);
        if (_way.Count > 0 && at.SecondsSince(_step) < StepS) return;
        _way.Enqueue((at, place));
        _step = at;
        while (at.SecondsSince(_way.Peek().At) > KeptS) _way.Dequeue();
    }

    /// <summary>Station time has jumped by a span: moves every moment along.</summary>
    public void Shift(TimeSpan by)
    {
        _way = new(_way.Select(step => (step.At + by, step.Place)));
        _newest = _newest is { } car ? car with { At = car.At + by } : null;
        _step += by;
    }

    /// <summary>How the chase stands; null while the car's place is not known.</summary>
    /// <param name="utc">Station time.</param>
    /// <param name="balloon">The balloon's place, heard or expected.</param>
    /// <param name="lastHeard">Place of the newest believed fix.</param>
    /// <param name="landing">The landing estimate.</param>
    public ChaseState? State(Instant utc, GeoPoint? balloon, GeoPoint? lastHeard, LandingEstimate? landing)
    {
        if (_newest is not { } car) return null;
        double? speed = Speed(utc);
        bool standing = speed is not > StandingMps;
        double counted = standing ? plan.ChaseSpeedMps : speed!.Value;
        GeodesicLine? way = To(car.Place, landing?.Position);
        double? drive = way?.DistanceM * plan.ChaseRoadFactor / counted;
        bool down = landing is null or { Phase: Phase.Landed };
        return new()
        {
            Position = car.Place,
            AgeS = Math.Max(0, utc.SecondsSince(car.At)),
            Typed = car.Typed,
            SpeedMps = speed,
            ClosingMps = landing is null ? null : Closing(utc, car.Place, landing.Position),
            ToLanding = way,
            ToBalloon = To(car.Place, balloon),
            ToLastHeard = To(car.Place, lastHeard),
            CountedMps = counted,
            SpeedFromPlan = standing,
            DriveS = drive,
            LandingUtc = landing?.LandingUtc,
            MarginS = down ? null : landing!.LandingUtc.SecondsSince(utc) - drive,
        };
    }

    private static GeodesicLine? To(GeoPoint from, GeoPoint? to) => to is { } place ? Geodesic.Inverse(from, place) : null;

    private double? Speed(Instant utc)
    {
        double metres = 0, seconds = 0;
        (Instant At, GeoPoint Place)? last = null;
        foreach (var step in _way.Append((_newest!.Value.At, _newest.Value.Place)))
        {
            if (utc.SecondsSince(step.Item1) > KeptS) continue;
            if (last is { } from)
            {
                metres += Geodesic.Inverse(from.Place, step.Item2).DistanceM;
                seconds += step.Item1.SecondsSince(from.At);
            }
            last = step;
        }
        return seconds >= LeastS ? metres / seconds : null;
    }

    // Against the place of a minute or more ago: shorter than that, receiver noise would be half of it.
    private double? Closing(Instant utc, GeoPoint now, GeoPoint target)
    {
        Instant at = _newest!.Value.At;
        (Instant At, GeoPoint Place)? then = null;
        foreach (var step in _way)
            if (at.SecondsSince(step.At) >= LeastS && utc.SecondsSince(step.At) <= KeptS) then = step;
        return then is { } before
            ? (Geodesic.Inverse(before.Place, target).DistanceM - Geodesic.Inverse(now, target).DistanceM)
                / at.SecondsSince(before.At) : null;
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public ChaseTracker Copy()
    {
        var copy = (ChaseTracker)MemberwiseClone();
        copy._way = new Queue<(Instant At, GeoPoint Place)>(_way);
        return copy;
    }
}
