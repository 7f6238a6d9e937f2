using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Callouts;

/// <summary>
/// Composes the sentences to be read to the chase team: on events (launch, burst, silence, heard again, landed), when the
/// estimate has moved by more than its own 50 % area, and otherwise on a cadence that quickens in the descent.
/// </summary>
/// <param name="units">Units spoken.</param>
public sealed class CalloutDesk(DisplayUnits units)
{
    // A callout takes about 20 s to say and to read back: closer than a minute they would only be talked over.
    private const double LeastGapS = 60;
    private const double AscentCadenceS = 600;
    private const double DescentCadenceS = 180;

    private List<Callout> _all = [];
    private Instant? _last;
    private GeoPoint? _lastPosition;
    private Phase _phase = Phase.Pad;
    private bool _silent;

    /// <summary>All callouts so far, oldest first, each as last marked.</summary>
    public IReadOnlyList<Callout> All => _all;

    /// <summary>Looks at one moment; returns the callout to give now, or null.</summary>
    /// <param name="utc">Station time.</param>
    /// <param name="flight">The flight.</param>
    /// <param name="landing">The landing estimate; null: nothing to say yet.</param>
    /// <param name="silent">True while the no-fix alarm stands.</param>
    /// <param name="reference">The chase car's place if known, else the launch site's.</param>
    /// <param name="referenceName">What that is called: <c>you</c> or <c>launch</c>.</param>
    public Callout? Consider(Instant utc, FlightState flight, LandingEstimate? landing, bool silent,
        GeoPoint? reference, string referenceName)
    {
        if (landing is null || Occasion(utc, flight, landing, silent) is not { } occasion) return null;
        Callout callout = new(_all.Count + 1, utc, occasion,
            Text(utc, flight, landing, silent, reference, referenceName), "");
        _all.Add(callout);
        _last = utc;
        _lastPosition = landing.Position;
        return callout;
    }

    /// <summary>Marks the read-back of a callout; null if there is no such number.</summary>
    public Callout? ReadBack(int number, bool correct)
    {
        if (number < 1 || number > _all.Count) return null;
        return _all[number - 1] = _all[number - 1] with { ReadBack = correct ? "correct" : "wrong" };
    }

    private string? Occasion(Instant utc, FlightState flight, LandingEstimate landing, bool silent)
    {
        (Phase phaseBefore, bool silentBefore) = (_phase, _silent);
        if (flight.PhaseHeard) _phase = flight.Phase;
        _silent = silent;
        if (_phase != phaseBefore)
        {
            switch (_phase)
            {
                case Phase.Ascent: return phaseBefore == Phase.Pad ? "launch" : "ascent";
                case Phase.Descent: return "burst";
                case Phase.Float: return "float";
                case Phase.Landed: return "landed";
            }
        }
        if (silent && !silentBefore) return "silence";
        if (!silent && silentBefore) return "heard-again";
        if (_phase is Phase.Pad or Phase.Landed || _last is not { } last) return null;
        double since = utc.SecondsSince(last);
        if (since < LeastGapS) return null;
        if (_lastPosition is { } before
            && Geodesic.Inverse(before, landing.Position).DistanceM > Math.Max(landing.Area50.MajorM, 500))
            return "moved";
        // Once it must be down nothing changes any more: the slow cadence keeps the chase team company.
        bool falls = _phase == Phase.Descent && utc < landing.LandingUtc;
        return since >= (falls ? DescentCadenceS : AscentCadenceS) ? "cadence" : null;
    }

    private string Text(Instant utc, FlightState flight, LandingEstimate landing, bool silent, GeoPoint? reference,
        string referenceName)
    {
        List<string> said = [Say($"Chase car from mission control, {utc.ToDateTime():HH:mm} UTC.")];
        string phase = (flight.PhaseHeard ? "" : "expected ") + flight.Phase.ToString().ToLowerInvariant();
        said.Add(silent
            ? Say($"Tracker not heard for {Span(landing.HeardAgeS)}; {phase}.")
            : Say($"{Capital(phase)}, height {Height(landing.Altitude)}."));
        string place = Say($"{landing.Position.LatitudeDeg:F5}, {landing.Position.LongitudeDeg:F5}");
        if (reference is { } from)
        {
            var way = Geodesic.Inverse(from, landing.Position);
            place += Say($", bearing {(way.AzimuthDeg + 360) % 360:000} true, {Distance(way.DistanceM)} from {referenceName}");
        }
        bool landed = flight is { Phase: Phase.Landed, PhaseHeard: true };
        said.Add($"{(landed ? "Landed at" : "Landing estimate")} {place}.");
        said.Add(Say($"Search {Distance(landing.Area95.MajorM)} by {Distance(landing.Area95.MinorM)} around it."));
        if (!landed) said.Add(LandingTime(utc, landing));
        if (_lastPosition is { } before && Geodesic.Inverse(before, landing.Position).DistanceM is var moved and >= 100)
            said.Add($"Moved {Distance(moved)} since the last call.");
        return string.Join(' ', said);
    }

    private static string LandingTime(Instant utc, LandingEstimate landing)
    {
        double left = landing.LandingUtc.SecondsSince(utc);
        return left > 0
            ? Say($"Landing in {Span(left)}, at {landing.LandingUtc.ToDateTime():HH:mm}.")
            : Say($"It should have landed {Span(-left)} ago.");
    }

    private string Distance(double metres) => units == DisplayUnits.Metric
        ? metres < 1000 ? Say($"{metres:F0} m") : Say($"{metres / 1000:F1} km")
        : metres < 400 ? Say($"{metres / 0.3048:F0} ft") : Say($"{metres / 1609.344:F1} miles");

    private string Height(HeightMsl height) => units == DisplayUnits.Metric
        ? Say($"{height.Metres:F0} m") : Say($"{height.Metres / 0.3048:F0} ft");

    private static string Span(double seconds) => seconds < 90 ? Say($"{seconds:F0} s") : Say($"{seconds / 60:F0} min");

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string Say(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal CalloutDesk Copy()
    {
        var copy = (CalloutDesk)MemberwiseClone();
        copy._all = [.. _all];
        return copy;
    }
}
