using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Core.Sentences;

namespace Groundstation.Core.Fixes;

/// <summary>
/// Believes or refuses the fixes of one source, one after the other, with every reason that applies.
/// <para>
/// What is refused leaves no trace in the track that later fixes are held against. Refused fixes that fit each other
/// form a second track: when three of them agree (and a second has passed), the next one that fits is believed and the
/// track goes on from there. So one slip never becomes a burst, and a real change costs three fixes at most.
/// </para>
/// <para>
/// A fix without altitude (RMC or GLL alone) cannot drive a flight and is refused for that; it remains in the record as
/// the newest known place.
/// </para>
/// </summary>
public sealed class FixJudge
{
    private const RefusalReasons OffTrack = RefusalReasons.HorizontalJump | RefusalReasons.VerticalJump
        | RefusalReasons.TimeBackwards | RefusalReasons.TimeJump;

    private const int AgreeingToReturn = 3;
    private const double LeastReturnS = 1;
    private const double NullIslandM = 1000;

    // UTC may run ahead of the arrival by what a radio or a pipe holds back between two fixes.
    private const double HeldBackS = 30;

    private readonly FlightPlan _plan;
    private readonly FreezeWatch _freeze;
    private readonly PressureCheck _pressure = new();
    private Track? _track;
    private Track? _second;
    private Fix? _former;

    /// <summary>A judge who has seen nothing yet.</summary>
    public FixJudge(FlightPlan plan)
    {
        _plan = plan;
        _freeze = new(plan);
    }

    /// <summary>
    /// The same fix with the verdict. Reasons and words already in it (what only its sentences could tell) are kept.
    /// </summary>
    /// <param name="fix">An epoch, in the order of arrival.</param>
    /// <param name="telemetry">What the payload measured, for the pressure.</param>
    public Fix Judge(Fix fix, Telemetry telemetry)
    {
        var words = new List<string>();
        if (fix.Detail.Length > 0)
            words.Add(fix.Detail);
        RefusalReasons reasons = fix.Refused | Claims(fix, words) | Ranges(fix, words);
        reasons |= Clock(fix, words);
        bool measured = fix.Position is not null && (reasons & (RefusalReasons.NoFix | RefusalReasons.NotMeasured)) == 0;
        bool onward = _former is null || fix.Utc > _former.Utc;
        if (measured && onward)
            reasons |= _freeze.Take(fix, _track, words.Add);
        if (measured && _track is not null && fix.Utc > _track.Utc)
            reasons |= Motion(fix, words);
        if (fix.Height is { } height && measured)
        {
            double? rate = _track?.Velocity(3.5)?.Up;
            if (_pressure.Check(height.Metres, fix.Heard, telemetry, rate, reasons == RefusalReasons.None) is { } said)
            {
                reasons |= RefusalReasons.AgainstPressure;
                words.Add(said);
            }
        }

        _former = fix;
        if (reasons == RefusalReasons.None)
            Believe(fix);
        else if ((reasons & ~OffTrack) == 0 && ReturnsTo(fix))
            (reasons, words) = (RefusalReasons.None, []);
        return fix with { Refused = reasons, Detail = string.Join("; ", words) };
    }

    /// <summary>The date of all fixes so far was found to be another: moves them by that much.</summary>
    public void Shift(TimeSpan by)
    {
        _track?.Shift(by);
        _second?.Shift(by);
        _freeze.Shift(by);
        _former = _former is null ? null : _former with { Utc = _former.Utc + by };
    }

    // What the receiver itself says against its fix.
    private RefusalReasons Claims(Fix fix, List<string> words)
    {
        var reasons = RefusalReasons.None;
        void Add(RefusalReasons reason, FormattableString text)
        {
            reasons |= reason;
            words.Add(FormattableString.Invariant(text));
        }

        if ((fix.Quality == FixQuality.Invalid || fix.Dimension == FixDimension.None)
            && !fix.Refused.HasFlag(RefusalReasons.NoFix))
            Add(RefusalReasons.NoFix, $"receiver has no fix");
        if (fix.Quality is FixQuality.Estimated or FixQuality.Manual or FixQuality.Simulator
            && !fix.Refused.HasFlag(RefusalReasons.NotMeasured))
            Add(RefusalReasons.NotMeasured, $"position estimated, typed in or simulated");
        if (fix.Position is null)
            Add(RefusalReasons.NoPosition, $"no position");
        if (fix.Height is null)
            Add(RefusalReasons.NoAltitude, $"no altitude");
        else if (fix.Dimension == FixDimension.TwoD)
            Add(RefusalReasons.NoAltitude, $"two dimensions: altitude not measured");
        if (fix.SatellitesUsed < _plan.Belief.MinSatellites)
            Add(RefusalReasons.FewSatellites, $"{fix.SatellitesUsed} satellites, {_plan.Belief.MinSatellites} asked");
        if (fix.Hdop > _plan.Belief.MaxHdop)
            Add(RefusalReasons.PoorHdop, $"HDOP {fix.Hdop:F1}, limit {_plan.Belief.MaxHdop:F1}");
        return reasons;
    }

    private RefusalReasons Ranges(Fix fix, List<string> words)
    {
        var reasons = RefusalReasons.None;
        if (fix.Height is { Metres: < -500 or > 60_000 } height)
        {
            reasons |= RefusalReasons.OutOfRange;
            words.Add(FormattableString.Invariant($"altitude {height.Metres:F0} m"));
        }

        if (fix.SpeedMps > 250)
        {
            reasons |= RefusalReasons.OutOfRange;
            words.Add(FormattableString.Invariant($"speed {fix.SpeedMps:F0} m/s"));
        }

        if (fix.Position is { } place && IsNullIsland(place))
        {
            reasons |= RefusalReasons.NullIsland;
            words.Add("position 0, 0");
        }

        // At a launch or landing by the sea 0.0 is an altitude like any other.
        if (fix.Height is { Metres: 0 } && (_track?.HeightM ?? _plan.LaunchHeight?.Metres) > 100)
        {
            reasons |= RefusalReasons.ZeroAltitude;
            words.Add("altitude exactly 0");
        }

        return reasons;
    }

    private static bool IsNullIsland(GeoPoint place)
    {
        (double east, double north) = Track.Metres(new GeoPoint(0, 0), place);
        return Math.Sqrt(east * east + north * north) <= NullIslandM;
    }

    private RefusalReasons Clock(Fix fix, List<string> words)
    {
        if (_former is not null && fix.Utc == _former.Utc)
        {
            bool same = fix.Position == _former.Position && fix.Height == _former.Height;
            words.Add(same ? "the same epoch again" : "the same UTC again with another position");
            return same ? RefusalReasons.Duplicate : RefusalReasons.FrozenUtc;
        }

        if (_track is null)
            return RefusalReasons.None;
        double step = fix.Utc.SecondsSince(_track.Utc);
        double heard = fix.Heard.SecondsSince(_track.Heard);
        if (step <= 0)
        {
            words.Add(FormattableString.Invariant($"UTC {-step:F1} s before the newest believed fix"));
            return RefusalReasons.TimeBackwards;
        }

        if (step <= heard + HeldBackS)
            return RefusalReasons.None;
        words.Add(FormattableString.Invariant($"UTC {step:F1} s on, heard {heard:F1} s later"));
        return RefusalReasons.TimeJump;
    }

    private RefusalReasons Motion(Fix fix, List<string> words)
    {
        Innovation off = _track!.Compare(fix);
        if (off.Fits)
            return RefusalReasons.None;
        if (_track.NewestDoubtful && _track.WithoutNewest() is var former && former.Compare(fix).Fits)
        {
            _track = former;
            return RefusalReasons.None;
        }

        var reasons = RefusalReasons.None;
        if (!off.HorizontalFits)
        {
            reasons |= RefusalReasons.HorizontalJump;
            words.Add($"{Distance(off.HorizontalM)} from where it should be, gate {Distance(off.HorizontalGateM)}");
        }

        if (!off.VerticalFits)
        {
            reasons |= RefusalReasons.VerticalJump;
            words.Add(off.VerticalM > 0
                ? $"{Distance(off.VerticalM.Value)} higher than it should be, gate {Distance(off.UpGateM)}"
                : $"{Distance(-off.VerticalM!.Value)} lower than it should be, gate {Distance(off.DownGateM)}");
        }

        return reasons;
    }

    private static string Distance(double metres) => metres < 1000
        ? FormattableString.Invariant($"{metres:F0} m")
        : FormattableString.Invariant($"{metres / 1000:F1} km");

    private void Believe(Fix fix)
    {
        if (_track is null)
            _track = new(fix);
        else
            _track.Add(fix, _track.Compare(fix).Doubtful);
        _second = null;
    }

    // True when the refused fixes so far and this one agree among themselves: the first track is given up.
    private bool ReturnsTo(Fix fix)
    {
        if (_second is null || fix.Utc <= _second.Utc || !_second.Compare(fix).Fits)
        {
            _second = new(fix);
            return false;
        }

        _second.Add(fix);
        // A track of one fix has no more to say for itself than the one fix against it.
        int asked = Math.Min(AgreeingToReturn, _track?.Count ?? 0);
        if (_second.Count <= asked || (asked == AgreeingToReturn && fix.Utc.SecondsSince(_second.First) < LeastReturnS))
            return false;
        _track = _second;
        _second = null;
        return true;
    }
}
