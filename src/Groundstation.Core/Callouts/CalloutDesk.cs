using Groundstation.Core.Earth;
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
    private bool _silent;
    private Instant? _silenceTold;

    /// <summary>All callouts so far, oldest first, each as last marked.</summary>
    public IReadOnlyList<Callout> All => _all;

    /// <summary>Looks at one moment; returns the callout to give now, or null.</summary>
    public Callout? Consider(CalloutScene scene)
    {
        if (Occasion(scene) is not { } occasion) return null;
        return Add(scene, occasion, new CalloutText(_plan).Short(scene, occasion, _told));
    }

    /// <summary>The full form, because the operator asks for it.</summary>
    public Callout Full(CalloutScene scene) => Add(scene, "full", new CalloutText(_plan).Full(scene));

    /// <summary>A callout by its number; null if there is none.</summary>
    public Callout? Numbered(int number) => number >= 1 && number <= _all.Count ? _all[number - 1] : null;

    /// <summary>Marks the read-back of a callout; null if there is no such number.</summary>
    public Callout? ReadBack(int number, bool correct) => Numbered(number) is { } callout
        ? _all[number - 1] = callout with { ReadBack = correct ? "correct" : "wrong" } : null;

    private Callout Add(CalloutScene scene, string occasion, (string Shown, string Spoken) text)
    {
        Callout callout = new(_all.Count + 1, scene.Utc, occasion, text.Shown, "") { Spoken = text.Spoken };
        _all.Add(callout);
        (_last, _told) = (scene.Utc, scene.Landing);
        return callout;
    }

    private string? Occasion(CalloutScene scene)
    {
        (FlightState flight, LandingEstimate landing) = (scene.Flight, scene.Landing);
        Phase before = _phase;
        if (flight.PhaseHeard) _phase = flight.Phase;
        if (_phase != before)
        {
            // What is seen with the first fixes after a silence, while its alarm still stands: one callout says both.
            if (_silent && scene.HeardAgain) (_silent, _silenceTold) = (false, scene.Utc);
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
            _silent = scene.Silent;
            return null;
        }

        if (scene.Silent != _silent && !(_silenceTold is { } told && scene.Utc.SecondsSince(told) < LeastGapS))
        {
            (_silent, _silenceTold) = (scene.Silent, scene.Utc);
            return _silent ? "silence" : "heard-again";
        }
        if (_phase == Phase.Landed || _last is not { } last) return null;
        double since = scene.Utc.SecondsSince(last);
        if (since < LeastGapS) return null;
        if (_told is { } estimate && Geodesic.DistanceM(estimate.Position, landing.Position)
            > (_plan.Callouts.MovedM ?? Math.Max(landing.Area50.MajorM, 500))) return "moved";
        // Once it must be down nothing changes any more: the slow cadence keeps the chase team company.
        bool falls = _phase == Phase.Descent && scene.Utc < landing.LandingUtc;
        return since >= (falls ? _plan.Callouts.DescentCadenceS : _plan.Callouts.AscentCadenceS) ? "cadence" : null;
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public CalloutDesk Copy()
    {
        var copy = (CalloutDesk)MemberwiseClone();
        copy._all = [.. _all];
        return copy;
    }
}
