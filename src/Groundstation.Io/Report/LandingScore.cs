using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;

namespace Groundstation.Io.Report;

/// <summary>One landing estimate held against where it came down.</summary>
/// <param name="Estimate">The estimate.</param>
/// <param name="ErrorM">Distance of its place from the landing, m.</param>
/// <param name="LastWindErrorM">The same of the plain estimate from the last wind; null where there was none.</param>
/// <param name="In50">True when the 50 % area held the landing.</param>
/// <param name="In95">True when the 95 % area held it.</param>
public sealed record LandingScore(LandingEstimate Estimate, double ErrorM, double? LastWindErrorM, bool In50, bool In95)
{
    /// <summary>Scores the estimates made in flight; none without a known landing.</summary>
    public static IReadOnlyList<LandingScore> Of(FlightRecord record, FlightFigures figures)
    {
        if (figures.Truth is not { } truth)
            return [];
        return
        [
            .. record.Landings.Where(e => e.Method != LandingMethod.Landed && e.Phase is not (Phase.Pad or Phase.Landed)
                    && (figures.Landed is null || e.Utc < figures.Landed.Value.Utc))
                .Select(e => Of(e, truth)),
        ];
    }

    private static LandingScore Of(LandingEstimate estimate, GeoPoint truth)
    {
        GeodesicLine miss = Geodesic.Inverse(estimate.Position, truth);
        return new LandingScore(estimate, miss.DistanceM,
            estimate.LastWind is { } plain ? Geodesic.DistanceM(plain, truth) : null,
            Holds(estimate.Area50, miss), Holds(estimate.Area95, miss));
    }

    /// <summary>True when a place that lies off the area's middle by <paramref name="miss"/> is in the area.</summary>
    internal static bool Holds(SearchArea area, GeodesicLine miss)
    {
        (double sin, double cos) = Math.SinCos((miss.AzimuthDeg - area.AzimuthDeg) * Math.PI / 180);
        double along = miss.DistanceM * cos / area.MajorM, across = miss.DistanceM * sin / area.MinorM;
        return along * along + across * across <= 1;
    }
}
