namespace Groundstation.Core.Air;

/// <summary>Horizontal wind as the velocity of the air (where it goes to, not where it comes from), m/s.</summary>
/// <param name="EastMps">Eastward component, m/s.</param>
/// <param name="NorthMps">Northward component, m/s.</param>
public readonly record struct WindVector(double EastMps, double NorthMps)
{
    /// <summary>Speed, m/s, ≥ 0.</summary>
    public double SpeedMps => Math.Sqrt(EastMps * EastMps + NorthMps * NorthMps);

    /// <summary>Direction the wind comes from, degrees clockwise from true north, 0 ≤ d &lt; 360 (meteorological use).</summary>
    public double FromDeg => (Math.Atan2(-EastMps, -NorthMps) * 180 / Math.PI + 360) % 360;

    /// <summary>From the meteorological form: direction it comes from (degrees true) and speed (m/s).</summary>
    public static WindVector FromDirection(double fromDeg, double speedMps)
    {
        (double sin, double cos) = Math.SinCos(fromDeg * Math.PI / 180);
        return new(-speedMps * sin, -speedMps * cos);
    }
}
