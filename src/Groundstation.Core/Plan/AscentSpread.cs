using Groundstation.Core.Fill;

namespace Groundstation.Core.Plan;

/// <summary>
/// How well the ascent rate is known before it is measured: standard deviation of its logarithm. It is what makes most of
/// the area before launch.
/// </summary>
public static class AscentSpread
{
    /// <summary>No fill is stated (common practice).</summary>
    public const double NoFill = 0.2;

    /// <summary>
    /// Drag coefficient, of its logarithm (common practice: a weighed fill holds its rate within a tenth). The thirteen
    /// sizes of one maker's sheet lie 5 % about their mean, but they are one sheet; the rates of two soundings of one
    /// station differ by 8 %, which is 16 % here.
    /// </summary>
    private const double DragLnSigma = 0.2;

    /// <summary>Error of the neck lift, weighed outdoors where the wind tugs at the balloon (common practice).</summary>
    private const double NeckShare = 0.02;

    /// <summary>Error of the load on a kitchen scale, and of what is tied on afterwards (common practice).</summary>
    private const double LoadShare = 0.01;

    /// <summary>Error of gas that is told by a gauge and not weighed (common practice).</summary>
    private const double GasShare = 0.03;

    /// <summary>
    /// Of a fill: v² ~ F/(Cd·V^⅔), where an error of the free lift F is one of the gas V, too.
    /// </summary>
    /// <param name="fill">The fill; its free lift is above 0.</param>
    /// <param name="weighed">True when it is filled until the neck lift is right; else the gas is told by a gauge.</param>
    public static double Of(BalloonFill fill, bool weighed)
    {
        double errorKg = weighed
            ? double.Hypot(NeckShare * fill.NeckLiftKg, LoadShare * fill.CarriedKg) : GasShare * fill.GrossLiftKg;
        double lift = errorKg * (1 / fill.FreeLiftKg - 2 / (3 * fill.GrossLiftKg));
        return double.Hypot(lift, DragLnSigma) / 2;
    }
}
