using Groundstation.Core.Quantities;

namespace Groundstation.Core.Landing;

/// <summary>
/// The ensemble's random numbers, drawn once from the plan's seed and used again for every estimate: the same seed gives
/// the same areas, and areas do not flicker from one fix to the next. Members come in pairs of opposite sign, so that
/// the ensemble's mean has no noise of its own where the landing depends linearly on what is drawn.
/// </summary>
internal sealed class Draws
{
    /// <summary>Members.</summary>
    public const int Count = 1024;

    /// <summary>Normal numbers each member has.</summary>
    public const int Normals = 9;

    /// <summary>Classes of equal chance into which burst heights are cut.</summary>
    public const int BurstClasses = 8;

    private readonly double[] _normal = new double[Count * Normals];

    public Draws(ulong seed)
    {
        var random = new SeededRandom(seed, 0x4C616E64);
        for (int k = 0; k < Count; k += 2)
        {
            for (int j = 0; j < Normals; j++)
            {
                double x = random.NextGaussian();
                _normal[k * Normals + j] = x;
                _normal[(k + 1) * Normals + j] = -x;
            }
            // A pair shares the supposition, so that its mean is that supposition's; stratified over the pairs.
            Wind[k] = Wind[k + 1] = (k + 2 * random.NextDouble()) / Count;
            Fall[k] = random.NextDouble();
            Fall[k + 1] = Fall[k];
            Burst[k] = random.NextDouble();
            Burst[k + 1] = 1 - Burst[k];
        }
        // Strata of the fall's suppositions must not go along with those of the wind's.
        var order = new int[Count / 2];
        for (int i = 0; i < order.Length; i++) order[i] = i;
        for (int i = order.Length - 1; i > 0; i--)
        {
            int j = random.NextBelow(i + 1);
            (order[i], order[j]) = (order[j], order[i]);
        }
        for (int i = 0; i < order.Length; i++)
        {
            double u = (order[i] + Fall[2 * i]) / order.Length;
            Fall[2 * i] = Fall[2 * i + 1] = u;
        }
    }

    /// <summary>Even in 0–1, for the supposition on winds.</summary>
    public double[] Wind { get; } = new double[Count];

    /// <summary>Even in 0–1, for the supposition on the fall.</summary>
    public double[] Fall { get; } = new double[Count];

    /// <summary>Even in 0–1, for the burst height.</summary>
    public double[] Burst { get; } = new double[Count];

    /// <summary>A member's normal numbers.</summary>
    public ReadOnlySpan<double> Of(int member) => _normal.AsSpan(member * Normals, Normals);
}
