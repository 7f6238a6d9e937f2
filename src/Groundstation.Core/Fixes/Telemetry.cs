using Groundstation.Core.Quantities;

namespace Groundstation.Core.Fixes;

/// <summary>
/// The payload's own measurements (XDR), newest value of each with its arrival time. Null until heard.
/// </summary>
/// <param name="PressurePa">Air pressure, Pa.</param>
/// <param name="OutsideC">Air temperature, °C.</param>
/// <param name="InsideC">Temperature in the box, °C.</param>
/// <param name="BatteryV">Battery, V.</param>
/// <param name="HumidityPercent">Relative humidity, %.</param>
/// <param name="Heard">Arrival time of the newest of them.</param>
public sealed record Telemetry(double? PressurePa, double? OutsideC, double? InsideC, double? BatteryV,
    double? HumidityPercent, Instant? Heard)
{
    /// <summary>Arrival time of <see cref="PressurePa"/>: an old pressure says nothing about a new altitude.</summary>
    public Instant? PressureHeard { get; init; }

    /// <summary>Nothing heard yet.</summary>
    public static readonly Telemetry None = new(null, null, null, null, null, null);
}
