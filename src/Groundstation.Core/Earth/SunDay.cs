using Groundstation.Core.Quantities;

namespace Groundstation.Core.Earth;

/// <summary>
/// One day by the Sun at a place: from midnight over noon to midnight. A moment that does not come about is null: the
/// Sun does not set in a polar day, nor rise in a polar night; <see cref="AboveAtNoon"/> and
/// <see cref="BelowAtMidnight"/> tell which.
/// </summary>
/// <param name="Place">The place.</param>
/// <param name="Noon">When the Sun is due south, or north of it: its highest.</param>
public sealed record SunDay(GeoPoint Place, Instant Noon)
{
    private static readonly TimeSpan HalfDay = TimeSpan.FromHours(12);

    /// <summary>Sunrise.</summary>
    public Instant? Rise => Morning(Sun.RiseSetDeg);

    /// <summary>Sunset.</summary>
    public Instant? Set => Evening(Sun.RiseSetDeg);

    /// <summary>Beginning of civil twilight in the morning.</summary>
    public Instant? CivilDawn => Morning(Sun.CivilDeg);

    /// <summary>End of civil twilight in the evening.</summary>
    public Instant? CivilDusk => Evening(Sun.CivilDeg);

    /// <summary>True when the Sun is up at noon; false in a polar night.</summary>
    public bool AboveAtNoon => Altitude(Noon) > Sun.RiseSetDeg;

    /// <summary>True when it is down at the midnight after; false in a polar day.</summary>
    public bool BelowAtMidnight => Altitude(Noon + HalfDay) < Sun.RiseSetDeg;

    private Instant? Morning(double altitudeDeg) => Crossing(Noon - HalfDay, Noon, altitudeDeg);

    private Instant? Evening(double altitudeDeg) => Crossing(Noon, Noon + HalfDay, altitudeDeg);

    private double Altitude(Instant utc) => Sun.Position(Place, utc).AltitudeDeg;

    /// <summary>Between lowest and highest the Sun only climbs, or only sinks: halving finds the moment.</summary>
    private Instant? Crossing(Instant from, Instant to, double altitudeDeg)
    {
        bool above = Altitude(from) > altitudeDeg;
        if (Altitude(to) > altitudeDeg == above) return null;
        while ((to - from).Ticks > TimeSpan.TicksPerMillisecond * 100)
        {
            Instant middle = new((from.Ticks + to.Ticks) / 2);
            if (Altitude(middle) > altitudeDeg == above) from = middle;
            else to = middle;
        }
        return new((from.Ticks + to.Ticks) / 2);
    }
}
