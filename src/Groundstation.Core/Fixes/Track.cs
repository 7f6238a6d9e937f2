using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Fixes;

/// <summary>How far a fix lies from where the track would have it, and how far it may. Metres.</summary>
/// <param name="HorizontalM">Distance from the predicted place.</param>
/// <param name="HorizontalGateM">How far that may be.</param>
/// <param name="VerticalM">Height above (positive) or below the predicted; null for a fix without height.</param>
/// <param name="UpGateM">How far above the predicted height it may be.</param>
/// <param name="DownGateM">How far below the predicted height it may be, positive.</param>
internal readonly record struct Innovation(double HorizontalM, double HorizontalGateM, double? VerticalM,
    double UpGateM, double DownGateM)
{
    public bool HorizontalFits => HorizontalM <= HorizontalGateM;

    public bool VerticalFits => VerticalM is not { } v || (v <= UpGateM && v >= -DownGateM);

    public bool Fits => HorizontalFits && VerticalFits;

    /// <summary>Distance in space from where it should be, m.</summary>
    public double DistanceM => double.Hypot(HorizontalM, VerticalM ?? 0);

    /// <summary>How far beyond the farther one of the gates, m; 0 when it fits.</summary>
    public double BeyondM => Math.Max(Math.Max(0, HorizontalM - HorizontalGateM),
        VerticalM is { } v ? Math.Max(v - UpGateM, -v - DownGateM) : 0);

    /// <summary>More than half way to a gate.</summary>
    public bool Doubtful => HorizontalM > HorizontalGateM / 2 || VerticalM > UpGateM / 2 || -VerticalM > DownGateM / 2;
}

/// <summary>
/// A row of fixes that belong together, the velocity in it, and the set of places the flight can have reached since.
/// The set grows with the time since the newest fix after <see cref="MotionLimits"/>: what is judged is whether a
/// flight can have come there, not whether that is likely, so that a burst passes and a slip of digits does not.
/// </summary>
internal sealed class Track
{
    private const double MetresPerDegree = 111_195;
    private const int Kept = 24;

    // A velocity from two fixes closer than this is mostly noise; from fixes farther apart it is mostly stale.
    private const double VelocitySpanS = 3.5;

    private static readonly TimeSpan LeapSecond = new(0, 23, 59, 59, 999);

    private readonly record struct Sample(Instant Utc, GeoPoint Position, double HeightM);

    private Sample[] _older = new Sample[Kept];
    private int _olderCount;
    private Sample _newest;
    private double _newestHdop;
    private (double East, double North)? _saidMps;

    /// <summary>A track of one fix, which must have position and height.</summary>
    public Track(Fix fix)
    {
        First = fix.Utc;
        Heard = fix.Heard;
        Set(fix);
    }

    /// <summary>Fixes in it.</summary>
    public int Count { get; private set; }

    /// <summary>UTC of its first fix.</summary>
    public Instant First { get; private set; }

    /// <summary>UTC of its newest fix.</summary>
    public Instant Utc => _newest.Utc;

    /// <summary>Arrival of its newest fix.</summary>
    public Instant Heard { get; private set; }

    /// <summary>Height of its newest fix, metres above mean sea level.</summary>
    public double HeightM => _newest.HeightM;

    /// <summary>Place of its newest fix.</summary>
    public GeoPoint Position => _newest.Position;

    /// <summary>Measured standard deviation of one fix's height, metres; starts at 2.</summary>
    public double VerticalNoiseM { get; private set; } = 2;

    /// <summary>Measured standard deviation of one fix's place on one axis, metres; starts at 2.</summary>
    public double HorizontalNoiseM { get; private set; } = 2;

    /// <summary>
    /// True when the newest fix only just fitted: it may be the slip itself, and what does not fit it the truth.
    /// </summary>
    public bool NewestDoubtful { get; private set; }

    /// <summary>Takes one more fix, later than the newest.</summary>
    public void Add(Fix fix, bool doubtful = false)
    {
        LearnNoise(fix);
        NewestDoubtful = doubtful;
        // Twenty fixes a second would push the velocity's far end out of the row within a second.
        if (_olderCount == 0 || _newest.Utc.SecondsSince(_older[0].Utc) > 0.9)
        {
            int keep = Math.Min(_olderCount, Kept - 1);
            Array.Copy(_older, 0, _older, 1, keep);
            _older[0] = _newest;
            _olderCount = keep + 1;
        }

        Set(fix);
    }

    /// <summary>The track as it was before its newest fix, of which there must be more than one.</summary>
    public Track WithoutNewest()
    {
        var former = (Track)MemberwiseClone();
        former._newest = _older[0];
        former._older = _older[1..];
        Array.Resize(ref former._older, Kept);
        former._olderCount = _olderCount - 1;
        former._saidMps = null;
        former.NewestDoubtful = false;
        former.Count = Count - 1;
        return former;
    }

    /// <summary>Moves every moment by a span: the date of all of them was found to be another.</summary>
    public void Shift(TimeSpan by)
    {
        First += by;
        _newest = _newest with { Utc = _newest.Utc + by };
        for (int i = 0; i < _olderCount; i++)
            _older[i] = _older[i] with { Utc = _older[i].Utc + by };
    }

    /// <summary>
    /// Velocity over at least <paramref name="spanS"/> seconds if the track is that long, m/s east, north and up, and
    /// the span it was taken over; null with one fix.
    /// </summary>
    public (double East, double North, double Up, double SpanS)? Velocity(double spanS)
    {
        if (_olderCount == 0)
            return null;
        int i = 0;
        while (i < _olderCount - 1 && _newest.Utc.SecondsSince(_older[i].Utc) < spanS)
            i++;
        double span = _newest.Utc.SecondsSince(_older[i].Utc);
        (double east, double north) = Metres(_older[i].Position, _newest.Position);
        return (east / span, north / span, (_newest.HeightM - _older[i].HeightM) / span, span);
    }

    /// <summary>Metres east and north from one place to another not far away (error below 1 %).</summary>
    public static (double East, double North) Metres(GeoPoint from, GeoPoint to)
    {
        double longitude = to.LongitudeDeg - from.LongitudeDeg;
        longitude -= 360 * Math.Round(longitude / 360);
        double middle = (from.LatitudeDeg + to.LatitudeDeg) / 2 * Math.PI / 180;
        return (longitude * MetresPerDegree * Math.Cos(middle),
            (to.LatitudeDeg - from.LatitudeDeg) * MetresPerDegree);
    }

    /// <summary>Where a fix lies against the track; it must be later than the newest and have a position.</summary>
    public Innovation Compare(Fix fix)
    {
        double dt = fix.Utc.SecondsSince(_newest.Utc);
        // A leap second is given as 59.999: a whole second goes by in the millisecond after it.
        if (_newest.Utc.TimeOfDay >= LeapSecond)
            dt += 1;
        double dop = Math.Max(1, Math.Max(fix.Hdop ?? 1, _newestHdop));
        double horizontalNoise = 1.5 * Noise(MotionLimits.HorizontalSigmaM, HorizontalNoiseM, dop);
        double verticalNoise = Noise(MotionLimits.VerticalSigmaM, VerticalNoiseM, dop);

        (double East, double North, double Up, double SpanS)? velocity = Velocity(VelocitySpanS);
        (double vEast, double vNorth, double vUp, double span) = velocity ?? (0, 0, 0, 0);
        double fall = MotionLimits.FallMps(_newest.HeightM);

        // The velocity is that of the span's middle: half a span ago. Since then everything may have changed.
        double lag = span / 2;
        double arrest = vUp < -8 ? MotionLimits.ArrestMps2 : MotionLimits.LiftMps2;
        double downMps = velocity is null ? -fall
            : Math.Max(-fall, vUp - MotionLimits.FallMps2 * lag - verticalNoise / span);
        double upMps = velocity is null ? MotionLimits.ClimbMps
            : Math.Min(MotionLimits.ClimbMps, vUp + arrest * lag + verticalNoise / span);
        double lowest = Math.Max(-fall * dt, downMps * dt - MotionLimits.FallMps2 / 2 * dt * dt);
        double highest = Math.Min(MotionLimits.ClimbMps * dt, upMps * dt + arrest / 2 * dt * dt);

        double sink = Math.Max(MotionLimits.ClimbMps, Math.Abs(Math.Max(lowest / dt, -fall)));
        double accelerationMps2 = MotionLimits.GustMps2 + MotionLimits.ShearPerS * sink;
        double horizontalMps;
        if (velocity is not null)
            horizontalMps = MotionLimits.SwingMps + accelerationMps2 * lag + horizontalNoise / span;
        else if (_saidMps is { } said)
            (vEast, vNorth, horizontalMps) = (said.East, said.North, 2 * MotionLimits.SwingMps);
        else
            horizontalMps = MotionLimits.WindMps;
        double limitMps = velocity is null ? MotionLimits.WindMps : MotionLimits.VelocityChangeMps;
        double reach = Math.Min(limitMps * dt, horizontalMps * dt + accelerationMps2 / 2 * dt * dt);

        (double east, double north) = Metres(_newest.Position, fix.Position!.Value);
        double offEast = east - vEast * dt;
        double offNorth = north - vNorth * dt;
        double expected = vUp * dt;
        return new(Math.Sqrt(offEast * offEast + offNorth * offNorth), horizontalNoise + reach,
            fix.Height is { } height ? height.Metres - _newest.HeightM - expected : null,
            verticalNoise + Math.Max(0, highest - expected), verticalNoise + Math.Max(0, expected - lowest));
    }

    private static double Noise(double floorM, double measuredM, double dop) =>
        MotionLimits.Sigmas * Math.Sqrt(2) * Math.Max(floorM, measuredM) * dop;

    private void Set(Fix fix)
    {
        _newest = new(fix.Utc, fix.Position!.Value, fix.Height!.Value.Metres);
        _newestHdop = fix.Hdop ?? 1;
        _saidMps = null;
        if (fix.SpeedMps is { } speed && (fix.CourseDeg is not null || speed < 1))
        {
            (double sin, double cos) = Math.SinCos((fix.CourseDeg ?? 0) * Math.PI / 180);
            _saidMps = (speed * sin, speed * cos);
        }

        Heard = fix.Heard;
        Count++;
    }

    // The scatter about a straight line through the last fixes, as a standard deviation of one fix. Clipped at three
    // times itself, so that a burst is not taken for noise.
    private void LearnNoise(Fix fix)
    {
        double dt = fix.Utc.SecondsSince(_newest.Utc);
        if (Velocity(VelocitySpanS) is not { } v || dt > 15 || v.SpanS > 15)
            return;
        (double east, double north) = Metres(_newest.Position, fix.Position!.Value);
        double up = fix.Height!.Value.Metres - _newest.HeightM - v.Up * dt;
        double ratio = dt / v.SpanS;
        double variances = 1 + (1 + ratio) * (1 + ratio) + ratio * ratio;
        VerticalNoiseM = Learn(VerticalNoiseM, up * up / variances);
        double offEast = east - v.East * dt;
        double offNorth = north - v.North * dt;
        HorizontalNoiseM = Learn(HorizontalNoiseM, (offEast * offEast + offNorth * offNorth) / (2 * variances));
    }

    private static double Learn(double sigma, double square) =>
        Math.Clamp(Math.Sqrt(0.95 * sigma * sigma + 0.05 * Math.Min(square, 9 * sigma * sigma)), 0.05, 15);

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public Track Copy()
    {
        var copy = (Track)MemberwiseClone();
        copy._older = [.. _older];
        return copy;
    }
}
