using System.Collections.Immutable;
using Groundstation.Core.Air;
using Groundstation.Core.Earth;

namespace Groundstation.Core.Fill;

/// <summary>
/// A parachute's shape, with the range of its drag coefficient on the nominal area S₀ = π/4·D₀² (the area of the
/// cloth's own circle, laid flat; not of the open mouth).
/// </summary>
/// <param name="Name">Trade name.</param>
/// <param name="CdLow">Smallest published.</param>
/// <param name="CdHigh">Largest published.</param>
public sealed record CanopyShape(string Name, double CdLow, double CdHigh)
{
    /// <summary>Shapes, after Knacke, NWC TP 6575 (1991), tables 5-1 and 5-2 (from memory, four seen quoted).</summary>
    public static readonly ImmutableArray<CanopyShape> All =
    [
        new("flat circular", 0.75, 0.80), new("conical", 0.75, 0.90), new("biconical", 0.75, 0.92),
        new("triconical", 0.80, 0.96), new("extended skirt 10 % flat", 0.78, 0.87),
        new("extended skirt 14.3 % full", 0.75, 0.90), new("hemispherical", 0.62, 0.77),
        new("guide surface ribbed", 0.28, 0.42), new("annular", 0.85, 0.95), new("cross", 0.60, 0.85),
        new("flat ribbon", 0.45, 0.50), new("conical ribbon", 0.50, 0.55), new("ringslot", 0.56, 0.65),
        new("ringsail", 0.75, 0.90), new("disk-gap-band", 0.52, 0.58),
    ];

    /// <summary>The middle of the range.</summary>
    public double Cd => (CdLow + CdHigh) / 2;

    /// <summary>Drag area Cd·S₀, m², of a nominal diameter, m.</summary>
    public double DragAreaM2(double diameterM) => Cd * Math.PI / 4 * diameterM * diameterM;

    /// <summary>Nominal diameter, m, of a drag area, m².</summary>
    public double DiameterM(double dragAreaM2) => Math.Sqrt(dragAreaM2 * 4 / (Math.PI * Cd));

    /// <summary>The shape of a name, whatever its case; null: not known.</summary>
    public static CanopyShape? Named(string name) =>
        All.FirstOrDefault(s => string.Equals(s.Name, name.Trim(), StringComparison.OrdinalIgnoreCase));
}

/// <summary>A fall under a constant drag area through the standard atmosphere, without wind.</summary>
/// <param name="MassKg">All that comes down, kg.</param>
/// <param name="DragAreaM2">Drag area Cd·S, m².</param>
public readonly record struct CanopyFall(double MassKg, double DragAreaM2)
{
    /// <summary>The fall that has a steady speed, m/s, at a height.</summary>
    public static CanopyFall WithRate(double massKg, double rateMps, HeightMsl at) => new(massKg, 2 * massKg
        * AtmosphereProfile.Gravity(at.Metres) / (StandardAtmosphere.DensityKgM3(at.Metres) * rateMps * rateMps));

    /// <summary>Steady speed at a height, m/s: √(2·m·g/(ρ·Cd·S)) (Knacke, chapter 4).</summary>
    public double SteadyMps(double heightM) => Math.Sqrt(2 * MassKg * AtmosphereProfile.Gravity(heightM)
        / (StandardAtmosphere.DensityKgM3(heightM) * DragAreaM2));

    /// <summary>Energy at a speed, J: ½·m·v².</summary>
    public double EnergyJ(double speedMps) => 0.5 * MassKg * speedMps * speedMps;

    /// <summary>Seconds from rest at a height down to the ground, and the speed there, m/s.</summary>
    /// <param name="from">Where it starts.</param>
    /// <param name="ground">Where it ends.</param>
    public (double Seconds, double ImpactMps) Fall(HeightMsl from, HeightMsl ground)
    {
        // Each step is the exact fall under the gravity and steady speed of its middle: stable at any step.
        const double step = 0.25;
        double z = from.Metres, v = 0, seconds = 0;
        while (z > ground.Metres)
        {
            (double next, double fallen) = Step(z - v * step / 2, v, step);
            if (z - fallen <= ground.Metres)
            {
                double rest = (z - ground.Metres) / fallen;
                return (seconds + rest * step, v + rest * (next - v));
            }

            (z, v, seconds) = (z - fallen, next, seconds + step);
        }

        return (seconds, v);
    }

    private (double Speed, double FallenM) Step(double heightM, double v, double seconds)
    {
        double g = AtmosphereProfile.Gravity(heightM), steady = SteadyMps(heightM);
        double tau = g * seconds / steady, t = Math.Tanh(tau);
        double speed = steady * (v + steady * t) / (steady + v * t);
        return (speed, steady * steady / g * Math.Log(Math.Cosh(tau) + v / steady * Math.Sinh(tau)));
    }
}
