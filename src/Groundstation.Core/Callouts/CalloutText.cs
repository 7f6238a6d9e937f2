using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Callouts;

/// <summary>
/// Words a callout. The short form can be said in 20 seconds: at most <see cref="MostWords"/> words, at the two and a
/// half words a second of somebody who reads aloud. Who calls, the place, the way there and the area always stay. What
/// does not fit is left out in this order: what it does in an ordinary callout, how the estimate has changed, the axis and
/// what it does in silence, the confidence, the time to the landing and a way from the car's old place, when a fix should
/// come again; then the smaller half axis, the time of the call, a digit of the place, and last how far the way is.
/// </summary>
public sealed class CalloutText(FlightPlan plan)
{
    /// <summary>Words of the short form.</summary>
    public const int MostWords = 50;

    // A move that nobody could see on a map is none.
    private const double LeastMoveM = 100;

    private readonly Wording _say = new(plan);

    /// <summary>The form that is called on an occasion: shown, and spoken.</summary>
    /// <param name="scene">What is known.</param>
    /// <param name="occasion">Why now; see <see cref="Callout.Occasion"/>.</param>
    /// <param name="before">What the last callout said; null: it is the first.</param>
    public (string Shown, string Spoken) Short(CalloutScene scene, string occasion, LandingEstimate? before)
    {
        LandingEstimate l = scene.Landing;
        bool moved = before is not null && occasion == "moved" && !scene.Unheard;
        Phrase? way = Way(scene);
        Phrase news = News(scene, occasion), lies = Lies(scene);
        bool newsNeeded = scene.Unheard || occasion is not ("cadence" or "moved");
        int others = Words(lies.Spoken) + (newsNeeded ? Words(news.Spoken) : 0)
            + (way is { } w && !scene.Stale ? Words(w.Spoken) : 0);
        (Phrase call, Phrase place, Phrase search) = Fitting(scene.Utc, l, MostWords - others);
        // The bearing from a place that the team knows leads there; how far it is they read off the map.
        if (Words(call.Spoken) + Words(place.Spoken) + Words(search.Spoken) + others > MostWords && !scene.Stale)
            way = Way(scene, distance: false);
        Phrase estimate = lies + place;
        // The move before the place where it can be said, else behind everything.
        if (moved && "estimate" + Move(l, before!) + "to" + place is var told
            && Words(call.Spoken) + Words(told.Spoken) + Words(search.Spoken) + (way is { } v ? Words(v.Spoken) : 0)
                <= MostWords) estimate = told;
        else moved = false;

        // In the order in which they are said, each with its rank: the lowest goes first into the fifty words.
        List<(int Rank, Phrase Phrase)> parts = [(0, call)];
        if (!moved) parts.Add((newsNeeded ? 1 : 8, news));
        parts.Add((0, estimate));
        if (way is { } direction) parts.Add((scene.Stale ? 3 : 1, direction));
        parts.Add((0, search));
        if (!scene.HasLanded)
        {
            parts.Add((4, "confidence " + Wording.Confidence(l.Area95)));
            parts.Add((3, LandsIn(scene)));
            if (BackIn(scene) is { } back) parts.Add((2, back));
            if (LastFix(scene) is { } last) parts.Add((4, last));
            if (occasion is "silence" or "heard-again") parts.Add((5, Doing(scene)));
        }
        if (before is not null && !moved) parts.Add((6, Change(l, before)));
        if (Axis(scene, l.Area95) is { } axis)
            parts.Add((5, new(axis.Shown[..axis.Shown.LastIndexOf(' ')], axis.Spoken[..axis.Spoken.LastIndexOf(' ')])));
        int room = MostWords;
        HashSet<int> said = [];
        foreach (int i in Enumerable.Range(0, parts.Count).OrderBy(i => parts[i].Rank))
        {
            int words = Words(parts[i].Phrase.Spoken);
            if (words > room && parts[i].Rank > 0) continue;
            room -= words;
            said.Add(i);
        }
        return Joined(parts.Where((_, i) => said.Contains(i)).Select(p => p.Phrase));
    }

    /// <summary>Call, place and area in so many words.</summary>
    private (Phrase Call, Phrase Place, Phrase Search) Fitting(Instant utc, LandingEstimate l, int room)
    {
        double step = StepM(l);
        Phrase call = _say.Call(utc), place = _say.Place(l.Position, step), search = "search" + _say.Size(l.Area95);
        bool Fits() => Words(call.Spoken) + Words(place.Spoken) + Words(search.Spoken) <= room;
        if (!Fits()) search = "search within" + _say.Distance(l.Area95.MajorM);
        if (!Fits()) call = _say.Names;
        // A digit less is still finer than the area: the step is a quarter of the half of flights.
        if (!Fits()) place = _say.Place(l.Position, 10 * step);
        return (call, place, search);
    }

    /// <summary>The full form, of any length: everything that helps to search, places to the metre.</summary>
    public (string Shown, string Spoken) Full(CalloutScene scene)
    {
        (LandingEstimate l, FlightState flight) = (scene.Landing, scene.Flight);
        List<Phrase> parts = [_say.Call(scene.Utc)];
        parts.Add(scene.Unheard ? News(scene, "full").Then(Doing(scene)) : scene.HasLanded ? "landed" : Doing(scene));
        if (LastFix(scene) is { } last) parts.Add(last);
        if (!scene.HasLanded && flight.VerticalRateMps is { } mps && Math.Abs(mps) >= 0.5)
            parts.Add((mps > 0 ? "climbing at" : (Phrase)"falling at") + _say.Rate(mps));
        parts.Add(Lies(scene) + _say.Place(l.Position, 1));
        if (plan.Callouts.Coordinates != CoordinateFormat.DecimalDegrees)
            parts.Add("in degrees" + Wording.Place(l.Position, CoordinateFormat.DecimalDegrees, 1));
        if (Way(scene) is { } way) parts.Add(way);
        if (scene is { Chase: not null, Pad: { } pad } && Way(scene, pad, "launch") is { } fromPad) parts.Add(fromPad);
        parts.Add("ground there" + _say.Height(l.Ground));
        parts.Add("half of flights come down" + _say.Size(l.Area50));
        parts.Add("ninety-five of a hundred" + _say.Size(l.Area95));
        if (Axis(scene, l.Area95) is { } axis) parts.Add(axis);
        if (!scene.HasLanded)
        {
            parts.Add(LandsIn(scene).Then("at" + Wording.Clock(l.LandingUtc)).Then("give or take"
                + Wording.Span(Math.Max(2 * l.LandingSigmaS, 30))));
            if (BackIn(scene) is { } back)
                parts.Add("its receiver gives none above" + _say.Height(scene.Limit!.Value).Then(back));
            string causes = l.Causes.IsEmpty ? "" : ", because of " + l.Causes.In(plan.Units);
            string confidence = "confidence " + Wording.Confidence(l.Area95);
            parts.Add(new(confidence + causes, confidence + Wording.Said(causes)));
        }
        return Joined(parts);
    }

    /// <summary>What is said while there is nothing to make an estimate from, of a launch that was only marked.</summary>
    public (string Shown, string Spoken) Nothing(Instant utc, Instant launch, Contact contact) => Joined([_say.Call(utc),
        Launched(utc, launch).Then(NeverFixed(contact)),
        "no landing estimate: " + (plan.Stated.IsEmpty ? "there is no plan" : "the plan has no launch site")]);

    /// <summary>Words of a spoken text.</summary>
    public static int Words(string spoken) => spoken.Split(' ', StringSplitOptions.RemoveEmptyEntries).Length;

    private static (string, string) Joined(IEnumerable<Phrase> parts)
    {
        Phrase[] said = [.. parts.Select(p => p.Sentence())];
        return (string.Join(' ', said.Select(p => p.Shown)), string.Join(' ', said.Select(p => p.Spoken)));
    }

    private static Phrase Launched(Instant utc, Instant launch) => utc.SecondsSince(launch) is var ago && ago < 30
        ? "balloon launched" : "launched" + Wording.Span(ago) + "ago";

    private static Phrase Lies(CalloutScene scene) => scene.HasLanded ? "it lies at"
        : scene.Planned ? "landing by plan" : "landing estimate";

    /// <summary>What is heard of the tracker while no believed fix comes.</summary>
    private static Phrase Hears(CalloutScene scene)
    {
        double age = scene.AgeS;
        if (scene.Limit is not null) return "tracker heard, too high for a fix";
        if (scene.Planned) return NeverFixed(scene.Contact);
        return scene.Contact switch
        {
            Contact.Alive => "tracker heard, no good fix for" + Wording.Span(age),
            Contact.Stalled => "tracker repeats a fix" + Wording.Span(age) + "old",
            // It may be heard by others.
            Contact.LinkLost => "our receiver is lost, last fix" + Wording.Span(age) + "ago",
            _ => "tracker silent" + Wording.Span(Math.Min(scene.SilentS ?? age, age)),
        };
    }

    private static Phrase NeverFixed(Contact contact) =>
        contact is Contact.Alive or Contact.Stalled ? "tracker heard, no fix yet" : "tracker never heard";

    /// <summary>
    /// How old the place is, where that is not how long it is silent: it was heard without a fix in between.
    /// </summary>
    private static Phrase? LastFix(CalloutScene scene) =>
        scene is { Unheard: true, Contact: Contact.Silent, Planned: false, AgeS: var age } && scene.SilentS < age - 60
            ? "last fix" + Wording.Span(age) + "ago" : default(Phrase?);

    private static Phrase News(CalloutScene scene, string occasion)
    {
        if (scene.HasLanded) return "landed";
        if (scene.Unheard)
            return scene.Marked is { } launch ? Launched(scene.Utc, launch).Then(Hears(scene)) : Hears(scene);
        if (scene.HeardAgain || scene.Back) return "heard again," + Doing(scene.Flight);
        return occasion switch
        {
            "launch" => "balloon launched",
            "burst" when scene.Flight.BurstHeard => "burst",
            "heard-again" when scene.Flight.Phase != Phase.Pad => "heard again",
            "heard-again" => "heard again," + Doing(scene.Flight),
            _ => Doing(scene.Flight),
        };
    }

    /// <summary>What it does: heard, or expected; and how high.</summary>
    private Phrase Doing(CalloutScene scene) => (scene.Unheard ? "expected" + Doing(scene.Flight) : Doing(scene.Flight))
        + "at" + _say.Height(scene.Landing.Altitude);

    private static Phrase Doing(FlightState flight) => flight.Phase switch
    {
        Phase.Pad => "on the pad",
        Phase.Ascent => "climbing",
        Phase.Float => "floating",
        Phase.Descent => "descending",
        _ => "down",
    };

    private Phrase? Way(CalloutScene scene, bool distance = true) =>
        scene.From is var (at, name) ? Way(scene, at, name, distance) : null;

    private Phrase? Way(CalloutScene scene, GeoPoint from, string name, bool distance = true)
    {
        GeodesicLine way = Geodesic.Inverse(from, scene.Landing.Position);
        if (way.DistanceM < 20) return $"it is where {(name == "you" ? "you are" : name + " is")}";
        Phrase bearing = $"from {name} bearing" + _say.Bearing(way.AzimuthDeg, from, scene.Utc);
        return distance ? bearing.Then(_say.Distance(way.DistanceM)) : bearing;
    }

    private Phrase? Axis(CalloutScene scene, SearchArea area)
    {
        if (area.MajorM < 1.5 * area.MinorM) return null;
        return "axis" + _say.Bearing(area.AzimuthDeg, scene.Landing.Position, scene.Utc);
    }

    private static Phrase LandsIn(CalloutScene scene)
    {
        double left = scene.Landing.LandingUtc.SecondsSince(scene.Utc);
        return left > 0 ? "landing in" + Wording.Span(left) : "overdue" + Wording.Span(-left);
    }

    /// <summary>When the receiver should come below its altitude limit.</summary>
    private static Phrase? BackIn(CalloutScene scene)
    {
        if (scene is not { Unheard: true, Limit: not null, Landing.HearAgainUtc: { } back }) return null;
        double left = back.SecondsSince(scene.Utc);
        return left > 0 ? "fix in" + Wording.Span(left) : "fix overdue" + Wording.Span(-left);
    }

    private Phrase Change(LandingEstimate now, LandingEstimate before) =>
        Geodesic.DistanceM(before.Position, now.Position) < LeastMoveM ? "estimate unchanged" : Move(now, before);

    private Phrase Move(LandingEstimate now, LandingEstimate before)
    {
        GeodesicLine way = Geodesic.Inverse(before.Position, now.Position);
        return "moved" + _say.Distance(way.DistanceM) + Wording.Towards(way.AzimuthDeg);
    }

    /// <summary>
    /// A quarter of what half of the flights come down within: finer digits would only be written down wrong.
    /// </summary>
    private static double StepM(LandingEstimate landing) => landing.Area50.MajorM / 4;
}
