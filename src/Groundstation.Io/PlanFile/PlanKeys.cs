using System.Text.RegularExpressions;
using Groundstation.Core.Earth;
using Groundstation.Core.Fill;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Io.PlanFile;

/// <summary>All keys of the plan file, in the order of the file. Bounds are those of small free balloons.</summary>
internal static partial class PlanKeys
{
    /// <summary>The dead sea's shore lies at −430 m, the highest road at 5900 m: ground a chase can reach.</summary>
    private const double LowestGround = -450, HighestGround = 6000;

    /// <summary>The highest balloon so far reached 53.7 km (2013).</summary>
    private const double HighestBalloon = 54_000;

    /// <summary>The keys.</summary>
    public static readonly PlanKey[] All =
    [
        PlanKey.Text("flight.name", "a text of 1 to 60 printable characters", (p, v) =>
            v.Length is >= 1 and <= 60 && !v.Any(UserErrorException.IsUnseen) ? p with { Name = v } : null),
        PlanKey.Whole("flight.seed", 0, long.MaxValue, "it starts the station's random draws",
            (p, v) => p with { Seed = (ulong)v }),

        PlanKey.Number("launch.latitude_deg", -90, 90, "degrees", "north positive",
            (p, v) => p with { LaunchSite = new GeoPoint(v, p.LaunchSite?.LongitudeDeg ?? 0) }),
        PlanKey.Number("launch.longitude_deg", -180, 180, "degrees", "east positive",
            (p, v) => p with { LaunchSite = new GeoPoint(p.LaunchSite?.LatitudeDeg ?? 0, v) }),
        PlanKey.Number("launch.height_m", LowestGround, HighestGround, "m above mean sea level", "",
            (p, v) => p with { LaunchHeight = new HeightMsl(v) }),
        PlanKey.Moment("launch.time_utc", (p, v) => p with { LaunchUtc = v }),
        Words("launch.place", (p, v) => p with { Notice = p.Notice with { Place = v } }),

        PlanKey.Number("landing.ground_m", LowestGround, HighestGround, "m above mean sea level", "",
            (p, v) => p with { LandingGround = new HeightMsl(v) }),
        PlanKey.Text("landing.terrain_folder", "the path of a folder with SRTM tiles such as N35W098.hgt", (p, v) =>
            v.Length > 0 && !v.Any(UserErrorException.IsUnseen) ? p with { TerrainFolder = v } : null),

        PlanKey.Texts("landing.keep_out", 16, "a list of at most 16 map files, .geojson, .json or .gpx",
            v => MapFile().IsMatch(v), (p, v) => p with { KeepOutFiles = v }),

        PlanKey.Number("balloon.ascent_rate_mps", 1, 12, "m/s", "latex balloons climb at 3 to 8",
            (p, v) => p with { AscentRateMps = v }),
        PlanKey.Number("balloon.ascent_rate_ln_sigma", 0.02, 1, "", "relative scatter of the ascent rate",
            (p, v) => p with { AscentRateLnSigma = v }),
        PlanKey.Number("balloon.burst_height_m", 1000, HighestBalloon, "m above mean sea level", "the record is 53700",
            (p, v) => p with { BurstHeight = new HeightMsl(v) }),
        PlanKey.Number("balloon.burst_sigma_m", 100, 10_000, "m", "one standard deviation",
            (p, v) => p with { BurstSigmaM = v }),
        Fill("balloon.mass_kg", 0.005, 20, "kg", "the empty balloon", (f, v) => f with { BalloonKg = v }),
        Fill("balloon.burst_diameter_m", 0.3, 50, "m", "as its maker tells", (f, v) => f with { BurstDiameterM = v }),
        Fill("balloon.drag_coefficient", 0.05, 1, "", "at launch; makers' data give 0.27 to 0.31",
            (f, v) => f with { DragCoefficient = v }),

        PlanKey.Text("fill.gas", "\"helium\" or \"hydrogen\"", (p, v) => v switch
        {
            "helium" => p with { Fill = p.Fill with { Gas = p.Fill.Gas with { Kind = GasKind.Helium } } },
            "hydrogen" => p with { Fill = p.Fill with { Gas = p.Fill.Gas with { Kind = GasKind.Hydrogen } } },
            _ => null,
        }),
        Fill("fill.purity", 0.5, 1, "", "share by volume: 0.99 for 99 %",
            (f, v) => f with { Gas = f.Gas with { Purity = v } }),
        Fill("fill.site_pressure_pa", 40_000, 110_000, "Pa", "at the site itself, not reduced to sea level",
            (f, v) => f with { SitePressurePa = v }),
        Fill("fill.site_temperature_c", -60, 60, "°C", "", (f, v) => f with { SiteTemperatureC = v }),
        Aim("fill.ascent_rate_mps", 0.5, 15, "m/s", "wanted at launch", FillAim.AscentRate),
        Aim("fill.free_lift_kg", 0.01, 50, "kg", "wanted", FillAim.FreeLift),
        Aim("fill.burst_height_m", 100, HighestBalloon, "m above mean sea level", "wanted", FillAim.BurstHeight),
        Aim("fill.gas_m3", 0.01, 500, "m³", "that there is, at the site's pressure", FillAim.Gas),
        PlanKey.Switch("fill.all_cylinders", (p, v) => v ? Wanted(p, FillAim.AllCylinders, 0) : p),
        Fill("fill.jug_kg", 0, 5, "kg", "empty jug with hose and clamp", (f, v) => f with { JugKg = v }),

        Fill("cylinder.size_m3", 0.0001, 2, "m³", "inner volume; 50 l is 0.05", (f, v) => f with { CylinderM3 = v }),
        Fill("cylinder.pressure_pa", 10_000, 1.1e8, "Pa", "as its gauge shows; 200 bar is 2e7",
            (f, v) => f with { CylinderGaugePa = v }),
        Fill("cylinder.temperature_c", -60, 60, "°C", "", (f, v) => f with { CylinderTemperatureC = v }),
        PlanKey.Whole("cylinder.count", 1, 100, "all alike",
            (p, v) => p with { Fill = p.Fill with { Cylinders = (int)v } }),
        Fill("cylinder.flow_m3ps", 1e-6, 1, "m³/s", "through the regulator; 100 litres a minute is flow_lpm = 100",
            (f, v) => f with { FlowM3PerS = v }),

        PlanKey.Number("payload.mass_kg", 0.05, 50, "kg", "all that comes down under the parachute",
            (p, v) => p with { DescentMassKg = v }),
        Load("payload.boxes_kg", 0.01, 50, "kg", "boxes with all in them", (l, v) => l with { BoxesKg = v }),
        Load("payload.line_kg", 0, 10, "kg", "line, swivels, rings", (l, v) => l with { LineKg = v }),
        Load("payload.parachute_kg", 0, 10, "kg", "", (l, v) => l with { ParachuteKg = v }),
        Load("payload.flags_kg", 0, 10, "kg", "flags, pennants, radar reflector", (l, v) => l with { FlagsKg = v }),
        PlanKey.Whole("payload.packages", 1, 50, "boxes on the line",
            (p, v) => p with { Load = p.Load with { Packages = (int)v } }),
        Load("payload.heaviest_box_kg", 0.01, 50, "kg", "", (l, v) => l with { HeaviestKg = v }),
        Load("payload.smallest_face_m2", 1e-4, 4, "m²", "of the heaviest box", (l, v) => l with { SmallestFaceM2 = v }),
        Load("payload.line_break_n", 1, 10_000, "N", "force that parts the line", (l, v) => l with { LineBreakN = v }),
        Load("payload.train_m", 0.5, 500, "m", "from the neck to the lowest box", (l, v) => l with { TrainM = v }),

        PlanKey.Number("parachute.drag_area_m2", 0.01, 200, "m²", "drag coefficient times canopy area",
            (p, v) => p with { CanopyDragAreaM2 = v }),
        PlanKey.Text("parachute.shape", "one of " + string.Join(", ", CanopyShape.All.Select(s => $"\"{s.Name}\"")),
            (p, v) => CanopyShape.Named(v) is { } s ? p with { Canopy = p.Canopy with { Shape = s } } : null),
        PlanKey.Number("parachute.diameter_m", 0.1, 20, "m", "nominal: of the cloth's circle laid flat",
            (p, v) => p with { Canopy = p.Canopy with { DiameterM = v } }),
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
        Alarm("inside_hot_c", 0, 120, "°C", (a, v) => a with { InsideHotC = v }),
        Alarm("ascent_falling_share", 0.1, 0.9, "of the best rate", (a, v) => a with { AscentFallingShare = v }),
        PlanKey.Whole("alarms.outliers_in_a_row", 2, 100, "fixes",
            (p, v) => p with { Alarms = p.Alarms with { OutliersInARow = (int)v } }),
        Alarm("pad_distance_m", 100, 5e6, "m", (a, v) => a with { PadDistanceM = v }),
        Alarm("chase_distance_m", 100, 5e6, "m", (a, v) => a with { ChaseDistanceM = v }),
        Alarm("disk_low_mb", 1, 1e6, "MB", (a, v) => a with { DiskLowMb = v }),
        Alarm("clock_wrong_s", 1, 86_400, "s", (a, v) => a with { ClockWrongS = v }),
        Alarm("chase_no_fix_s", 5, 3600, "s", (a, v) => a with { ChaseNoFixS = v }),
        Alarm("chase_margin_s", -7200, 7200, "s before the landing", (a, v) => a with { ChaseMarginS = v }),
        Alarm("keep_out_advisory_share", 0.005, 1, "", (a, v) => a with { KeepOutAdvisoryShare = v }),
        Alarm("keep_out_caution_share", 0.005, 1, "", (a, v) => a with { KeepOutCautionShare = v }),
        Alarm("keep_out_warning_share", 0.005, 1, "", (a, v) => a with { KeepOutWarningShare = v }),
        Alarm("shelve_s", 30, 7200, "s", (a, v) => a with { ShelveS = v }),

        Words("notice.operator", (p, v) => p with { Notice = p.Notice with { Operator = v } }),
        Words("notice.contact", (p, v) => p with { Notice = p.Notice with { Contact = v } }),
        Words("notice.to", (p, v) => p with { Notice = p.Notice with { To = v } }),
        Words("notice.colours", (p, v) => p with { Notice = p.Notice with { Colours = v } }),

        PlanKey.Number("chase.road_factor", 1, 3, "", "roads by the straight line",
            (p, v) => p with { ChaseRoadFactor = v }),
        PlanKey.Number("chase.speed_mps", 1, 40, "m/s", "where none is measured",
            (p, v) => p with { ChaseSpeedMps = v }),

        PlanKey.Text("display.units", "\"metric\" or \"customary\"", (p, v) => v switch
        {
            "metric" => p with { Units = DisplayUnits.Metric },
            "customary" => p with { Units = DisplayUnits.Customary },
            _ => null,
        }),

        .. CalloutKeys.All,
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

    private static PlanKey Fill(string name, double min, double max, string unit, string reason,
        Func<FillPlan, double, FillPlan> set) => PlanKey.Number(name, min, max, unit, reason,
        (p, v) => p with { Fill = set(p.Fill, v) });

    private static PlanKey Aim(string name, double min, double max, string unit, string reason, FillAim aim) =>
        PlanKey.Number(name, min, max, unit, reason, (p, v) => Wanted(p, aim, v));

    private static FlightPlan Wanted(FlightPlan plan, FillAim aim, double value) =>
        plan with { Fill = plan.Fill with { Wanted = (aim, value) } };

    private static PlanKey Load(string name, double min, double max, string unit, string reason,
        Func<LoadPlan, double, LoadPlan> set) => PlanKey.Number(name, min, max, unit, reason,
        (p, v) => p with { Load = set(p.Load, v) });

    private static PlanKey Words(string name, Func<FlightPlan, string, FlightPlan> set) =>
        PlanKey.Text(name, "a text of 1 to 200 printable characters",
            (p, v) => v.Length is >= 1 and <= 200 && !v.Any(UserErrorException.IsUnseen) ? set(p, v) : null);

    private static PlanKey Alarm(string key, double min, double max, string unit,
        Func<AlarmLimits, double, AlarmLimits> set) => PlanKey.Number("alarms." + key, min, max, unit, "",
        (p, v) => p with { Alarms = set(p.Alarms, v) });

    [GeneratedRegex(@"^[^\p{Cc}]+\.(geojson|json|gpx)$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex MapFile();
}
