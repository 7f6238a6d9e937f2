using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using static Groundstation.Core.Quantities.Measure;

namespace Groundstation.Core.Fixes;

/// <summary>
/// Finds an altitude or a position that stays the same to the last printed digit while the flight moves.
/// Digits repeat by chance as well: at 1 Hz, 5 m/s and 4 m of noise one altitude in 150 equals the one before. So what
/// is weighed is the chance of that many repeats, given the flight's rate, the measured noise and the printed step.
/// On the pad, at float and after landing repeats are the rule and mean nothing.
/// </summary>
internal sealed class FreezeWatch(FlightPlan plan)
{
    // One false refusal in 50 000 fixes: less than one in ten flights at 1 Hz.
    private const double LogChance = -10.8;

    // Some receivers work out the height once a second and print it more often.
    private const double LeastS = 0.95;

    // The ground at the landing may lie this much above the expected one.
    private const double GroundMarginM = 3000;

    private Run _altitude;
    private Run _position;
    private double _altitudeStepM = 1;
    private double _positionStepM = 18.52;
    private double? _lowestM;

    private struct Run
    {
        public Fix? Start;
        public Fix? Newest;
        public int Repeats;
        public double RateMps;
        public double UpMps;
        public double NoiseM;

        // True when the run goes on.
        public bool Take(Fix fix, bool same)
        {
            if (!same)
                (Start, Repeats) = (fix, 0);
            else
                Repeats++;
            Newest = fix;
            return same;
        }

        public readonly double SpanS(Fix fix) => fix.Utc.SecondsSince(Start!.Utc);
    }

    /// <summary>Moves every moment by a span: the date of all of them was found to be another.</summary>
    public void Shift(TimeSpan by)
    {
        Shift(ref _altitude, by);
        Shift(ref _position, by);
    }

    /// <summary>Takes a fix with a position, later than the one before, and names what is frozen in it.</summary>
    /// <param name="fix">The fix.</param>
    /// <param name="track">What was believed before it.</param>
    /// <param name="verdict">Takes the reasons.</param>
    public void Take(Fix fix, Track? track, Verdict verdict)
    {
        LearnSteps(fix);
        if (fix.Height is { } height)
        {
            _lowestM = Math.Min(_lowestM ?? height.Metres, height.Metres);
            bool same = _altitude.Newest?.Height?.Metres == height.Metres;
            if (_altitude.Take(fix, same) && track?.Velocity(15) is { } v)
            {
                if (_altitude.Repeats == 1)
                    (_altitude.RateMps, _altitude.NoiseM) = (v.Up, track.VerticalNoiseM);
                if (AltitudeFrozen(fix))
                {
                    Measure rate = VerticalRate(_altitude.RateMps).Signed;
                    verdict.Add(RefusalReasons.FrozenAltitude, $"altitude frozen at {Height(height.Metres):F1} for "
                        + $"{_altitude.SpanS(fix):F1} s, flight has {rate}");
                }
            }
        }

        bool samePlace = _position.Newest?.Position == fix.Position;
        if (_position.Take(fix, samePlace) && track?.Velocity(3.5) is { } motion)
        {
            if (_position.Repeats == 1)
            {
                _position.RateMps = Math.Sqrt(motion.East * motion.East + motion.North * motion.North);
                (_position.UpMps, _position.NoiseM) = (motion.Up, track.HorizontalNoiseM);
            }

            if (PositionFrozen(fix))
                verdict.Add(RefusalReasons.FrozenPosition,
                    $"position frozen for {_position.SpanS(fix):F1} s, flight has {Speed(_position.RateMps):F1}");
        }
    }

    private bool AltitudeFrozen(Fix fix)
    {
        double rate = Math.Abs(_altitude.RateMps);
        double span = _altitude.SpanS(fix);
        if (rate < 1 || span < LeastS
            || LogOfChance(_altitude.Repeats, span, rate * span, _altitudeStepM, _altitude.NoiseM) > LogChance)
            return false;
        // Just after a burst the flight comes through the height it had a moment ago: likely in whole metres at 1 Hz.
        double fallen = rate * span + MotionLimits.FallMps2 / 2 * span * span;
        if (_altitude.Repeats == 1 && _altitudeStepM > 0.02 * fallen)
            return false;
        (double east, double north) = Track.Metres(_altitude.Start!.Position!.Value, fix.Position!.Value);
        bool moving = fix.SpeedMps is { } said ? said >= 1.5
            : Math.Sqrt(east * east + north * north) > Math.Max(15, 3 * _positionStepM);
        return moving || (rate >= 2 && !MayStand(fix, _altitude.RateMps, span));
    }

    private bool PositionFrozen(Fix fix)
    {
        double span = _position.SpanS(fix);
        double drift = _position.RateMps * span;
        bool inFlight = _position.RateMps >= 3 || Math.Abs(_position.UpMps) >= 1.5;
        return inFlight && span >= LeastS && drift > Math.Max(2, 5 * _positionStepM)
            && 2 * LogOfChance(_position.Repeats, span, drift, _positionStepM, _position.NoiseM) <= LogChance
            && !(MayStand(fix, _position.UpMps, span) && Standing(fix));
    }

    // The same height as at the position's run start: nothing moves at all.
    private bool Standing(Fix fix) => fix.Height is null || _position.Start?.Height is not { } start
        || Math.Abs(fix.Height.Value.Metres - start.Metres) < 5 * Math.Max(_altitudeStepM, 1);

    // May it have come to stand on the ground (or in a tree), where a receiver holds its values?
    private bool MayStand(Fix fix, double upMps, double spanS)
    {
        if (fix.SpeedMps >= 1.5)
            return false;
        // A car at a light, or a receiver that has said for a minute that it stands.
        if (fix.SpeedMps < 0.5 && (Math.Abs(upMps) < 1 || spanS > 60))
            return true;
        double ground = (plan.LandingGround ?? plan.LaunchHeight)?.Metres ?? _lowestM ?? 0;
        double? height = fix.Height?.Metres ?? _position.Start?.Height?.Metres;
        return height < ground + (upMps < 0 ? GroundMarginM : 300);
    }

    // n repeats on a ramp of so many metres in all: n + 1 readings of the ramp plus noise would all have to fall into
    // one printed step. Within a second readings are not independent, so faster ones count as one a second; and a
    // receiver's noise wanders, so that over several readings it moves farther than from one to the next.
    private static double LogOfChance(int repeats, double spanS, double rampM, double stepM, double noiseM)
    {
        double n = Math.Min(repeats, Math.Max(1, Math.Floor(spanS + 0.1)));
        double sigma = Math.Max(noiseM, 0.3 * stepM) * Math.Sqrt(repeats / n * Math.Min(n, 4));
        double spread = rampM * rampM * (n + 1) * (n + 2) / (12 * n);
        return n * Math.Min(0, Math.Log(stepM / (Math.Sqrt(2 * Math.PI) * sigma))) - spread / (2 * sigma * sigma);
    }

    // The printed steps are the smallest seen: an altitude of 345.2 has steps of at most 0.1.
    private void LearnSteps(Fix fix)
    {
        while (fix.Height is { } h && _altitudeStepM > 0.002
            && Math.Abs(h.Metres / _altitudeStepM - Math.Round(h.Metres / _altitudeStepM)) > 1e-4)
            _altitudeStepM /= 10;
        // A minute of arc is a nautical mile of latitude; receivers print it with two to seven decimals.
        GeoPoint place = fix.Position!.Value;
        foreach (double degrees in (ReadOnlySpan<double>)[place.LatitudeDeg, place.LongitudeDeg])
        {
            while (_positionStepM > 0.0002 && !IsWhole(degrees * 60 * 1852 / _positionStepM))
                _positionStepM /= 10;
        }
    }

    private static bool IsWhole(double steps) => Math.Abs(steps - Math.Round(steps)) < 0.01;

    private static void Shift(ref Run run, TimeSpan by)
    {
        bool one = ReferenceEquals(run.Start, run.Newest);
        run.Start = run.Start is { } start ? start with { Utc = start.Utc + by } : null;
        run.Newest = one ? run.Start : run.Newest is { } newest ? newest with { Utc = newest.Utc + by } : null;
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public FreezeWatch Copy() => (FreezeWatch)MemberwiseClone();
}
