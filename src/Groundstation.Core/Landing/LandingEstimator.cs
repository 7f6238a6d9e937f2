using System.Collections.Immutable;
using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Landing;

/// <summary>
/// Where the payload will come down: the expected path from the newest believed fix, and the search areas from an
/// ensemble around it. In silence the path goes on: nothing new is known, so the place stays, and the payload moves
/// along the path. Size and cost do not grow with the flight.
/// </summary>
public sealed class LandingEstimator
{
    // What the mean of some minutes is off by, in each component: 3.3 m in the open (GPS SPS performance standard of 2020:
    // 8 m in 95 of 100), more where payloads lie, among trees.
    private const double StandingSigmaM = 5;

    // Radii of a circular normal distribution that hold 50 and 95 %: √(2 ln 2), √(2 ln 20).
    private const double Half = 1.1774, Most = 2.4477;

    private readonly FlightPlan _plan;
    private GroundHeight _ground;
    private Outlook _outlook;
    private ClimbTable _climb = new();
    private FallTable _fall = new();
    private Route _route = new();
    private double[] _east = new double[Levels.Count];
    private double[] _north = new double[Levels.Count];
    private double[] _speedSquared = new double[Levels.Count];
    private Projection? _newest;
    private Fix? _of;
    private int _cast = -1;

    /// <summary>An estimator for a flight.</summary>
    /// <param name="plan">The plan in force.</param>
    /// <param name="terrain">Height of the ground at a place, metres above mean sea level; null where not known.</param>
    public LandingEstimator(FlightPlan plan, Func<GeoPoint, double?>? terrain = null)
    {
        _plan = plan;
        _ground = new GroundHeight(plan, terrain);
        _outlook = new Outlook(plan);
    }

    /// <summary>The operator gives the height of the ground where it will land, metres above mean sea level.</summary>
    public void TellGround(double heightM)
    {
        _ground.ToldM = heightM;
        (_of, _cast) = (null, -1);
    }

    /// <summary>The estimate for a moment; null before the first believed fix.</summary>
    /// <param name="flight">The flight so far.</param>
    /// <param name="utc">The moment.</param>
    /// <param name="silent">True when nothing believed has been heard for longer than usual.</param>
    /// <param name="altitudeLimit">Height above which the tracker gives no fix, if one is known.</param>
    /// <param name="unheardLaunch">
    /// When it was launched, where only the operator saw it: the flight's newest fix stands on the pad. Null otherwise.
    /// </param>
    public LandingEstimate? Estimate(FlightTracker flight, Instant utc, bool silent, HeightMsl? altitudeLimit,
        Instant? unheardLaunch = null)
    {
        if (flight.Newest is not { Position: { } place, Height: { } height } newest) return null;
        double age = Math.Max(0, utc.SecondsSince(newest.Utc));
        if (flight is { Phase: Phase.Landed, Landed: { } at }) return Standing(at, utc, age);
        if (!ReferenceEquals(_of, newest))
        {
            _newest = Project(flight, place, height.Metres, newest.Utc);
            _of = newest;
        }
        // On the pad nothing moves along the path by itself: it would begin now.
        bool waits = flight.Phase == Phase.Pad && unheardLaunch is null;
        Instant from = waits ? utc : unheardLaunch ?? newest.Utc;
        return Row(_newest!, flight.Phase, from, utc, age, silent && !waits, altitudeLimit);
    }

    private LandingEstimate Row(Projection p, Phase phase, Instant from, Instant utc, double age, bool silent,
        HeightMsl? limit)
    {
        Waypoint now = _route.At(utc.SecondsSince(from), from);
        Waypoint? again = limit is { } h && _route.FallsThrough(h.Metres) is { } seconds
            ? _route.At(seconds, from) : null;
        Phase expected = !silent ? phase : utc.SecondsSince(from) switch
        {
            var s when s < p.TopS => phase == Phase.Float ? Phase.Float : Phase.Ascent,
            var s when s < p.Seconds => Phase.Descent,
            _ => Phase.Landed,
        };
        return new LandingEstimate
        {
            Utc = utc,
            Phase = expected,
            Altitude = silent ? now.Height : new HeightMsl(_of!.Height!.Value.Metres),
            Position = p.Position,
            Ground = new HeightMsl(p.GroundM),
            LandingUtc = from.PlusSeconds(p.Seconds),
            LandingSigmaS = p.SigmaS,
            Method = silent ? LandingMethod.Silent : phase switch
            {
                Phase.Descent => LandingMethod.Descent,
                Phase.Float => LandingMethod.Float,
                _ => LandingMethod.Ascent,
            },
            Area50 = p.Half,
            Area95 = p.Most,
            LastWind = p.LastWind,
            HeardAgeS = age,
            Causes = p.Causes,
            Path = silent ? [now, .. p.Path.Select(w => w with { Utc = w.Utc + (from - p.From) }).Where(w => w.Utc > utc)]
                : p.Path,
            Cloud = p.Cloud,
            HearAgainUtc = again?.Utc,
            HearAgainAt = again?.Position,
        };
    }

    private static LandingEstimate Standing(Waypoint at, Instant utc, double age)
    {
        SearchArea Of(double scale) => new(scale * StandingSigmaM, scale * StandingSigmaM, 0);
        return new LandingEstimate
        {
            Utc = utc,
            Phase = Phase.Landed,
            Altitude = at.Height,
            Position = at.Position,
            Ground = at.Height,
            LandingUtc = at.Utc,
            Method = LandingMethod.Landed,
            Area50 = Of(Half),
            Area95 = Of(Most),
            LastWind = at.Position,
            HeardAgeS = age,
            Causes = "receiver noise",
            Path = [at],
        };
    }

    private Projection Project(FlightTracker flight, GeoPoint place, double heightM, Instant utc)
    {
        bool climbs = flight.Phase is Phase.Pad or Phase.Ascent;
        flight.Winds.FillLevels(_east, _north);
        double leaking = flight.Descent.FillSpeedSquared(_speedSquared, heightM);
        var burst = new BurstOutlook(_plan.BurstHeight.Metres, _plan.BurstSigmaM, Math.Max(heightM, flight.HighestM));
        double top = climbs ? Math.Min(burst.Expected(), Levels.TopM - Levels.StepM) : heightM;
        double highest = climbs ? Math.Min(burst.Quantile(1 - 1e-6), Levels.TopM - Levels.StepM) : heightM;
        GroundGuess ground = _ground.Guess(flight.PadPlace, flight.DistanceFromPadM(place));
        if (!climbs) ground = ground with { CeilingM = heightM };
        double groundM = Math.Max(ground.Expected(), Levels.BottomM);
        double bottom = _ground.HasTerrain ? Levels.BottomM : groundM;

        _route.Begin(place, heightM);
        FloatOutlook? floats = flight.Phase == Phase.Float
            ? new FloatOutlook(flight.FloatingS, flight.Winds.At(heightM)) : null;
        if (floats is { } f) _route.Drift(f.ExpectedS, f.Wind);
        if (climbs)
        {
            _climb.Fill(heightM, flight.Ascent.Mps, _east, _north);
            _route.Climb(_climb, top);
        }
        _fall.Fill(highest, climbs ? null : flight.StartOfFallMps, _speedSquared, _east, _north, bottom);
        _route.Fall(_fall, groundM, _ground.HasTerrain ? _ground.Terrain : null);
        // Terrain tells the height of the ground at the middle of the area; across it the ground rises and falls.
        if (_ground.HasTerrain) ground = ground with { HeightM = groundM = _route.EndM, SigmaM = 20 };
        double groundMps = Math.Sqrt(Levels.At(_speedSquared, groundM));
        if (_cast != flight.Revision)
        {
            var ahead = new Ahead
            {
                StartM = heightM,
                TopM = top,
                Climb = climbs ? _climb : null,
                Burst = burst,
                Float = floats,
                Fall = _fall,
                LeakLnSigma = leaking,
            };
            _outlook.Cast(flight, ahead, ground, groundM, groundMps);
            _cast = flight.Revision;
        }
        (double east, double north, double seconds) = _outlook.Mean;
        GeoPoint end = _route.End, mean = LocalFrame.Move(end, east, north, 0);
        // The mean of the places lies beside the expected path's end: its ground is another one.
        double meanGroundM = (_ground.HasTerrain ? _ground.Terrain(mean) : null) ?? _route.EndM;
        return new Projection(utc, mean, meanGroundM, _route.EndS + seconds,
            _outlook.SecondsSigma, _outlook.Areas.Half, _outlook.Areas.Most, LastWind(flight, place), _outlook.Causes,
            _route.Thin(utc), _route.TopS,
            [.. _outlook.Cloud.Select(m => LocalFrame.Move(end, m.EastM, m.NorthM, 0))]);
    }

    /// <summary>The plain estimate: the same climb and fall, but the newest wind all the way.</summary>
    private GeoPoint? LastWind(FlightTracker flight, GeoPoint place)
    {
        if (flight.Winds.LastWind is not { } wind) return null;
        double distance = wind.SpeedMps * _route.EndS;
        return Geodesic.Direct(place, (wind.FromDeg + 180) % 360, distance);
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal LandingEstimator Copy()
    {
        var copy = (LandingEstimator)MemberwiseClone();
        copy._ground = _ground.Copy();
        copy._outlook = _outlook.Copy();
        copy._climb = _climb.Copy();
        copy._fall = _fall.Copy();
        copy._route = _route.Copy();
        copy._east = [.. _east];
        copy._north = [.. _north];
        copy._speedSquared = [.. _speedSquared];
        return copy;
    }
}
