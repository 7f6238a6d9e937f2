using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Flight;

/// <summary>
/// A place the payload was at: the mean of the believed fixes of some seconds. Wind and descent rate are measured
/// between anchors, so that swing under the balloon or canopy (periods of 3 to 10 s) and receiver noise average out.
/// </summary>
/// <param name="Utc">Mean time.</param>
/// <param name="Position">Mean position.</param>
/// <param name="HeightM">Mean height, metres above mean sea level.</param>
/// <param name="Fixes">How many fixes, ≥ 1.</param>
/// <param name="Hdop">Largest HDOP among them; 1 where not said.</param>
public readonly record struct Anchor(Instant Utc, GeoPoint Position, double HeightM, int Fixes, double Hdop)
{
    /// <summary>
    /// Variance of the position in one component, m²: receiver noise from second to second (2.5 m at HDOP 1, of which
    /// at most three fixes average out, since receivers smooth) and what is left of the swing (1.5 m).
    /// </summary>
    public double PositionVarianceM2 => 6.25 * DilutionSquared / Math.Min(Fixes, 3) + 2.25;

    /// <summary>Variance of the height, m²: as for the position, the receiver's noise 1.6 times as large.</summary>
    public double HeightVarianceM2 => 16 * DilutionSquared / Math.Min(Fixes, 3) + 0.5;

    private double DilutionSquared => Math.Clamp(Hdop * Hdop, 0.64, 64);
}
