using Groundstation.Core.Earth;
using Groundstation.Core.Plan;

namespace Groundstation.Io.PlanFile;

/// <summary>All keys of the plan file, in the order of the file. Bounds are those of small free balloons.</summary>
internal static class PlanKeys
{
    /// <summary>The dead sea's shore lies at −430 m, the highest road at 5900 m: ground a chase can reach.</summary>
    private const double LowestGround = -450, HighestGround = 6000;

    /// <summary>The highest balloon so far reached 53.7 km (2013).</summary>
    private const double HighestBalloon = 54_000;

    /// <summary>The keys.</summary>
    public static readonly PlanKey[] All =
    [
        PlanKey.Text("flight.name", "a text of 1 to 60 printable characters", (p, v) =>
            v.Length is >= 1 and <= 60 && !v.Any(char.IsControl) ? p with { Name = v } : null),
        PlanKey.Whole("flight.seed", 0, long.MaxValue, "it starts the station's random draws",
            (p, v) => p with { Seed = (ulong)v }),

        PlanKey.Number("launch.latitude_deg", -90, 90, "degrees", "north positive",
            (p, v) => p with { LaunchSite = new GeoPoint(v, p.LaunchSite?.LongitudeDeg ?? 0) }),
        PlanKey.Number("launch.longitude_deg", -180, 180, "degrees", "east positive",
            (p, v) => p with { LaunchSite = new GeoPoint(p.LaunchSite?.LatitudeDeg ?? 0, v) }),
        PlanKey.Number("launch.height_m", LowestGround, HighestGround, "m above mean sea level", "",
            (p, v) => p with { LaunchHeight = new HeightMsl(v) }),

        PlanKey.Number("landing.ground_m", LowestGround, HighestGround, "m above mean sea level", "",
            (p, v) => p with { LandingGround = new HeightMsl(v) }),
        PlanKey.Text("landing.terrain_folder", "the path of a folder with SRTM tiles such as N35W098.hgt", (p, v) =>
            v.Length > 0 && !v.Any(char.IsControl) ? p with { TerrainFolder = v } : null),

        PlanKey.Number("balloon.ascent_rate_mps", 1, 12, "m/s", "latex balloons climb at 3 to 8",
            (p, v) => p with { AscentRateMps = v }),
        PlanKey.Number("balloon.burst_height_m", 1000, HighestBalloon, "m above mean sea level", "the record is 53700",
            (p, v) => p with { BurstHeight = new HeightMsl(v) }),
        PlanKey.Number("balloon.burst_sigma_m", 100, 10_000, "m", "one standard deviation",
            (p, v) => p with { BurstSigmaM = v }),

        PlanKey.Number("payload.mass_kg", 0.05, 50, "kg", "all that comes down under the parachute",
            (p, v) => p with { DescentMassKg = v }),

        PlanKey.Number("parachute.drag_area_m2", 0.01, 200, "m²", "drag coefficient times canopy area",
            (p, v) => p with { CanopyDragAreaM2 = v }),
        PlanKey.Number("parachute.descent_rate_mps", 1, 60, "m/s at sea level", "with no parachute 60 at most",
            (p, v) => p with { DescentRateSeaLevelMps = v }),
        PlanKey.Number("parachute.descent_rate_ln_sigma", 0.02, 1, "", "relative scatter of the descent rate",
            (p, v) => p with { DescentRateLnSigma = v }),

        PlanKey.Number("tracker.altitude_limit_m", 1000, 100_000, "m above mean sea level",
            "common limits: 12000, 18000", (p, v) => p with { TrackerAltitudeLimit = new HeightMsl(v) }),
        PlanKey.Switch("tracker.allow_no_checksum",
            (p, v) => p with { Belief = p.Belief with { AllowNoChecksum = v } }),
        PlanKey.Whole("tracker.min_satellites", 3, 12, "three dimensions need 4",
            (p, v) => p with { Belief = p.Belief with { MinSatellites = (int)v } }),
        PlanKey.Number("tracker.max_hdop", 1, 50, "", "", (p, v) => p with { Belief = p.Belief with { MaxHdop = v } }),

        Alarm("no_bytes_s", 2, 600, "s", (a, v) => a with { NoBytesS = v }),
        Alarm("no_fix_s", 2, 600, "s", (a, v) => a with { NoFixS = v }),
        Alarm("rejected_share", 0.01, 1, "", (a, v) => a with { RejectedShare = v }),
        Alarm("ascent_slow_mps", 0.1, 12, "m/s", (a, v) => a with { AscentSlowMps = v }),
        Alarm("ascent_fast_mps", 1, 20, "m/s", (a, v) => a with { AscentFastMps = v }),
        Alarm("descent_slow_mps", 0.1, 20, "m/s at sea level", (a, v) => a with { DescentSlowMps = v }),
        Alarm("descent_fast_mps", 1, 60, "m/s at sea level", (a, v) => a with { DescentFastMps = v }),
        Alarm("approach_m", 50, 10_000, "m above the ground", (a, v) => a with { ApproachM = v }),
        Alarm("battery_low_v", 0.5, 60, "V", (a, v) => a with { BatteryLowV = v }),
        Alarm("inside_cold_c", -90, 40, "°C", (a, v) => a with { InsideColdC = v }),

        PlanKey.Text("display.units", "\"metric\" or \"customary\"", (p, v) => v switch
        {
            "metric" => p with { Units = DisplayUnits.Metric },
            "customary" => p with { Units = DisplayUnits.Customary },
            _ => null,
        }),
    ];

    /// <summary>Keys of one level of <c>[[wind]]</c> with their bounds.</summary>
    public static readonly (string Key, double Min, double Max, string Allowed)[] Wind =
    [
        Level("height_m", LowestGround, HighestBalloon, "m above mean sea level", ""),
        Level("from_deg", 0, 360, "degrees true", "where the wind comes from"),
        Level("speed_mps", 0, 150, "m/s", "the fastest jet streams reach 130"),
    ];

    private static (string, double, double, string) Level(string key, double min, double max, string unit,
        string reason) => (key, min, max, PlanKey.Range(min, max, unit, reason));

    private static PlanKey Alarm(string key, double min, double max, string unit,
        Func<AlarmLimits, double, AlarmLimits> set) => PlanKey.Number("alarms." + key, min, max, unit, "",
        (p, v) => p with { Alarms = set(p.Alarms, v) });
}
