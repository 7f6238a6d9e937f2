using Groundstation.Core.Quantities;

namespace Groundstation.Io.Desk;

/// <summary>A moment of the flight that can be gone to: an alarm was raised.</summary>
/// <param name="At">Arrival time at which the station told of it.</param>
/// <param name="Alarm">The alarm's id.</param>
public readonly record struct DeskMark(Instant At, string Alarm);
