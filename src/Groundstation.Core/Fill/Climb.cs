using Groundstation.Core.Air;
using Groundstation.Core.Earth;

namespace Groundstation.Core.Fill;

/// <summary>
/// The climb of a filled balloon through the standard atmosphere. As it thins out the Reynolds number falls and the
/// drag coefficient rises from the launch value to that of a sphere with a laminar boundary layer, which keeps the rate
/// nearly steady up to about 15 km, as radiosondes show it; with one coefficient for all heights the rate would double
/// to 30 km (it grows by 40 to 50 %).
/// </summary>
public static class Climb
{
    /// <summary>A sphere's below the drag crisis: the middle of five correlations near Re 10⁵ (0.42 to 0.50).</summary>
    private const double LaminarCd = 0.47;

    /// <summary>Where the drag crisis ends downwards, in the same correlations.</summary>
    private const double LaminarBelowRe = 2e5;

    /// <summary>Ascent rate at a height, m/s; 0 without free lift.</summary>
    public static double RateMps(BalloonFill fill, double heightM)
    {
        double launch = fill.AscentRateMps;
        if (launch <= 0) return 0;
        double launchRe = Reynolds(fill.Air.DensityKgM3, StandardAtmosphere.ViscosityAt(fill.Air.TemperatureK), fill.DiameterM, launch);
        double density = StandardAtmosphere.DensityKgM3(heightM), d = fill.DiameterAt(heightM);
        double balance = 8 * fill.FreeLiftKg * AtmosphereProfile.Gravity(heightM) / (density * Math.PI * d * d);
        double rate = launch;
        // The coefficient changes slower than any power of the rate that would matter: each turn leaves a third of the
        // error.
        for (int i = 0; i < 12; i++)
        {
            double re = Reynolds(density, StandardAtmosphere.DynamicViscosity(heightM), d, rate);
            rate = Math.Sqrt(balance / Coefficient(re, launchRe, fill.DragCoefficient));
        }

        return rate;
    }

    /// <summary>Seconds from launch to a height; null when it does not climb.</summary>
    public static double? Seconds(BalloonFill fill, HeightMsl from, HeightMsl to)
    {
        if (fill.AscentRateMps <= 0) return null;
        double seconds = 0;
        int steps = Math.Max(1, (int)Math.Ceiling((to.Metres - from.Metres) / 100));
        double step = (to.Metres - from.Metres) / steps;
        for (int i = 0; i < steps; i++) seconds += step / RateMps(fill, from.Metres + (i + 0.5) * step);
        return seconds;
    }

    private static double Coefficient(double re, double launchRe, double launchCd)
    {
        if (launchRe <= LaminarBelowRe || launchCd >= LaminarCd || re >= launchRe) return launchCd;
        double share = Math.Log(launchRe / Math.Max(re, LaminarBelowRe)) / Math.Log(launchRe / LaminarBelowRe);
        return launchCd + share * (LaminarCd - launchCd);
    }

    private static double Reynolds(double density, double viscosity, double diameterM, double rateMps) =>
        density * rateMps * diameterM / viscosity;
}
