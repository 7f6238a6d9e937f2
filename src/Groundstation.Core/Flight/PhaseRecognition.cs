using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Flight;

/// <summary>
/// Recognises the phase from believed fixes. A climb or fall counts when it goes on through four consecutive parts of a
/// window, so that a single jump of the receiver (one step, level before and after) is neither.
/// </summary>
internal sealed class PhaseRecognition
{
    /// <summary>A recording that begins with the climb is taken to begin on the ground up to this height, m.</summary>
    private const double HighestUnseenPadM = 2000;

    /// <summary>Rise above the pad that makes a launch, m: beyond the wander of GPS heights, 20 m at worst.</summary>
    private const double LaunchRiseM = 40;

    /// <summary>Fall below the highest fix that makes a descent, m: balloons bob by some metres.</summary>
    private const double FallM = 60;

    /// <summary>Fall below a float's mean that makes a descent, m: five times what a poor receiver's height wanders by.</summary>
    private const double FloatFallM = 80;

    /// <summary>What stands so far below the highest fix is no float that began there, m.</summary>
    private const double GroundBelowTopM = 300;

    private FixWindow _window = new();
    private double _padLat, _padLon, _padHeight;
    private int _padCount;
    private double _lowestSince = double.PositiveInfinity;
    private double _floatM;
    private Fix? _top;
    private Fix? _first;

    public Phase Phase { get; private set; } = Phase.Pad;

    public Waypoint? Pad { get; private set; }

    public Waypoint? Launch { get; private set; }

    public Waypoint? Highest { get; private set; }

    public Waypoint? Burst { get; private set; }

    /// <summary>True when the turn from climb to fall was heard, not only the fall.</summary>
    public bool BurstHeard { get; private set; }

    public Waypoint? Landed { get; private set; }

    /// <summary>Smoothed vertical rate, m/s.</summary>
    public double? RateMps => _window.Count < 2 ? null : _window.Rate(15);

    /// <summary>Takes a believed fix; true when the phase changed.</summary>
    public bool Take(Fix fix)
    {
        // Silence: what lies before it says nothing on the rate now.
        if (_window.Count > 0 && fix.Utc.SecondsSince(_window[0].Utc) is > 120 or < 0) _window.Clear();
        _window.Add(fix);
        _first ??= fix;
        if (Highest is not { } h || fix.Height!.Value.Metres > h.Height.Metres) Highest = At(fix);
        if (_top is null || fix.Height!.Value.Metres > _top.Height!.Value.Metres) _top = fix;
        Phase before = Phase;
        Phase = Next(fix);
        if (Phase != before) Changed(before);
        else if (Phase == Phase.Float) _floatM += (fix.Height!.Value.Metres - _floatM) * FloatShare();
        return Phase != before;
    }

    /// <summary>
    /// The next fix was believed against those before it: they tell nothing of how it moves, and where they stand against
    /// it, the highest so far and the mean of the pad or of a float are wrong.
    /// </summary>
    public void BreakOff(Fix fix)
    {
        _window.Clear();
        if (Phase is Phase.Pad) _padCount = 0;
        if (Phase is Phase.Pad or Phase.Ascent or Phase.Float) (Highest, _top) = (At(fix), fix);
        if (Phase is Phase.Float) _floatM = fix.Height!.Value.Metres;
        if (Phase is Phase.Landed) Landed = At(fix);
    }

    private Phase Next(Fix fix)
    {
        double height = fix.Height!.Value.Metres;
        Motion now = new(_window);
        int trend = now.Trend();
        switch (Phase)
        {
            case Phase.Pad:
                if (trend > 0 && (_padCount == 0 || height > _padHeight + LaunchRiseM)) return Phase.Ascent;
                if (trend < 0 && (_padCount == 0 || height < _padHeight - 2 * FallM)) return Phase.Descent;
                if (_padCount > 0 && now.Drifting()) return Phase.Float;
                Stand(fix);
                return Phase.Pad;
            case Phase.Ascent:
            case Phase.Float:
                // The highest of an hour's float is the highest of its noise: what counts is its mean.
                double least = Phase == Phase.Float ? _floatM - FloatFallM : _top!.Height!.Value.Metres - FallM;
                if (trend < 0 && height < least) return Phase.Descent;
                if (now.Leaking(_top!.Height!.Value.Metres)) return Phase.Descent;
                // Two minutes are level on the whole when the last of them began a climb or fall: the trend comes first.
                if (trend > 0) return Phase == Phase.Ascent || height > _floatM + FallM ? Phase.Ascent : Phase.Float;
                // What came down is on the ground when it stands; one that floats at its top may drift as slowly.
                if (Phase == Phase.Float)
                    return height < Highest!.Value.Height.Metres - GroundBelowTopM && now.Standing() ? Phase.Landed : Phase.Float;
                return now.Level() ? (now.Standing() && !Risen() ? Phase.Pad : Phase.Float) : Phase.Ascent;
            case Phase.Descent:
                _lowestSince = Math.Min(_lowestSince, height);
                if (trend > 0 && height > _lowestSince + FallM) return Phase.Ascent;
                if (now.Standing()) return Phase.Landed;
                return trend == 0 && now.Level() ? Phase.Float : Phase.Descent;
            default:
                // Landed is only left in the air: picked up and driven away it stays landed.
                double landed = Landed!.Value.Height.Metres;
                if (trend > 0 && height > landed + 300) return Phase.Ascent;
                if (trend < 0 && height < landed - 300) return Phase.Descent;
                return Phase.Landed;
        }
    }

    private void Changed(Phase before)
    {
        Fix newest = _window[0];
        switch (Phase)
        {
            case Phase.Ascent when before == Phase.Pad:
                if (_padCount > 0)
                {
                    Pad = PadMean();
                    Launch = LaunchMoment();
                    // First heard already climbing, and higher than teams launch: no ground was seen.
                    if (_padHeight > HighestUnseenPadM && Launch.Value.Utc.SecondsSince(_first!.Utc) < 10)
                        (Pad, Launch) = (null, null);
                }
                _top = newest;
                break;
            case Phase.Descent:
                (Burst, BurstHeard) = TopOfWindow();
                _lowestSince = newest.Height!.Value.Metres;
                break;
            case Phase.Landed:
                Landed = At(newest);
                break;
            case Phase.Float:
                _floatM = _window.MeanHeightM(110);
                break;
            case Phase.Ascent:
                (Burst, Landed) = (null, null);
                _top = newest;
                break;
            case Phase.Pad:
                Launch = null;
                break;
        }
    }

    // The newest fix's share in a mean over ten minutes.
    private double FloatShare() =>
        _window.Count < 2 ? 0 : 1 - Math.Exp(-_window[0].Utc.SecondsSince(_window[1].Utc) / 600);

    private bool Risen() => _window[0].Height!.Value.Metres > (Pad?.Height.Metres ?? double.NegativeInfinity) + 300;

    private void Stand(Fix fix)
    {
        // A running mean over the last five minutes at 1 Hz; thereafter old fixes fade.
        _padCount = Math.Min(_padCount + 1, 300);
        GeoPoint origin = _first!.Position!.Value, place = fix.Position!.Value;
        _padLat += (place.LatitudeDeg - origin.LatitudeDeg - _padLat) / _padCount;
        _padLon += (Math.IEEERemainder(place.LongitudeDeg - origin.LongitudeDeg, 360) - _padLon) / _padCount;
        _padHeight += (fix.Height!.Value.Metres - _padHeight) / _padCount;
        Pad = PadMean();
    }

    private Waypoint PadMean()
    {
        GeoPoint origin = _first!.Position!.Value;
        return new(_first.Utc, new GeoPoint(origin.LatitudeDeg + _padLat,
            Math.IEEERemainder(origin.LongitudeDeg + _padLon, 360)), new HeightMsl(_padHeight));
    }

    /// <summary>When the climb, run back at its rate, was at the pad's height.</summary>
    private Waypoint LaunchMoment()
    {
        Fix newest = _window[0];
        double rate = Math.Max(_window.Rate(20) ?? Motion.MovingMps, Motion.MovingMps);
        Instant at = newest.Utc.PlusSeconds(-(newest.Height!.Value.Metres - _padHeight) / rate);
        return new(at, Pad!.Value.Position, Pad.Value.Height);
    }

    /// <summary>
    /// The highest fix of the window, and whether the turn itself was heard: with a fix before and after it, none of them
    /// more than a minute off. A tracker that comes back falling, from above its altitude limit, turned elsewhere.
    /// </summary>
    private (Waypoint Top, bool Heard) TopOfWindow()
    {
        int top = 0;
        for (int i = 1; i < _window.Count; i++)
            if (_window[i].Height!.Value.Metres > _window[top].Height!.Value.Metres) top = i;
        Fix at = _window[top];
        bool before = top + 1 < _window.Count && at.Utc.SecondsSince(_window[top + 1].Utc) <= 60;
        bool after = top > 0 && _window[top - 1].Utc.SecondsSince(at.Utc) <= 60;
        return (At(at), before && after);
    }

    private static Waypoint At(Fix fix) => new(fix.Utc, fix.Position!.Value, fix.Height!.Value);

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public PhaseRecognition Copy()
    {
        var copy = (PhaseRecognition)MemberwiseClone();
        copy._window = _window.Copy();
        return copy;
    }
}
