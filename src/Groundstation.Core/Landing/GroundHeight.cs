using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Plan;

namespace Groundstation.Core.Landing;

/// <summary>What is known of the height of the ground where the path comes down.</summary>
/// <param name="HeightM">Metres above mean sea level.</param>
/// <param name="SigmaM">Standard deviation, m.</param>
/// <param name="CeilingM">The payload was heard at this height and still fell: the ground is below it.</param>
public readonly record struct GroundGuess(double HeightM, double SigmaM, double CeilingM = double.PositiveInfinity)
{
    /// <summary>The height below which the ground is with a chance of <paramref name="u"/>, 0 &lt; u &lt; 1.</summary>
    public double Quantile(double u)
    {
        double over = (HeightM - CeilingM) / SigmaM, left = NormalLaw.Below(-over);
        // Far above the ceiling the cut normal is an exponential tail.
        double z = left < 1e-4 ? CeilingM + Math.Log(u) * SigmaM / over : HeightM + SigmaM * NormalLaw.Quantile(u * left);
        return Math.Min(z, CeilingM);
    }

    /// <summary>Mean height.</summary>
    public double Expected()
    {
        if (HeightM + 4 * SigmaM < CeilingM) return HeightM;
        double sum = 0;
        const int Points = 64;
        for (int i = 0; i < Points; i++) sum += Quantile((i + 0.5) / Points);
        return sum / Points;
    }
}

/// <summary>Height of the ground: terrain where there is some, else the plan's, else the launch ground's, else sea level.</summary>
/// <param name="plan">The plan.</param>
/// <param name="terrain">Height of the terrain at a place, metres above mean sea level; null where there is none.</param>
public sealed class GroundHeight(FlightPlan plan, Func<GeoPoint, double?>? terrain)
{
    /// <summary>The ground's height as the operator gave it, metres above mean sea level; it goes before everything else.</summary>
    public double? ToldM { get; set; }

    /// <summary>True when there may be terrain, and nobody said otherwise.</summary>
    public bool HasTerrain => terrain is not null && ToldM is null;

    /// <summary>Height of the terrain at a place; null where there is none.</summary>
    public double? Terrain(GeoPoint place) => terrain?.Invoke(place);

    /// <summary>Height without terrain.</summary>
    /// <param name="pad">The launch ground, as measured.</param>
    /// <param name="distanceM">How far from it the landing is.</param>
    public GroundGuess Guess(Waypoint? pad, double distanceM)
    {
        if (ToldM is { } told) return new(told, 20);
        if (plan.LandingGround is { } given) return new(given.Metres, 20);
        double? launch = pad?.Height.Metres ?? plan.LaunchHeight?.Metres;
        // Land differs in height by some ten metres over a kilometre, and by about the root of the distance: 60 m over
        // 40 km of open country.
        if (launch is { } m) return new(m, Math.Min(10 * Math.Sqrt(Math.Max(distanceM, 0) / 1000 + 0.1), 150));
        // Nothing known: half of all land lies below 350 m; sea level is what receivers are given to.
        return new(0, 300);
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal GroundHeight Copy() => (GroundHeight)MemberwiseClone();
}
