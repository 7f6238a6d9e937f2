using Groundstation.Core.Alarms;
using Groundstation.Core.Flight;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using static System.FormattableString;
using static Groundstation.Core.Readiness.CheckState;

namespace Groundstation.Core.Readiness;

/// <summary>What the station itself can verify before a launch. Limits are common practice unless the plan states
/// them.</summary>
internal static class StationChecks
{
    /// <summary>A fix held so long has its almanac and has seen the sky turn a little.</summary>
    private const double FixHeldS = 300;

    /// <summary>Two satellites more than needed: one may be lost behind a hand without losing the fix.</summary>
    private const int SpareSatellites = 2;

    private const double GoodHdop = 2.5;

    /// <summary>A radio holds a line back by a second or two; a clock that is off by more spoils ages and
    /// notes.</summary>
    private const double ClockS = 5;

    /// <summary>
    /// What three hours take at ten epochs a second, logs included, MB; at one a second it is 7 (the clean flight's folder:
    /// 5.5 for 2.3 h).
    /// </summary>
    private const double FlightMb = 60;

    public static IEnumerable<LaunchCheck> Of(Snapshot s) =>
    [
        Fix(s), Satellites(s), Hdop(s), Battery(s), TrackerLimit(s), Recording(s), Disk(s), Clock(s),
        Chase(s), Terrain(s),
        Winds(s), Plan(s), AlarmsQuiet(s), OnPad(s),
    ];

    private static LaunchCheck Fix(Snapshot s) => s.FixHeldS switch
    {
        null => new("fix", "3-D fix", Open, s.NewestFix is null ? Unheard(s) : "no believed fix"),
        < FixHeldS and var held => new("fix", "3-D fix", Open, Invariant($"{Minutes(held)} of 5 min")),
        var held => new("fix", "3-D fix", Ready, Invariant($"held {Minutes(held.Value)}")),
    };

    private static string Unheard(Snapshot s) =>
        s.Receivers.FirstOrDefault(r => r.Source != SourceId.Chase && r.LineFault.Length > 0) is { } mute
            ? mute.LineFault.Split(" (")[0]
            : s.Receivers.Any(r => r.Source != SourceId.Chase && r.Accepted > 0) ? "no position yet"
            : "nothing heard yet";

    private static LaunchCheck Satellites(Snapshot s)
    {
        int needed = s.Plan.Belief.MinSatellites, wanted = needed + SpareSatellites;
        return s.NewestFix?.SatellitesUsed is not { } used ? new("satellites", "Satellites", Doubtful, "number not "
            + "told")
            : new("satellites", "Satellites", used < needed ? Open : used < wanted ? Doubtful : Ready,
                used < wanted ? Invariant($"{used} used, want {wanted}") : Invariant($"{used} used"));
    }

    private static LaunchCheck Hdop(Snapshot s) => s.NewestFix?.Hdop is not { } hdop
        ? new("hdop", "HDOP", Doubtful, "not told")
        : new("hdop", "HDOP", hdop > s.Plan.Belief.MaxHdop ? Open : hdop > GoodHdop ? Doubtful : Ready,
            Invariant($"{hdop:F1}") + (hdop > GoodHdop ? Invariant($", want {GoodHdop}") : ""));

    private static LaunchCheck Battery(Snapshot s) => (s.Telemetry.BatteryV, s.Plan.Alarms.BatteryLowV) switch
    {
        (null, _) => new("battery", "Battery", Doubtful, "not told: measure"),
        ({ } v, null) => new("battery", "Battery", Doubtful, Invariant($"{v:F2} V, no limit")),
        ({ } v, { } low) => new("battery", "Battery", v < low ? Open : Ready, Invariant($"{v:F2} V, low {low:F2}")),
    };

    private static LaunchCheck TrackerLimit(Snapshot s)
    {
        if (s.Plan.TrackerAltitudeLimit is not { } limit)
            return new("limit", "Altitude limit", Doubtful, "see its manual");
        bool above = limit.Metres > s.Plan.BurstHeight.Metres;
        return new("limit", "Altitude limit", above ? Ready : Doubtful,
            $"{Measure.Level(limit.Metres)} {(above ? "is above" : "BELOW burst")}");
    }

    private static LaunchCheck Recording(Snapshot s) => s.StorageTrouble.Length == 0
        ? new("recording", "Recording", Ready, "is written")
        : new("recording", "Recording", Open, s.StorageTrouble);

    private static LaunchCheck Disk(Snapshot s)
    {
        if (s.DiskFreeMb is not { } mb) return new("disk", "Room on disk", Ready, "no shortage told");
        string room = mb < 1000 ? Invariant($"{mb:F0} MB") : mb < 10_000 ? Invariant($"{mb / 1000:F1} GB")
            : Invariant($"{mb / 1000:F0} GB");
        int flights = (int)Math.Min(mb / FlightMb, 100);
        bool low = flights == 0 || s.Alarms.Any(a => a is { Standing: true, Id: "disk-low" });
        return new("disk", "Room on disk", low ? Open : Ready, room + flights switch
        {
            > 99 => " 99+ flights",
            1 => " one flight",
            _ => Invariant($" {flights} flights"),
        });
    }

    private static LaunchCheck Clock(Snapshot s)
    {
        if (s.NewestFix is not { Believed: true } fix) return new("clock", "Clock", Doubtful, "no receiver time");
        double off = fix.Heard.SecondsSince(fix.Utc);
        return new("clock", "Clock", Math.Abs(off) > ClockS ? Doubtful : Ready, Math.Abs(off) > ClockS
            ? Invariant($"{Off(Math.Abs(off))} {(off > 0 ? "ahead" : "behind")}") : "as the receiver's");
    }

    private static string Off(double seconds) => seconds < 600 ? Invariant($"{seconds:F0} s")
        : seconds < 5400 ? Invariant($"{seconds / 60:F0} min")
        : seconds < 129_600 ? Invariant($"{seconds / 3600:F0} h") : Invariant($"{seconds / 86_400:F0} days");

    private static LaunchCheck Chase(Snapshot s) => s.Chase is not { } car
        ? new("chase", "Chase car", Doubtful, "never heard")
        : s.Utc.SecondsSince(car.Utc) is > 120 and var age
            ? new("chase", "Chase car", Doubtful, $"{Minutes(age)} ago")
            : new("chase", "Chase car", Ready, "heard");

    private static LaunchCheck Terrain(Snapshot s) => s.HasTerrain
        ? new("terrain", "Terrain", Ready, "loaded")
        : s.Plan.LandingGround is { } g ? new("terrain", "Terrain", Doubtful, $"none, {Measure.Height(g.Metres)}")
        : new("terrain", "Terrain", Doubtful, "none: as at launch");

    private static LaunchCheck Winds(Snapshot s)
    {
        int levels = s.Plan.Winds.Sum(w => w.Levels.Length);
        return levels == 0 ? new("winds", "Winds", Doubtful, "none loaded")
            : new("winds", "Winds", Ready, Invariant($"{levels} levels"));
    }

    private static LaunchCheck Plan(Snapshot s)
    {
        if (s.Plan.Stated.Length == 0) return new("plan", "Plan", Doubtful, "none: all assumed");
        PlanDoubt[] doubts = [.. PlanDoubts.Of(s.Plan)];
        int wrong = doubts.Count(PlanDoubts.IsWrong);
        return wrong > 0 ? new("plan", "Plan", Open, Invariant($"{wrong} wrong"))
            : doubts.Length > 0 ? new("plan", "Plan", Doubtful, Invariant($"{doubts.Length} to look at"))
            : new("plan", "Plan", Ready, "nothing doubtful");
    }

    private static LaunchCheck AlarmsQuiet(Snapshot s)
    {
        AlarmState[] standing = [.. s.Alarms.Where(a => a.Standing && a.Severity >= Severity.Caution)];
        return standing.Length == 0 ? new("alarms", "Alarms", Ready,
                s.Alarms.Any(a => a.Standing) ? "advisories only" : "none standing")
            : new("alarms", "Alarms", standing.Any(a => a.Severity == Severity.Warning) ? Open : Doubtful,
                standing[0].Cause);
    }

    private static LaunchCheck OnPad(Snapshot s) => s.Flight.Phase == Phase.Pad
        ? new("pad", "On the pad", Ready, "yes") : new("pad", "On the pad", Doubtful, "it is in flight");

    private static string Minutes(double seconds) =>
        seconds < 60 ? Invariant($"{seconds:F0} s") : Invariant($"{Math.Floor(seconds / 60):F0} min");
}
