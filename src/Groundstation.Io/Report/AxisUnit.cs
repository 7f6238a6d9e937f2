namespace Groundstation.Io.Report;

/// <summary>The unit of an axis.</summary>
/// <param name="Name">As it stands behind the axis's title.</param>
/// <param name="Size">One of it in SI.</param>
/// <param name="Zero">What reads 0 on the axis, in SI.</param>
internal readonly record struct AxisUnit(string Name, double Size, double Zero = 0)
{
    /// <summary>Where an SI value lies on the axis.</summary>
    public double Of(double si) => (si - Zero) / Size;
}
