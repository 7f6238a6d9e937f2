using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Callouts;

/// <summary>
/// Decides when something is to be called to the chase team: on events (launch, burst, float, silence, heard again,
/// landed), when the estimate has moved beyond the plan's limit, and otherwise on a cadence that quickens in the
/// descent.
/// </summary>
/// <param name="plan">The plan in force.</param>
internal sealed class CalloutDesk(FlightPlan plan)
{
    // A callout takes about 20 s to say and as long to read back: closer than a minute they would only be talked over.
    // Also the silence of a link at the edge of its range, which comes and goes, is told no more often.
    private const double LeastGapS = 60;

    private readonly FlightPlan _plan = plan;
    private List<Callout> _all = [];
    private Instant? _last;
    private LandingEstimate? _told;
    private Phase _phase = Phase.Pad;
    // What was called last of how the tracker is heard: from 0, a believed fix, to 3, nothing.
    private int _lost;
    private Instant? _lostTold;
    private Instant? _betterSince;

    // When nothing but the operator's mark said last that it flies.
    private Instant? _supposed;

    /// <summary>All callouts so far, oldest first, each as last marked.</summary>
    public IReadOnlyList<Callout> All => _all;

    /// <summary>Looks at one moment; returns the callout to give now, or null.</summary>
    public Callout? Consider(CalloutScene scene)
    {
        if (Occasion(scene, out bool again) is not { } occasion) return null;
        return Add(scene, occasion, new CalloutText(_plan).Short(scene with { Back = again }, occasion, _told));
    }

    /// <summary>
    /// Launched by the operator's mark alone, and with nothing to make an estimate from: said at the slow cadence, so that
    /// the chase team knows that mission control knows no more.
    /// </summary>
    public Callout? ConsiderNothing(Instant utc, Instant launch, Contact contact)
    {
        bool first = _phase == Phase.Pad;
        _supposed = utc;
        if (!first && _last is { } last && utc.SecondsSince(last) < _plan.Callouts.AscentCadenceS) return null;
        Suppose(utc, Lost(contact));
        return Nothing(utc, first ? "launch" : "cadence", launch, contact);
    }

    /// <summary>The same, whenever it is asked for.</summary>
    public Callout Nothing(Instant utc, string occasion, Instant launch, Contact contact) =>
        Add(utc, occasion, new CalloutText(_plan).Nothing(utc, launch, contact), null);

    /// <summary>The full form, because the operator asks for it.</summary>
    public Callout Full(CalloutScene scene) => Add(scene, "full", new CalloutText(_plan).Full(scene));

    /// <summary>A callout by its number; null if there is none.</summary>
    public Callout? Numbered(int number) => number >= 1 && number <= _all.Count ? _all[number - 1] : null;

    /// <summary>Marks the read-back of a callout; null if there is no such number.</summary>
    public Callout? ReadBack(int number, bool correct) => Numbered(number) is { } callout
        ? _all[number - 1] = callout with { ReadBack = correct ? "correct" : "wrong" } : null;

    private Callout Add(CalloutScene scene, string occasion, (string Shown, string Spoken) text) =>
        Add(scene.Utc, occasion, text, scene.Landing);

    private Callout Add(Instant utc, string occasion, (string Shown, string Spoken) text, LandingEstimate? told)
    {
        Callout callout = new(_all.Count + 1, utc, occasion, text.Shown, "") { Spoken = text.Spoken };
        _all.Add(callout);
        (_last, _told) = (utc, told);
        return callout;
    }

    /// <summary>Nothing but the operator's mark says that it flies.</summary>
    private void Suppose(Instant utc, int lost) =>
        (_phase, _supposed, _lost, _lostTold) = (Phase.Ascent, utc, lost, utc);

    // A cable of ours that is pulled in a silence is no news for who drives.
    private static int Lost(Contact contact) => contact switch
    {
        Contact.Alive => 1,
        Contact.Stalled => 2,
        _ => 3,
    };

    private string? Occasion(CalloutScene scene, out bool again)
    {
        again = false;
        (FlightState flight, LandingEstimate landing) = (scene.Flight, scene.Landing);
        Phase before = _phase;
        int lost = scene.HeardAgain ? _lost : scene.Unheard ? Lost(scene.Contact) : 0;
        if (scene.Marked is not null && before == Phase.Pad)
        {
            Suppose(scene.Utc, lost);
            return "launch";
        }
        if (scene.Marked is not null) _supposed = scene.Utc;
        // The first fixes out of a silence do not tell yet whether it climbs.
        bool soon = _supposed is { } supposed && scene.Utc.SecondsSince(supposed) <= LeastGapS;
        if (flight.PhaseHeard && !(flight.Phase == Phase.Pad && soon)) _phase = flight.Phase;
        if (_phase != before)
        {
            // What is seen with the first fixes after a silence: one callout says both.
            again = _lost != 0 && !scene.Unheard;
            if (again) (_lost, _lostTold) = (0, scene.Utc);
            switch (_phase)
            {
                case Phase.Ascent: return before == Phase.Pad ? "launch" : "ascent";
                case Phase.Descent: return "burst";
                case Phase.Float: return "float";
                case Phase.Landed: return "landed";
            }
        }
        if (_phase == Phase.Pad)
        {
            // Nobody drives after a balloon that is not launched; who wants a callout asks for it.
            _lost = lost;
            return null;
        }

        // Heard without a fix and not heard at all are two things to who searches with a receiver. What gets better waits
        // a little: the first epochs are often refused, and the phase is known ten seconds after the first fix.
        _betterSince = lost < _lost ? _betterSince ?? scene.Utc : null;
        bool soonBetter = scene.Utc.SecondsSince(_betterSince ?? scene.Utc) < (lost == 0 ? 10 : 30);
        if (lost != _lost && !(_betterSince is not null && soonBetter)
            && !(_lostTold is { } told && scene.Utc.SecondsSince(told) < LeastGapS))
        {
            bool more = lost > _lost;
            (_lost, _lostTold) = (lost, scene.Utc);
            return more ? "silence" : "heard-again";
        }
        if (_phase == Phase.Landed || _last is not { } last) return null;
        double since = scene.Utc.SecondsSince(last);
        if (since < LeastGapS) return null;
        if (_told is { } estimate && Geodesic.DistanceM(estimate.Position, landing.Position)
            > (_plan.Callouts.MovedM ?? Math.Max(landing.Area50.MajorM, 500))) return "moved";
        // The phase is the expected one in silence. Once it must be down nothing changes any more: the slow cadence keeps the
        // chase team company.
        bool falls = flight.Phase == Phase.Descent && scene.Utc < landing.LandingUtc;
        return since >= (falls ? _plan.Callouts.DescentCadenceS : _plan.Callouts.AscentCadenceS) ? "cadence" : null;
    }

    /// <summary>Station time has jumped by a span: moves every moment along.</summary>
    public void Shift(TimeSpan by)
    {
        (_last, _lostTold) = (_last + by, _lostTold + by);
        (_betterSince, _supposed) = (_betterSince + by, _supposed + by);
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public CalloutDesk Copy()
    {
        var copy = (CalloutDesk)MemberwiseClone();
        copy._all = [.. _all];
        return copy;
    }
}
