using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using static Groundstation.Core.Quantities.Measure;

namespace Groundstation.Core.Fixes;

/// <summary>
/// Believes or refuses the fixes of one source, one after the other, with every reason that applies.
/// <para>
/// What is refused leaves no trace in the track that later fixes are held against. Refused fixes that fit each other
/// form a <see cref="RivalTrack"/>, which is believed when it has lasted long enough, and the track goes on from there.
/// The gates hold all that a flight can do, so one slip never becomes a burst, and neither does a stretch of them.
/// </para>
/// <para>
/// A fix without altitude (RMC or GLL alone) cannot drive a flight and is refused for that; it remains in the record as
/// the newest known place.
/// </para>
/// </summary>
internal sealed class FixJudge
{
    private const RefusalReasons OffTrack = RefusalReasons.HorizontalJump | RefusalReasons.VerticalJump
        | RefusalReasons.TimeBackwards | RefusalReasons.TimeJump;

    // A track given up for another is gone back to at once when a fix fits it and not the other.
    private const double RememberedS = 60;

    // UTC may run ahead of the arrival by what a radio or a pipe holds back between two fixes.
    private const double HeldBackS = 30;

    private readonly FlightPlan _plan;
    private FreezeWatch _freeze;
    private PressureCheck _pressure = new();
    private WholeSeconds _seconds = new();
    private Track? _track;
    private RivalTrack? _rival;
    private Track? _givenUp;
    private Fix? _former;
    private bool _anew;

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
        var verdict = new Verdict();
        verdict.Add(fix.Refused, fix.Detail);
        FixClaims.Check(fix, _plan.Belief, _track?.HeightM ?? _plan.LaunchHeight?.Metres, verdict);
        Clock(fix, verdict);
        bool measured = fix.Position is not null
            && (verdict.Reasons & (RefusalReasons.NoFix | RefusalReasons.NotMeasured)) == 0;
        if (measured && (_former is null || fix.Utc > _former.Utc))
            _freeze.Take(fix, _track, verdict);
        if (measured && _track is not null && fix.Utc > _track.Utc)
            Motion(fix, verdict);
        if (measured && fix.Height is { } height)
        {
            double? rate = _track?.Velocity(3.5)?.Up;
            bool good = verdict.Reasons == RefusalReasons.None;
            if (_pressure.Check(height.Metres, fix.Heard, telemetry, rate, good) is { } said)
                verdict.Add(RefusalReasons.AgainstPressure, said);
        }

        _former = fix;
        bool believed = verdict.Reasons == RefusalReasons.None;
        if (believed)
            Believe(fix);
        else if ((verdict.Reasons & ~OffTrack) == 0 && RivalWins(fix))
            believed = true;
        if (!believed)
            return fix with { Refused = verdict.Reasons, Detail = verdict.Words };
        // The track may have been gone back to by a fix that was then refused for something else.
        (bool anew, _anew) = (_anew, false);
        return fix with { Refused = RefusalReasons.None, Detail = Saying.None, StartsAnew = anew };
    }

    /// <summary>The date of all fixes so far was found to be another: moves them by that much.</summary>
    public void Shift(TimeSpan by)
    {
        _track?.Shift(by);
        _rival?.Shift(by);
        _givenUp?.Shift(by);
        _freeze.Shift(by);
        _former = _former is null ? null : _former with { Utc = _former.Utc + by };
    }

    private void Clock(Fix fix, Verdict verdict)
    {
        if (_former is not null && fix.Utc == _former.Utc)
        {
            if (_seconds.Again(fix))
                verdict.Add(RefusalReasons.WithinSecond, "the same second again: this receiver prints whole seconds");
            else if (fix.Position == _former.Position && fix.Height == _former.Height)
                verdict.Add(RefusalReasons.Duplicate, "the same epoch again");
            else
                verdict.Add(RefusalReasons.FrozenUtc, "the same UTC again with another position");
            return;
        }

        _seconds.Another(fix);
        if (_track is null)
            return;
        double step = fix.Utc.SecondsSince(_track.Utc);
        double heard = fix.Heard.SecondsSince(_track.Heard);
        if (step <= 0)
            verdict.Add(RefusalReasons.TimeBackwards, $"UTC {-step:F1} s before the newest believed fix");
        else if (step > heard + HeldBackS)
            verdict.Add(RefusalReasons.TimeJump, $"UTC {step:F1} s on, heard {heard:F1} s later");
    }

    private void Motion(Fix fix, Verdict verdict)
    {
        Innovation off = _track!.Compare(fix);
        // The gate opens while nothing is believed; for what jumped away before our ears it must not.
        if (_rival is { IsRow: true } rival && fix.Utc > rival.Track.Utc && rival.Track.Compare(fix) is { Fits: true } near
            && near.DistanceM < off.DistanceM)
        {
            double ago = fix.Utc.SecondsSince(rival.Track.First), asked = rival.AskedS;
            Measure beyond = Distance(rival.BeyondM);
            verdict.Add(rival.Jump,
                $"jumped {ago:F1} s ago, {beyond} farther than a flight can; believed if it lasts {asked:F0} s");
            return;
        }

        if (off.Fits)
            return;
        if (_track.NewestDoubtful && _track.WithoutNewest() is var former && former.Compare(fix).Fits)
        {
            _track = former;
            return;
        }

        if (_givenUp is { } first && fix.Utc > first.Utc && fix.Utc.SecondsSince(first.Utc) < RememberedS
            && first.Compare(fix).Fits)
        {
            (_track, _givenUp, _anew) = (first, null, true);
            return;
        }

        if (!off.HorizontalFits)
            verdict.Add(RefusalReasons.HorizontalJump,
                $"{Distance(off.HorizontalM)} from where it should be, gate {Distance(off.HorizontalGateM)}");
        if (off.VerticalFits)
            return;
        if (off.VerticalM > 0)
            verdict.Add(RefusalReasons.VerticalJump,
                $"{Distance(off.VerticalM.Value)} higher than it should be, gate {Distance(off.UpGateM)}");
        else
            verdict.Add(RefusalReasons.VerticalJump,
                $"{Distance(-off.VerticalM!.Value)} lower than it should be, gate {Distance(off.DownGateM)}");
    }

    private void Believe(Fix fix)
    {
        if (_track is null)
            _track = new(fix);
        else
            _track.Add(fix, _track.Compare(fix).Doubtful);
        _rival = null;
    }

    // True when this refused fix goes on with those before it, and they have lasted long enough: the track is given up.
    private bool RivalWins(Fix fix)
    {
        if (_rival is null || !_rival.Take(fix))
        {
            _rival = new RivalTrack(fix, _track);
            return false;
        }

        if (!_rival.Wins)
            return false;
        (_givenUp, _track, _rival, _anew) = (_track, _rival.Track, null, true);
        return true;
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public FixJudge Copy()
    {
        var copy = (FixJudge)MemberwiseClone();
        copy._freeze = _freeze.Copy();
        copy._pressure = _pressure.Copy();
        copy._seconds = _seconds.Copy();
        copy._track = _track?.Copy();
        copy._rival = _rival?.Copy();
        copy._givenUp = _givenUp?.Copy();
        return copy;
    }
}
