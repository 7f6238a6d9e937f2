using Groundstation.Core.Flight;

namespace Groundstation.Core.Landing;

/// <summary>What lies ahead of the payload: a climb to a burst, or a float that ends some time, or neither; then the fall.</summary>
internal sealed record Ahead
{
    /// <summary>Height now, metres above mean sea level.</summary>
    public required double StartM { get; init; }

    /// <summary>Expected height at which the fall begins, metres above mean sea level.</summary>
    public required double TopM { get; init; }

    /// <summary>The expected climb; null when it climbs no more.</summary>
    public ClimbTable? Climb { get; init; }

    /// <summary>Where it will burst, when it climbs.</summary>
    public BurstOutlook Burst { get; init; }

    /// <summary>How long it will float on; null when it does not float.</summary>
    public FloatOutlook? Float { get; init; }

    /// <summary>The expected fall, from the greatest height on.</summary>
    public required FallTable Fall { get; init; }

    /// <summary>What a balloon that lets go on the way adds to the spread of ln(rate of fall).</summary>
    public double LeakLnSigma { get; init; }

    /// <summary>Into how many classes of equal chance the beginning of the fall is cut.</summary>
    public int Classes => Climb is null && Float is null ? 1 : Draws.BurstClasses;

    /// <summary>What is not known of the beginning of the fall, in words.</summary>
    public string Unknown => Float is null ? "burst height" : "how long it floats";

    /// <summary>Height below which the fall begins with a chance of <paramref name="u"/>, metres above mean sea level.</summary>
    public double Top(double u) => Climb is null ? TopM : Burst.Quantile(Math.Clamp(u, 1e-6, 1 - 1e-6));

    /// <summary>
    /// Seconds within which a float ends with a chance of <paramref name="u"/>; 0 when there is none. Cut at one in a
    /// thousand: beyond it one draw among the members would move their mean.
    /// </summary>
    public double Waits(double u) => Float?.Quantile(Math.Clamp(u, 1e-6, 1 - 1e-3)) ?? 0;

    /// <summary>Times and drifts until and during the fall, as expected.</summary>
    public LegSums Expected(double groundM) => Legs(TopM, Float?.ExpectedS ?? 0, groundM);

    /// <summary>The same where the fall begins with a chance of <paramref name="u"/> before.</summary>
    public LegSums At(double u, double groundM) => Legs(Top(u), Waits(u), groundM);

    private LegSums Legs(double topM, double waitsS, double groundM)
    {
        var up = Climb?.At(topM) ?? (waitsS, waitsS * (Float?.Wind.EastMps ?? 0), waitsS * (Float?.Wind.NorthMps ?? 0));
        var from = Fall.At(topM);
        var end = Fall.At(groundM);
        return new(topM, up.Seconds, up.EastM, up.NorthM, end.Seconds - from.Seconds, end.EastM - from.EastM, end.NorthM - from.NorthM);
    }
}

/// <summary>
/// Height at which the fall begins, metres above mean sea level; seconds, metres east and metres north until then, and in
/// the fall.
/// </summary>
internal readonly record struct LegSums(double TopM, double BeforeS, double BeforeE, double BeforeN, double FallS,
    double FallE, double FallN);
