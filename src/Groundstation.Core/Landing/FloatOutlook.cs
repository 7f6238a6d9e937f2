using Groundstation.Core.Air;

namespace Groundstation.Core.Landing;

/// <summary>
/// How long a float goes on. It ends at a rate that nobody knows (a seam that gives way, gas that seeps out, the evening):
/// with two ends in ten minutes supposed beforehand (most floats are a leak on its way to falling), and none seen in the
/// time floated so far, the time left has the chance (T/(T + t))² to be longer than t, T being ten minutes and the time
/// floated: the gamma–exponential mixture of textbooks on Bayesian statistics. The ten minutes are an assumption: no
/// published figures are known to us.
/// </summary>
/// <param name="FloatedS">How long it has floated, s.</param>
/// <param name="Wind">The wind it floats in.</param>
internal readonly record struct FloatOutlook(double FloatedS, WindVector Wind)
{
    private const double BeforehandS = 600;

    /// <summary>Mean time left, s.</summary>
    public double ExpectedS => BeforehandS + FloatedS;

    /// <summary>The time within which it ends with a chance of <paramref name="u"/>, s; 0 &lt; u &lt; 1.</summary>
    public double Quantile(double u) => ExpectedS * (1 / Math.Sqrt(1 - u) - 1);
}
