using System.Collections.Immutable;
using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Console.Tests;

/// <summary>
/// Snapshots made by hand, of one invented flight: launch 09:00:00, 5 m/s up to 30 000 m at T+1:40, down under a canopy
/// of 5 m/s at sea level, on the ground (400 m) near T+2:11. Plausible for the eye; no stage of the core is used.
/// </summary>
internal static partial class DemoSnapshots
{
    private static readonly Instant Start = Instant.FromUtc(new DateOnly(2026, 6, 21), TimeSpan.FromHours(9));
    private static readonly GeoPoint Site = new(48.5, 13.0);
    private static readonly SourceId Radio1 = new("radio1"), Radio2 = new("radio2");
    private static readonly ImmutableArray<Waypoint> Flight = Fly();

    /// <summary>The whole flight, a waypoint every 10 s.</summary>
    public static ImmutableArray<Waypoint> WholeFlight => Flight;

    /// <summary>Links open, not a byte yet.</summary>
    public static Snapshot Nothing() => new()
    {
        Utc = Start,
        Arrival = Start,
        Plan = FlightPlan.Default,
        Flight = new FlightState(),
        Links = [new LinkStatus(Radio1, LinkState.Opening, "no such device /dev/ttyUSB0", Start.PlusSeconds(-12))],
    };

    /// <summary>Climbing through 17 km, all well but one advisory.</summary>
    public static Snapshot Ascent() => At(3330, Phase.Ascent) with
    {
        Alarms = [Alarm("ascent-slow", Severity.Advisory, AlarmPhase.Acknowledged,
            "Ascent rate 2.1 m/s is below 2.5 m/s",
            "Burst comes later and farther down-wind.", "Tell the chase team to expect a longer flight.", 2)],
    };

    /// <summary>Falling through about 12 km, one receiver's link lost.</summary>
    public static Snapshot Descent()
    {
        Snapshot s = At(6400, Phase.Descent);
        return s with
        {
            Chase = new Waypoint(s.Utc, new GeoPoint(48.62, 13.35), new HeightMsl(420)),
            Links = [new LinkStatus(Radio1, LinkState.Up, "", Start),
                new LinkStatus(Radio2, LinkState.Lost, "device gone, trying again", s.Arrival.PlusSeconds(-42))],
            Alarms =
            [
                Alarm("link-lost", Severity.Caution, AlarmPhase.Unacknowledged,
                    "Link to radio2 lost 42 s ago: device gone",
                    "One receiver is left.", "Check the plug of radio2.", 3),
                Alarm("battery-low", Severity.Advisory, AlarmPhase.Acknowledged, "Battery 3.41 V is below 3.5 V",
                    "The tracker may fall silent before the landing.", "Note the last place heard.", 2),
            ],
        };
    }

    /// <summary>Not heard since 8 min 20 s, in the descent; the model goes on.</summary>
    public static Snapshot Silence()
    {
        Snapshot heard = At(6400, Phase.Descent), now = At(6900, Phase.Descent);
        LandingEstimate model = now.Landing! with
        {
            Method = LandingMethod.Silent,
            HeardAgeS = 500,
            Area50 = new SearchArea(2100, 1200, 81),
            Area95 = new SearchArea(5200, 3000, 81),
        };
        return heard with
        {
            Utc = now.Utc,
            Arrival = now.Arrival,
            HeardAgeS = 500,
            Landing = model,
            Flight = heard.Flight with { PhaseHeard = false },
            Alarms = [Alarm("no-fix", Severity.Warning, AlarmPhase.Unacknowledged, "No believed fix for 8 min 20 s",
                "The place shown is the model's, and the search area grows.",
                "Send the chase car to the search area; keep the receiver on and its antenna high.", 4)],
            Callouts = heard.Callouts.Add(new Callout(3, now.Utc.PlusSeconds(-100), "silence",
                "Tracker not heard for six minutes. Search near four eight decimal six four.", "wrong")),
        };
    }

    /// <summary>Standing on the ground and heard.</summary>
    public static Snapshot Landed()
    {
        Snapshot s = At(Flight[^1].Utc.SecondsSince(Start) + 120, Phase.Landed);
        return s with
        {
            Flight = s.Flight with { Landed = Flight[^1], VerticalRateMps = 0 },
            Landing = s.Landing! with
            {
                Method = LandingMethod.Landed,
                LandingSigmaS = 0,
                Area50 = new SearchArea(8, 6, 10),
                Area95 = new SearchArea(20, 15, 10),
                Path = [],
            },
            Alarms = [],
        };
    }

    /// <summary>All of them, by name.</summary>
    public static IReadOnlyDictionary<string, Snapshot> All { get; } = new Dictionary<string, Snapshot>
    {
        ["nothing"] = Nothing(),
        ["ascent"] = Ascent(),
        ["descent"] = Descent(),
        ["silence"] = Silence(),
        ["landed"] = Landed(),
    };

    private static Snapshot At(double t, Phase phase)
    {
        int index = Math.Min((int)(t / 10), Flight.Length - 1);
        Waypoint now = Flight[index], last = Flight[^1];
        Instant utc = Start.PlusSeconds(t);
        bool burst = t > 6000;
        double rate = index > 0 ? (now.Height.Metres - Flight[index - 1].Height.Metres) / 10 : 0;
        Fix fix = Fix(now, index);
        double doubt = phase == Phase.Ascent ? 9000 : 2400;
        return new Snapshot
        {
            Utc = utc,
            Arrival = utc,
            Plan = FlightPlan.Default,
            NewestFix = fix,
            HeardAgeS = 1,
            Flight = new FlightState
            {
                Phase = phase,
                VerticalRateMps = rate,
                Pad = Flight[0],
                Launch = Flight[0],
                Highest = burst ? Flight[600] : now,
                Burst = burst ? Flight[600] : null,
                BurstHeard = burst,
                Newest = fix,
                DescentRateSeaLevelMps = 5.2,
                DescentRateLnSigma = burst ? 0.05 : 0.35,
                DescentRateMeasured = burst,
            },
            Track = Flight[..(index + 1)],
            Landing = new LandingEstimate
            {
                Utc = utc,
                Phase = phase,
                Altitude = now.Height,
                Position = last.Position,
                Ground = new HeightMsl(400),
                LandingUtc = last.Utc,
                LandingSigmaS = doubt / 30,
                Method = phase == Phase.Ascent ? LandingMethod.Ascent : LandingMethod.Descent,
                Area50 = new SearchArea(doubt * 0.4, doubt * 0.2, 81),
                Area95 = new SearchArea(doubt, doubt * 0.5, 81),
                LastWind = new GeoPoint(last.Position.LatitudeDeg + 0.01, last.Position.LongitudeDeg + 0.02),
                HeardAgeS = 1,
                Causes = "wind above 20 km 61 %, descent rate 27 %, ground 12 %",
                Path = Flight[index..],
            },
            GroundFrom = GroundOrigin.Launch,
            LandingHistory = [.. Enumerable.Range(1, 30).Select(i => new PastEstimate(Start.PlusSeconds(t * i / 32),
                new GeoPoint(last.Position.LatitudeDeg + 0.2 / i, last.Position.LongitudeDeg - 0.3 / i), 60_000 / i))],
            Winds = [.. Enumerable.Range(0, 60).Select(i => Layer(i, t))],
            RecentRefused = [fix with
            {
                Utc = utc.PlusSeconds(-61), Refused = RefusalReasons.HorizontalJump,
                Detail = "horizontal jump: 4210 m from the predicted place, allowed 310 m",
            }],
            RecentLines = [.. Enumerable.Range(0, 20).Select(i => i == 13
                ? (Radio2, "$GNGGA,103959.00,48\u001b[2Jhttp://x.example/", "bad checksum")
                : (Radio1, "$GNGGA,104000.00,4837.2120,N,01342.0000,E,1,09,0.9,12345.6,M,46.1,M,,*5A", "accepted"))],
            Telemetry = new Telemetry(19_330, -55.1, 4.2, 3.41, 12, utc),
            Receivers = [Health(Radio1, utc, 1.0, 0.01), Health(Radio2,
                utc.PlusSeconds(phase == Phase.Descent ? -42 : 0), 0.4, 0.08)],
            Links = [new LinkStatus(Radio1, LinkState.Up, "", Start), new LinkStatus(Radio2, LinkState.Up, "", Start)],
            Callouts =
            [
                new Callout(1, Start, "launch", "Balloon launched at zero nine zero zero.", "correct"),
                new Callout(2, utc.PlusSeconds(-200), "cadence",
                    "Altitude one two three hundred metres, going east. Landing "
                    + "estimate four eight decimal six four north, one three decimal seven east, in thirty minutes.",
                        ""),
            ],
            Events = [new EventLine(Start, "launch"), .. Enumerable.Range(0, 40).Select(i => new EventLine(
                Start.PlusSeconds(i * 60 + 30), i % 7 == 3 ? "fix refused: horizontal jump" : $"layer {i} measured"))],
            FixCounts = ((long)t, (long)t / 100),
        };
    }
}
