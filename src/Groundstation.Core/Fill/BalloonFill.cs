using Groundstation.Core.Air;
using Groundstation.Core.Earth;

namespace Groundstation.Core.Fill;

/// <summary>
/// A balloon filled with so much gas, at the place of the fill: lifts, size, and what follows for the flight. The
/// balloon is a sphere, its gas at the pressure and temperature of the air around (a latex balloon adds a few hPa of
/// its own, which are left out). Lifts are masses, as a scale shows them.
/// </summary>
/// <param name="Gas">The gas.</param>
/// <param name="Air">The air at the site.</param>
/// <param name="BalloonKg">Mass of the empty balloon, kg.</param>
/// <param name="CarriedKg">Mass of all that hangs under the neck in flight, kg.</param>
/// <param name="VolumeM3">Gas in it, m³ at the site's pressure and temperature.</param>
/// <param name="DragCoefficient">Drag coefficient of the climbing balloon on its cross-section, at launch.</param>
public sealed record BalloonFill(LiftingGas Gas, SiteAir Air, double BalloonKg, double CarriedKg, double VolumeM3,
    double DragCoefficient = BalloonFill.UsualDragCoefficient)
{
    /// <summary>
    /// Drag coefficient near the ground: the mean of what the thirteen rows of a maker's data sheet imply (0.265 to
    /// 0.309, second-hand). At launch a balloon's Reynolds number is 4·10⁵ to 8·10⁵, where the published correlations
    /// for a smooth sphere lie between 0.08 and 0.6: it cannot be had from them.
    /// </summary>
    public const double UsualDragCoefficient = 0.28;

    /// <summary>All that the gas lifts, the balloon included, kg.</summary>
    public double GrossLiftKg => VolumeM3 * Air.DensityKgM3 * Gas.LiftShare;

    /// <summary>
    /// What a scale under the neck shows, kg: the balloon's own mass is lifted already and is not counted again.
    /// </summary>
    public double NeckLiftKg => GrossLiftKg - BalloonKg;

    /// <summary>What remains to climb with, kg; negative: it does not leave the ground.</summary>
    public double FreeLiftKg => NeckLiftKg - CarriedKg;

    /// <summary>Diameter at the site, m.</summary>
    public double DiameterM => Diameter(VolumeM3);

    /// <summary>Amount of gas, mol.</summary>
    public double AmountMol => Air.AmountMol(VolumeM3);

    /// <summary>Volume of the gas at 0 °C and 101 325 Pa, m³.</summary>
    public double VolumeAt0CM3 => new SiteAir(101_325, 273.15).VolumeM3(AmountMol);

    /// <summary>
    /// Ascent rate at launch, m/s, where free lift and drag balance: F·g = ½·Cd·ρ·v²·π·d²/4. 0 when nothing is left to
    /// climb with.
    /// </summary>
    public double AscentRateMps => FreeLiftKg <= 0 ? 0 : Math.Sqrt(8 * FreeLiftKg * AtmosphereProfile.StandardGravity
        / (DragCoefficient * Air.DensityKgM3 * Math.PI * DiameterM * DiameterM));

    /// <summary>
    /// Where the balloon has grown to its burst diameter, in the standard atmosphere: ρ(z) = ρ(site)·V/V(burst). Null
    /// when it bursts while being filled, or could rise above 86 km, where the atmosphere of this program ends.
    /// </summary>
    /// <param name="burstDiameterM">Diameter at which it bursts, m.</param>
    public HeightMsl? BurstHeight(double burstDiameterM)
    {
        double burstM3 = Volume(burstDiameterM);
        return burstM3 <= VolumeM3 ? null : HeightOfDensity(Air.DensityKgM3 * VolumeM3 / burstM3);
    }

    /// <summary>Diameter of the climbing balloon at a height, m.</summary>
    public double DiameterAt(double heightM) =>
        Diameter(VolumeM3 * Air.DensityKgM3 / StandardAtmosphere.DensityKgM3(heightM));

    /// <summary>The fill that lifts so much beyond all masses.</summary>
    public BalloonFill WithFreeLift(double freeLiftKg) => this with
    {
        VolumeM3 = (BalloonKg + CarriedKg + freeLiftKg) / (Air.DensityKgM3 * Gas.LiftShare),
    };

    /// <summary>The fill that bursts at a height, given the burst diameter.</summary>
    public BalloonFill WithBurstHeight(HeightMsl height, double burstDiameterM) => this with
    {
        VolumeM3 = Volume(burstDiameterM) * StandardAtmosphere.DensityKgM3(height.Metres) / Air.DensityKgM3,
    };

    /// <summary>The fill that climbs at a rate, m/s, above 0.</summary>
    public BalloonFill WithAscentRate(double ascentRateMps)
    {
        // The rate grows with the gas without end (as the sixth root): double until above, then halve the interval.
        BalloonFill low = WithFreeLift(0), high = WithFreeLift(1);
        while (high.AscentRateMps < ascentRateMps) high = high with { VolumeM3 = high.VolumeM3 * 2 };
        for (int i = 0; i < 100; i++)
        {
            BalloonFill middle = this with { VolumeM3 = (low.VolumeM3 + high.VolumeM3) / 2 };
            if (middle.AscentRateMps < ascentRateMps) low = middle;
            else high = middle;
        }

        return high;
    }

    /// <summary>Volume of a sphere, m³.</summary>
    public static double Volume(double diameterM) => Math.PI / 6 * diameterM * diameterM * diameterM;

    /// <summary>Diameter of a sphere, m.</summary>
    public static double Diameter(double volumeM3) => Math.Cbrt(6 / Math.PI * volumeM3);

    private static HeightMsl? HeightOfDensity(double densityKgM3)
    {
        double low = -5000, high = 86_000;
        if (densityKgM3 < StandardAtmosphere.DensityKgM3(high) || densityKgM3 > StandardAtmosphere.DensityKgM3(low))
            return null;
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (StandardAtmosphere.DensityKgM3(middle) > densityKgM3) low = middle;
            else high = middle;
        }

        return new HeightMsl(high);
    }
}
