using System.Collections.Immutable;
using Groundstation.Core.Simulation;
using Groundstation.Io.Recordings;
using Tomlyn.Syntax;
using static Groundstation.Io.Scenarios.ScenarioKey;

namespace Groundstation.Io.Scenarios;

/// <summary>Keys of a scenario file: receiver, sensors and radio, and the blocks that may stand several times.</summary>
internal static class EquipmentKeys
{
    private static readonly string[] _types = ["GGA", "RMC", "GSA", "GSV", "VTG", "GLL", "ZDA"];

    /// <summary>The keys.</summary>
    public static readonly ScenarioKey[] All =
    [
        Receiver("rate_hz", 0.1, 20, "Hz", (r, v) => r with { RateHz = v }),
        Text("receiver.talker", "\"GP\" or \"GN\"", (s, v) =>
            v is "GP" or "GN" ? s with { Receiver = s.Receiver with { Talker = v } } : null),
        new("receiver.sentences", $"a list of {string.Join(", ", _types)}, each once, with GGA or RMC", (s, value) =>
            Types(value) is { } types && (types.Contains("GGA") || types.Contains("RMC"))
                ? s with { Receiver = s.Receiver with { Sentences = types } } : null),
        new("receiver.slow_sentences", $"a list of {string.Join(", ", _types)}, each once", (s, value) =>
            Types(value) is { } types ? s with { Receiver = s.Receiver with { SlowSentences = types } } : null),
        Receiver("slow_every_s", 0.1, 600, "s", (r, v) => r with { SlowEveryS = v }),
        Receiver("horizontal_sigma_m", 0, 1000, "m", (r, v) => r with { HorizontalSigmaM = v }),
        Receiver("vertical_sigma_m", 0, 1000, "m", (r, v) => r with { VerticalSigmaM = v }),
        Receiver("correlation_s", 1, 3600, "s", (r, v) => r with { CorrelationS = v }),
        Receiver("jitter_m", 0, 100, "m", (r, v) => r with { JitterM = v }),
        Receiver("speed_sigma_mps", 0, 10, "m/s", (r, v) => r with { SpeedSigmaMps = v }),
        Whole("receiver.channels", 4, 32, (s, v) => s with { Receiver = s.Receiver with { Channels = (int)v } }),
        Receiver("zenith_snr_db", 25, 60, "dB-Hz", (r, v) => r with { ZenithSnrDb = v }),
        Receiver("tumble_loss_db", 0, 40, "dB", (r, v) => r with { TumbleLossDb = v }),
        Receiver("altitude_limit_m", 100, 100_000, "m above mean sea level",
            (r, v) => r with { AltitudeLimit = new(v) }),
        Receiver("regain_s", 0, 3600, "s", (r, v) => r with { RegainS = v }),
        Text("receiver.beyond_limit", "\"blank\" or \"held\"", (s, v) => v is "blank" or "held"
            ? s with { Receiver = s.Receiver with { Beyond = v == "held" ? BeyondLimit.Held : BeyondLimit.Blank } }
            : null),
        Whole("receiver.date_ahead_days", -14_336, 14_336, (s, v) =>
            s with { Receiver = s.Receiver with { DateAheadDays = (int)v } }),
        Receiver("geoid_separation_m", -120, 100, "m", (r, v) => r with { GeoidSeparationM = v }),

        Sensors("every_s", 0, 600, "s", (x, v) => x with { EveryS = v }),
        Sensors("pressure_sigma_pa", 0, 5000, "Pa", (x, v) => x with { PressureSigmaPa = v }),
        Sensors("pressure_bias_pa", -5000, 5000, "Pa", (x, v) => x with { PressureBiasPa = v }),
        Sensors("temperature_sigma_k", 0, 20, "K", (x, v) => x with { TemperatureSigmaK = v }),
        Sensors("outside_lag_s", 1, 600, "s", (x, v) => x with { OutsideLagS = v }),
        Sensors("heating_k", 0, 80, "K", (x, v) => x with { HeatingK = v }),
        Sensors("box_lag_s", 10, 36_000, "s", (x, v) => x with { BoxLagS = v }),
        Sensors("battery_v", 1, 60, "V", (x, v) => x with { BatteryV = v }),
        Sensors("battery_drop_v_per_hour", 0, 5, "V an hour", (x, v) => x with { BatteryDropVPerHour = v }),
        Sensors("battery_drop_v_per_k", 0, 0.2, "V a kelvin", (x, v) => x with { BatteryDropVPerK = v }),

        Text("radio.source", "1 to 15 letters, digits, - or _, not \"station\"", (s, v) =>
            v != "station" && LineTag.IsName(System.Text.Encoding.UTF8.GetBytes(v))
                ? s with { Radio = s.Radio with { Source = v } } : null),
        Whole("radio.baud", 1200, 921_600, (s, v) => s with { Radio = s.Radio with { Baud = (int)v } }),
        Whole("radio.read_baud", 1200, 921_600, (s, v) => s with { Radio = s.Radio with { ReadBaud = (int)v } }),
        Radio("latency_s", 0.02, 10, "s", (r, v) => r with { LatencyS = v }),
        Radio("latency_sigma_s", 0, 1, "s", (r, v) => r with { LatencySigmaS = v }),
        Radio("clock_ahead_s", -86_400, 86_400, "s", (r, v) => r with { ClockAheadS = v }),
        Radio("damaged_share", 0, 1, "", (r, v) => r with { DamagedShare = v }),
        Radio("fade_below_m", 1, 20_000, "m above the landing ground", (r, v) => r with { FadeBelowM = v }),
    ];

    /// <summary>The blocks that may stand several times.</summary>
    public static readonly ScenarioRow[] Rows =
    [
        new("wind",
            [
                ("height_m", ScenarioKeys.LowestGround, ScenarioKeys.Highest, "m above mean sea level"),
                ("from_deg", 0, 360, "degrees true"),
                ("speed_mps", 0, 150, "m/s"),
            ], true, (s, v) => s.Air.Winds is [.., var below] && below.Height.Metres >= v[0]
                ? (s, "each level must be higher than the one before")
                : (s with { Air = s.Air with { Winds = s.Air.Winds.Add(Level(v)) } }, null)),
        new("stall",
            [
                ("from_s", -7200, 172_800, "s after launch"),
                ("for_s", 1, 172_800, "s"),
            ], true, (s, v) => (s with
            {
                Receiver = s.Receiver with { Stalls = s.Receiver.Stalls.Add(new(v[0]!.Value, v[1]!.Value)) },
            }, null)),
        new("outlier",
            [
                ("from_s", -7200, 172_800, "s after launch"),
                ("for_s", 0.05, 172_800, "s"),
                ("east_m", -2e6, 2e6, "m"),
                ("north_m", -2e6, 2e6, "m"),
                ("up_m", -60_000, 60_000, "m"),
            ], false, (s, v) => v[0] is not { } from || v[1] is not { } length
                ? (s, "from_s and for_s, and how far off: east_m, north_m, up_m")
                : (s with
                {
                    Receiver = s.Receiver with
                    {
                        Outliers = s.Receiver.Outliers.Add(new(from, length, v[2] ?? 0, v[3] ?? 0, v[4] ?? 0)),
                    },
                }, null)),
        new("silence",
            [
                ("from_s", -7200, 172_800, "s after launch"),
                ("ascent_above_m", ScenarioKeys.LowestGround, ScenarioKeys.Highest, "m above mean sea level"),
                ("descent_below_m", ScenarioKeys.LowestGround, ScenarioKeys.Highest, "m above mean sea level"),
                ("for_s", 1, 172_800, "s; left out: for good"),
            ], false, (s, v) => v.Take(3).Count(x => x is not null) != 1
                ? (s, "one of from_s, ascent_above_m and descent_below_m")
                : (s with { Radio = With(s.Radio, new Silence(v[0], v[1], v[2], v[3])) }, null)),
        new("link_gap",
            [
                ("from_s", -7200, 172_800, "s after launch"),
                ("for_s", 1, 172_800, "s"),
            ], true, (s, v) => s.Radio.LinkGaps is [.., var before] && before.FromS + before.ForS >= v[0]
                ? (s, "each gap must begin after the end of the one before")
                : (s with { Radio = With(s.Radio, new LinkGap(v[0]!.Value, v[1]!.Value)) }, null)),
        .. GroundKeys.Rows,
    ];

    private static SimulatedRadio With(SimulatedRadio radio, Silence silence) =>
        radio with { Silences = radio.Silences.Add(silence) };

    private static SimulatedRadio With(SimulatedRadio radio, LinkGap gap) =>
        radio with { LinkGaps = radio.LinkGaps.Add(gap) };

    private static WindLevel Level(double?[] v) =>
        new(new(v[0]!.Value), Core.Air.WindVector.FromDirection(v[1]!.Value, v[2]!.Value));

    private static ImmutableArray<string>? Types(ValueSyntax value)
    {
        if (value is not ArraySyntax list)
            return null;
        List<string> types = [];
        foreach (ArrayItemSyntax item in list.Items)
        {
            if (item.Value is not StringValueSyntax { Value: { } type } || !_types.Contains(type)
                || types.Contains(type))
                return null;
            types.Add(type);
        }

        return [.. types];
    }

    private static ScenarioKey Receiver(string key, double min, double max, string unit,
        Func<SimulatedReceiver, double, SimulatedReceiver> set) =>
        Number("receiver." + key, min, max, unit, (s, v) => s with { Receiver = set(s.Receiver, v) });

    private static ScenarioKey Sensors(string key, double min, double max, string unit,
        Func<SimulatedSensors, double, SimulatedSensors> set) =>
        Number("sensors." + key, min, max, unit, (s, v) => s with { Sensors = set(s.Sensors, v) });

    private static ScenarioKey Radio(string key, double min, double max, string unit,
        Func<SimulatedRadio, double, SimulatedRadio> set) =>
        Number("radio." + key, min, max, unit, (s, v) => s with { Radio = set(s.Radio, v) });
}
