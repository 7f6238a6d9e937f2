using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;
using Groundstation.Core.Simulation;
using Tomlyn;
using Tomlyn.Syntax;
using static Groundstation.Io.Scenarios.ScenarioKey;

namespace Groundstation.Io.Scenarios;

/// <summary>The keys of a scenario file: flight, place, balloon, parachute and air.</summary>
internal static class ScenarioKeys
{
    internal const double LowestGround = -450, HighestGround = 9000, Highest = 54_000;

    /// <summary>All keys, in the order of the file.</summary>
    public static readonly ScenarioKey[] All =
    [
        Text("flight.name", "a text of 1 to 60 printable characters", (s, v) =>
            v.Length is >= 1 and <= 60 && !v.Any(UserErrorException.IsUnseen) ? s with { Name = v } : null),
        Whole("flight.seed", 0, long.MaxValue, (s, v) => s with { Seed = (ulong)v }),
        new("flight.launch_utc", "a moment in UTC from 1980 to 2099, as 2027-05-08T09:30:00Z", (s, value) =>
            Moment(value) is { } at ? s with { LaunchUtc = at } : null),
        Number("flight.pad_s", 0, 7200, "s", (s, v) => s with { PadS = v }),
        Number("flight.after_landing_s", 0, 86_400, "s", (s, v) => s with { AfterLandingS = v }),

        Number("launch.latitude_deg", -90, 90, "degrees", (s, v) =>
            s with { LaunchSite = new GeoPoint(v, s.LaunchSite.LongitudeDeg) }),
        Number("launch.longitude_deg", -180, 180, "degrees", (s, v) =>
            s with { LaunchSite = new GeoPoint(s.LaunchSite.LatitudeDeg, v) }),
        Number("launch.height_m", LowestGround, HighestGround, "m above mean sea level",
            (s, v) => s with { LaunchHeight = new(v) }),
        Number("landing.ground_m", LowestGround, HighestGround, "m above mean sea level",
            (s, v) => s with { LandingGround = new(v) }),

        Balloon("ascent_rate_mps", 0.5, 15, "m/s at sea level", (b, v) => b with { AscentRateMps = v }),
        Balloon("ascent_exponent", -0.2, 0.3, "", (b, v) => b with { AscentExponent = v }),
        Balloon("burst_height_m", 100, Highest, "m above mean sea level", (b, v) => b with { BurstHeight = new(v) }),
        Balloon("float_height_m", 100, Highest, "m above mean sea level", (b, v) => b with { FloatHeight = new(v) }),
        Balloon("float_s", 0, 172_800, "s", (b, v) => b with { FloatS = v }),
        Balloon("leak_height_m", LowestGround, Highest, "m above mean sea level",
            (b, v) => b with { LeakHeight = new(v) }),
        Balloon("leak_mps_per_min", 0.01, 10, "m/s a minute", (b, v) => b with { LeakMpsPerMin = v }),
        Balloon("cut_down_s", 0, 172_800, "s after launch", (b, v) => b with { CutDownS = v }),
        Balloon("swing_deg", 0, 45, "degrees", (b, v) => b with { SwingDeg = v }),

        Parachute("mass_kg", 0.05, 50, "kg", (p, v) => p with { MassKg = v }),
        Parachute("drag_area_m2", 0.005, 200, "m²", (p, v) => p with { DragAreaM2 = v }),
        Parachute("descent_rate_mps", 1, 60, "m/s at sea level", (p, v) => p with
        {
            DragAreaM2 = SimulatedParachute.DragAreaFor(p.MassKg, v),
        }),
        Parachute("tangled_height_m", LowestGround, Highest, "m above mean sea level",
            (p, v) => p with { TangledHeight = new(v) }),
        Parachute("tangled_share", 0.02, 1, "", (p, v) => p with { TangledShare = v }),
        Parachute("swing_deg", 0, 45, "degrees", (p, v) => p with { SwingDeg = v }),
        Parachute("line_m", 1, 50, "m", (p, v) => p with { LineM = v }),

        Air("temperature_offset_k", -30, 30, "K", (a, v) => a with { TemperatureOffsetK = v }),
        Air("sea_level_pressure_pa", 90_000, 108_000, "Pa", (a, v) => a with { SeaLevelPressurePa = v }),
        Air("change_mps", 0, 30, "m/s", (a, v) => a with { ChangeMps = v }),
        Air("change_height_m", 300, 20_000, "m", (a, v) => a with { ChangeHeightM = v }),
        Air("change_s", 300, 1e6, "s", (a, v) => a with { ChangeS = v }),
        Air("gust_surface_mps", 0, 10, "m/s", (a, v) => a with { GustSurfaceMps = v }),
        Air("gust_aloft_mps", 0, 10, "m/s", (a, v) => a with { GustAloftMps = v }),
        Air("gust_depth_m", 50, 5000, "m", (a, v) => a with { GustDepthM = v }),
        Air("gust_s", 1, 300, "s", (a, v) => a with { GustS = v }),
        Air("gust_vertical_share", 0, 1, "", (a, v) => a with { GustVerticalShare = v }),

        .. EquipmentKeys.All,
    ];

    private static ScenarioKey Balloon(string key, double min, double max, string unit,
        Func<SimulatedBalloon, double, SimulatedBalloon> set) =>
        Number("balloon." + key, min, max, unit, (s, v) => s with { Balloon = set(s.Balloon, v) });

    private static ScenarioKey Parachute(string key, double min, double max, string unit,
        Func<SimulatedParachute, double, SimulatedParachute> set) =>
        Number("parachute." + key, min, max, unit, (s, v) => s with { Parachute = set(s.Parachute, v) });

    private static ScenarioKey Air(string key, double min, double max, string unit,
        Func<SimulatedAir, double, SimulatedAir> set) =>
        Number("air." + key, min, max, unit, (s, v) => s with { Air = set(s.Air, v) });

    private static Instant? Moment(ValueSyntax value)
    {
        if (value is not DateTimeValueSyntax { Value: { Kind: TomlDateTimeKind.OffsetDateTimeByZ } moment })
            return null;
        DateTimeOffset utc = moment.DateTime;
        return utc.Year is >= 1980 and <= 2099 ? new Instant((utc - DateTimeOffset.UnixEpoch).Ticks) : null;
    }
}
