using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Flight;

/// <summary>What a layer's wind rests on.</summary>
public enum WindBasis
{
    /// <summary>Drift measured on the way up.</summary>
    Ascent,

    /// <summary>Drift measured on the way down.</summary>
    Descent,

    /// <summary>Drift measured in level flight.</summary>
    Float,

    /// <summary>The forecast in the plan, not measured.</summary>
    Forecast,

    /// <summary>Inferred from neighbouring layers.</summary>
    Neighbours,
}

/// <summary>One layer of the wind column: a row of <c>winds.csv</c>.</summary>
/// <param name="Bottom">Lower edge.</param>
/// <param name="Top">Upper edge.</param>
/// <param name="Wind">Mean wind in it (velocity of the air).</param>
/// <param name="SigmaMps">One standard deviation of each component, m/s.</param>
/// <param name="Measured">When it was last measured; null if it never was.</param>
/// <param name="Basis">What it rests on.</param>
public readonly record struct WindLayer(HeightMsl Bottom, HeightMsl Top, WindVector Wind, double SigmaMps,
    Instant? Measured, WindBasis Basis);
