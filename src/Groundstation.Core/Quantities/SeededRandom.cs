using System.Numerics;

namespace Groundstation.Core.Quantities;

/// <summary>
/// The only source of random draws: xoshiro256** (Blackman and Vigna 2018, reference code in the public domain), its
/// state filled by splitmix64 (Steele, Lea and Flood 2014; Vigna's reference code, public domain). The same seed and
/// stream give the same draws on every platform; Gaussian draws can differ in the last bit where a platform's
/// logarithm does. Not for secrets. Mutable, to be owned by one user.
/// </summary>
public sealed class SeededRandom
{
    private ulong _s0, _s1, _s2, _s3;
    private double? _spare;

    /// <summary>A generator for a seed; any value will do, 0 too.</summary>
    public SeededRandom(ulong seed) : this(seed, 0)
    {
    }

    /// <summary>
    /// An independent stream of the same seed: so that a draw more in one place (say, wind) changes none in another
    /// (say, receiver noise).
    /// </summary>
    /// <param name="seed">Any value.</param>
    /// <param name="stream">Number of the stream; 0 equals <see cref="SeededRandom(ulong)"/>.</param>
    public SeededRandom(ulong seed, ulong stream)
    {
        // Any two states are far apart in a period of 2^256 with probability 1 − 2^-190 or so.
        ulong x = stream;
        ulong mixed = seed ^ (stream == 0 ? 0 : SplitMix64(ref x));
        _s0 = SplitMix64(ref mixed);
        _s1 = SplitMix64(ref mixed);
        _s2 = SplitMix64(ref mixed);
        _s3 = SplitMix64(ref mixed);
    }

    internal SeededRandom(ulong s0, ulong s1, ulong s2, ulong s3) => (_s0, _s1, _s2, _s3) = (s0, s1, s2, s3);

    /// <summary>64 random bits.</summary>
    public ulong NextUInt64()
    {
        ulong result = BitOperations.RotateLeft(_s1 * 5, 7) * 9;
        ulong t = _s1 << 17;
        _s2 ^= _s0;
        _s3 ^= _s1;
        _s1 ^= _s2;
        _s0 ^= _s3;
        _s2 ^= t;
        _s3 = BitOperations.RotateLeft(_s3, 45);
        return result;
    }

    /// <summary>Even in 0 ≤ x &lt; 1, in steps of 2^-53.</summary>
    public double NextDouble() => (NextUInt64() >> 11) * (1.0 / (1UL << 53));

    /// <summary>Even in <paramref name="from"/> ≤ x &lt; <paramref name="to"/>.</summary>
    public double NextBetween(double from, double to) => from + (to - from) * NextDouble();

    /// <summary>Even whole number in 0 ≤ n &lt; <paramref name="below"/>; the bias is under 2^-32.</summary>
    /// <param name="below">At least 1.</param>
    public int NextBelow(int below)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(below, 1);
        return (int)(((UInt128)NextUInt64() * (ulong)below) >> 64);
    }

    /// <summary>True with the given probability, 0 to 1.</summary>
    public bool NextChance(double probability) => NextDouble() < probability;

    /// <summary>Normal with mean 0 and standard deviation 1 (Marsaglia's polar method).</summary>
    public double NextGaussian()
    {
        if (_spare is { } spare)
        {
            _spare = null;
            return spare;
        }

        double u, v, s;
        do
        {
            u = 2 * NextDouble() - 1;
            v = 2 * NextDouble() - 1;
            s = u * u + v * v;
        }
        while (s >= 1 || s == 0);

        double scale = Math.Sqrt(-2 * Math.Log(s) / s);
        _spare = v * scale;
        return u * scale;
    }

    internal static ulong SplitMix64(ref ulong state)
    {
        state += 0x9E3779B97F4A7C15;
        ulong z = state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }
}
