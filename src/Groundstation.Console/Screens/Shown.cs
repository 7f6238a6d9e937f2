using Groundstation.Core;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;

namespace Groundstation.Console.Screens;

/// <summary>
/// What of a snapshot is to be shown as the flight's state: as heard, or, in silence, as the model expects it. A value
/// that is only expected is always marked so.
/// </summary>
internal static class Shown
{
    /// <summary>
    /// True when the newest believed fix is too old to count as heard, or only the model knows the phase.
    /// </summary>
    public static bool Silent(Snapshot s) =>
        s.HeardAgeS is { } age && (age > s.NotHeardAfterS || !s.Flight.PhaseHeard) && !OnGround(s);

    /// <summary>How the tracker is heard while no fix is believed, in three words.</summary>
    public static string Hears(Snapshot s) => s.Contact switch
    {
        Contact.Alive => "no good fix",
        Contact.Stalled => "no new fix",
        Contact.LinkLost => "link lost",
        _ => "not heard",
    };

    /// <summary>What the turn from climb to fall is called: falling, when only the fall was heard.</summary>
    public static string Turn(Snapshot s) => s.Flight.BurstHeard ? "burst" : "falling at";

    /// <summary>True when it was heard to stand on the ground after the flight.</summary>
    public static bool OnGround(Snapshot s) => s.Flight is { Phase: Phase.Landed, PhaseHeard: true };

    /// <summary>
    /// True while nothing says that it was launched: a tracker silent on the pad stays there, although the estimate is
    /// that of a launch now.
    /// </summary>
    private static bool OnPad(Snapshot s) => s.Flight.Phase == Phase.Pad && s.Marks.Launch is null;

    /// <summary>What the landing place is called: planned, while nothing else is known of it.</summary>
    public static string LandingWord(Snapshot s) =>
        s.Landing is { Method: LandingMethod.Planned } ? "planned landing" : "landing";

    /// <summary>Where it is: newest believed fix, or the model's place in silence.</summary>
    public static GeoPoint? Place(Snapshot s) =>
        Silent(s) && !OnPad(s) && s.Landing is { } l ? l.Expected(s.Utc)?.Position ?? l.Position
            : s.Flight.Newest?.Position;

    /// <summary>How high it is, metres above mean sea level.</summary>
    public static double? Height(Snapshot s) =>
        Silent(s) && !OnPad(s) && s.Landing is { } l ? l.Altitude.Metres : s.Flight.Newest?.Height?.Metres;

    /// <summary>Vertical rate, m/s: measured, or along the expected path in silence.</summary>
    public static double? Rate(Snapshot s)
    {
        if (s.Flight.Newest is null || (OnPad(s) && Silent(s))) return null;
        if (!Silent(s)) return s.Flight.VerticalRateMps;
        if (s.Landing is not { } l || l.Expected(s.Utc) is not { } now) return s.Landing is null ? null : 0;
        return l.Expected(s.Utc.PlusSeconds(10)) is { } soon ? (soon.Height.Metres - now.Height.Metres) / 10 : null;
    }

    /// <summary>Where plots have their origin: launch, pad, or the first place heard.</summary>
    public static GeoPoint? Anchor(Snapshot s) => Home(s)
        ?? (s.Track.Length > 0 ? s.Track[0].Position : s.Flight.Newest?.Position);

    /// <summary>The launch place: where the ascent began, else where it stands.</summary>
    public static GeoPoint? Home(Snapshot s) =>
        s.Flight.Launch?.Position ?? s.Flight.Pad?.Position ?? s.Plan.LaunchSite;

    /// <summary>
    /// Seconds since launch: as the fixes tell it, else as the operator marked it, else, negative, until the plan's
    /// launch time; null when there is none of them.
    /// </summary>
    public static double? Mission(Snapshot s)
    {
        if ((s.Flight.Launch?.Utc ?? s.Marks.Launch) is { } launch) return s.Utc.SecondsSince(launch);
        return s.Plan.LaunchUtc is { } planned && s.Utc < planned && planned.SecondsSince(s.Utc) < 86_400
            ? s.Utc.SecondsSince(planned) : null;
    }

    /// <summary>Units of the screens: the operator's choice, else the plan's.</summary>
    public static DisplayUnits Units(Snapshot? s) => s?.Units ?? s?.Plan.Units ?? default;

    /// <summary>Phase as a word; in silence marked as expected.</summary>
    public static string PhaseWord(Snapshot s)
    {
        string word = s.Flight.Phase switch
        {
            Phase.Pad => "on the pad",
            Phase.Ascent => "ascent",
            Phase.Float => "float",
            Phase.Descent => "descent",
            _ => "landed",
        };
        if (s.HeardAgeS is null && s.Flight.Newest is null) return "WAITING";
        return s.Flight.PhaseHeard ? word.ToUpperInvariant() : word + "?";
    }
}
