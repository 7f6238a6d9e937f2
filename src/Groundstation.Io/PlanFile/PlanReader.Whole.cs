using System.Collections.Immutable;
using System.Globalization;
using Groundstation.Core.Plan;

namespace Groundstation.Io.PlanFile;

/// <summary>What only the whole file shows: keys that go together, and defaults that follow from others.</summary>
public sealed partial class PlanReader
{
    /// <summary>The plan that the keys come to.</summary>
    private FlightPlan Finish()
    {
        Pair("launch.latitude_deg", "launch.longitude_deg");
        Pair("launch.longitude_deg", "launch.latitude_deg");
        Together();
        Below("alarms.ascent_slow_mps", _plan.Alarms.AscentSlowMps, "alarms.ascent_fast_mps",
            _plan.Alarms.AscentFastMps);
        Below("alarms.descent_slow_mps", _plan.Alarms.DescentSlowMps, "alarms.descent_fast_mps",
            _plan.Alarms.DescentFastMps);
        Below("alarms.inside_cold_c", _plan.Alarms.InsideColdC, "alarms.inside_hot_c", _plan.Alarms.InsideHotC);
        Below("alarms.keep_out_advisory_share", _plan.Alarms.KeepOutAdvisoryShare, "alarms.keep_out_caution_share",
            _plan.Alarms.KeepOutCautionShare);
        Below("alarms.keep_out_caution_share", _plan.Alarms.KeepOutCautionShare, "alarms.keep_out_warning_share",
            _plan.Alarms.KeepOutWarningShare);
        Below("launch.height_m", _plan.LaunchHeight?.Metres ?? double.MinValue, "balloon.burst_height_m",
            _plan.BurstHeight.Metres);

        if (_wind.Count > 0 && _lines.TryGetValue("winds", out int files))
            throw _toml.Wrong(Math.Max(files, _wind[0].Line), "winds and [[wind]]", "one of the two, not both");
        FlightPlan plan = _plan with
        {
            WindFiles = _windFiles,
            Winds = OwnLevels(),
            Stated = [.. PlanKeys.All.Select(k => k.Name).Where(_lines.ContainsKey), .. Wind()],
        };
        if (plan.Load.SumKg is { } sum)
            plan = plan with { DescentMassKg = sum };
        if (plan.Canopy.DiameterM is { } diameter)
            plan = plan with { CanopyDragAreaM2 = plan.Canopy.Shape.DragAreaM2(diameter) };
        if (plan.CanopyDragAreaM2 is { } dragArea)
            plan = plan with { DescentRateSeaLevelMps = PlanDefaults.DescentRate(plan.DescentMassKg, dragArea) };
        bool rateKnown = plan.CanopyDragAreaM2 is not null || _lines.ContainsKey("parachute.descent_rate_mps");
        if (rateKnown && !_lines.ContainsKey("parachute.descent_rate_ln_sigma"))
            plan = plan with { DescentRateLnSigma = PlanDefaults.PlannedRateLnSigma };
        if (_lines.ContainsKey("balloon.burst_height_m") && !_lines.ContainsKey("balloon.burst_sigma_m"))
            plan = plan with { BurstSigmaM = PlanDefaults.PlannedBurstSigmaM };
        // What the balloon and its gas come to is the plan's, unless it states otherwise.
        if (FillResult.Of(plan) is { } fill)
        {
            if (fill.Fill.AscentRateMps > 0 && !_lines.ContainsKey("balloon.ascent_rate_mps"))
            {
                bool weighed = plan.Fill.Wanted?.Aim is not (FillAim.Gas or FillAim.AllCylinders);
                plan = plan with
                {
                    AscentRateMps = fill.Fill.AscentRateMps,
                    AscentRateLnSigma = _lines.ContainsKey("balloon.ascent_rate_ln_sigma") ? plan.AscentRateLnSigma
                        : AscentSpread.Of(fill.Fill, weighed),
                };
            }
            if (fill.Burst is { } burst && !_lines.ContainsKey("balloon.burst_height_m"))
            {
                plan = plan with
                {
                    BurstHeight = burst,
                    BurstSigmaM = _lines.ContainsKey("balloon.burst_sigma_m") ? plan.BurstSigmaM
                        : PlanDefaults.PlannedBurstSigmaM,
                };
            }
        }

        return plan;

        ImmutableArray<WindForecast> OwnLevels() => _wind.Count == 0 ? [] : [new WindForecast
        {
            Source = WindForecast.OwnLevels,
            Levels = [.. _wind.Select(w => w.Level).OrderBy(level => level.Height.Metres)],
        }];

        ImmutableArray<string> Wind() => _wind.Count > 0 ? ["wind"] : _windFiles.Length > 0 ? ["winds"] : [];
    }

    /// <summary>Of some keys only one may stand, and some need another.</summary>
    private void Together()
    {
        OneOf("parachute.drag_area_m2", "parachute.diameter_m", "parachute.descent_rate_mps");
        foreach (string part in (string[])["boxes_kg", "line_kg", "parachute_kg", "flags_kg"])
            OneOf("payload.mass_kg", "payload." + part);
        OneOf("fill.ascent_rate_mps", "fill.free_lift_kg", "fill.burst_height_m", "fill.gas_m3", "fill.all_cylinders");
        Pair("cylinder.size_m3", "cylinder.pressure_pa");
        Pair("cylinder.pressure_pa", "cylinder.size_m3");
        Pair("fill.all_cylinders", "cylinder.size_m3");
        string? gas = PlanKeys.All.Select(k => k.Name).FirstOrDefault(n => _lines.ContainsKey(n)
            && (n.Split('.')[0] is "fill" or "cylinder"
                || n is "balloon.burst_diameter_m" or "balloon.drag_coefficient"));
        if (gas is not null)
            Pair(gas, "balloon.mass_kg");
    }

    private void OneOf(params string[] names)
    {
        string[] stated = [.. names.Where(_lines.ContainsKey).OrderBy(n => _lines[n])];
        if (stated.Length > 1)
            throw _toml.Wrong(_lines[stated[1]], $"{stated[0]} and {stated[1]}", "one of the two, not both");
    }

    private void Pair(string given, string needed)
    {
        if (_lines.TryGetValue(given, out int line) && !_lines.ContainsKey(needed))
            throw _toml.Wrong(line, given, $"only together with {needed}");
    }

    private void Below(string low, double lowValue, string high, double highValue)
    {
        int line = Math.Max(_lines.GetValueOrDefault(low), _lines.GetValueOrDefault(high));
        if (line > 0 && lowValue >= highValue)
        {
            throw _toml.Wrong(line, _lines.GetValueOrDefault(low) == line ? low : high, string.Create(
                CultureInfo.InvariantCulture, $"{low} ({lowValue}) below {high} ({highValue})"));
        }
    }
}
