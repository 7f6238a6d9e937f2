using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Sentences;

namespace Groundstation.Core.Fixes;

/// <summary>What speaks against a fix by itself: what the receiver says of it, and values that no balloon has.</summary>
internal static class FixClaims
{
    private const double NullIslandM = 1000;

    /// <summary>Adds all that applies.</summary>
    /// <param name="fix">The fix.</param>
    /// <param name="limits">What the plan asks of a fix.</param>
    /// <param name="heightBeforeM">Height of the flight before, else of the launch, metres; null when unknown.</param>
    /// <param name="verdict">Takes the reasons.</param>
    public static void Check(Fix fix, BeliefLimits limits, double? heightBeforeM, Verdict verdict)
    {
        bool saidNone = verdict.Reasons.HasFlag(RefusalReasons.NoFix);
        if (!saidNone && (fix.Quality == FixQuality.Invalid || fix.Dimension == FixDimension.None))
            verdict.Add(RefusalReasons.NoFix, "receiver has no fix");
        bool saidNotMeasured = verdict.Reasons.HasFlag(RefusalReasons.NotMeasured);
        if (!saidNotMeasured && fix.Quality is FixQuality.Estimated or FixQuality.Manual or FixQuality.Simulator)
            verdict.Add(RefusalReasons.NotMeasured, "position estimated, typed in or simulated");
        if (fix.Position is null)
            verdict.Add(RefusalReasons.NoPosition, "no position");
        if (fix.Height is null)
            verdict.Add(RefusalReasons.NoAltitude, "no altitude");
        else if (fix.Dimension == FixDimension.TwoD)
            verdict.Add(RefusalReasons.NoAltitude, "two dimensions: altitude not measured");
        if (fix.SatellitesUsed < limits.MinSatellites)
            verdict.Add(RefusalReasons.FewSatellites, $"{fix.SatellitesUsed} satellites, {limits.MinSatellites} asked");
        if (fix.Hdop > limits.MaxHdop)
            verdict.Add(RefusalReasons.PoorHdop, $"HDOP {fix.Hdop:F1}, limit {limits.MaxHdop:F1}");
        Ranges(fix, heightBeforeM, verdict);
    }

    private static void Ranges(Fix fix, double? heightBeforeM, Verdict verdict)
    {
        if (fix.Height is { Metres: < -500 or > 60_000 } height)
            verdict.Add(RefusalReasons.OutOfRange, $"altitude {Measure.Height(height.Metres)}");
        if (fix.SpeedMps is > 250 and var speed)
            verdict.Add(RefusalReasons.OutOfRange, $"speed {Measure.Speed(speed)}");
        if (fix.Position is { } place && IsNullIsland(place))
            verdict.Add(RefusalReasons.NullIsland, "position 0, 0");
        // At a launch or landing by the sea 0.0 is an altitude like any other.
        if (fix.Height is { Metres: 0 } && heightBeforeM > 100)
            verdict.Add(RefusalReasons.ZeroAltitude, "altitude exactly 0");
    }

    private static bool IsNullIsland(GeoPoint place)
    {
        (double east, double north) = Track.Metres(new GeoPoint(0, 0), place);
        return Math.Sqrt(east * east + north * north) <= NullIslandM;
    }
}
