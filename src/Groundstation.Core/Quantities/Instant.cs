using System.Globalization;

namespace Groundstation.Core.Quantities;

/// <summary>
/// A moment in UTC, in 100 ns steps since 1970-01-01T00:00:00Z (leap seconds are not counted, as in UNIX time).
/// Range: years 1 to 9999. It is only ever made from a receiver's own time or from an event's arrival stamp:
/// nothing in the core reads a clock.
/// </summary>
/// <param name="Ticks">100 ns steps since 1970-01-01T00:00:00Z.</param>
public readonly record struct Instant(long Ticks) : IComparable<Instant>
{
    /// <summary>From UNIX time in milliseconds, as TAG blocks carry it.</summary>
    public static Instant FromUnixMilliseconds(long milliseconds) => new(milliseconds * TimeSpan.TicksPerMillisecond);

    /// <summary>From a UTC date and the time since its midnight; 24 h and more runs into the next day.</summary>
    public static Instant FromUtc(DateOnly date, TimeSpan timeOfDay) =>
        new(date.ToDateTime(TimeOnly.MinValue).Ticks - DateTime.UnixEpoch.Ticks + timeOfDay.Ticks);

    /// <summary>UNIX time in whole milliseconds, rounded down.</summary>
    public long UnixMilliseconds => Math.DivRem(Ticks, TimeSpan.TicksPerMillisecond) is var (q, r) && r < 0 ? q - 1 : q;

    /// <summary>The UTC calendar date.</summary>
    public DateOnly Date => DateOnly.FromDateTime(ToDateTime());

    /// <summary>Time since UTC midnight, 0 ≤ t &lt; 24 h.</summary>
    public TimeSpan TimeOfDay => ToDateTime().TimeOfDay;

    /// <summary>Seconds from <paramref name="earlier"/> to this moment; negative if it is later.</summary>
    public double SecondsSince(Instant earlier) => (Ticks - earlier.Ticks) / (double)TimeSpan.TicksPerSecond;

    /// <summary>This moment moved by <paramref name="seconds"/>, rounded to 100 ns.</summary>
    public Instant PlusSeconds(double seconds) => new(Ticks + (long)Math.Round(seconds * TimeSpan.TicksPerSecond));

    /// <summary>The whole second it lies in: this moment rounded down; from 1970 on.</summary>
    public Instant ToWholeSecond() => new(Ticks / TimeSpan.TicksPerSecond * TimeSpan.TicksPerSecond);

    /// <summary>The later of two moments.</summary>
    public static Instant Later(Instant a, Instant b) => a > b ? a : b;

    /// <summary>As a framework value of kind UTC.</summary>
    public DateTime ToDateTime() => new(Ticks + DateTime.UnixEpoch.Ticks, DateTimeKind.Utc);

    /// <inheritdoc/>
    public int CompareTo(Instant other) => Ticks.CompareTo(other.Ticks);

    /// <summary>ISO 8601 with milliseconds and <c>Z</c>, e.g. <c>2026-06-21T09:00:00.250Z</c>.</summary>
    public override string ToString() =>
        ToDateTime().ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);

    /// <summary>Later by a span.</summary>
    public static Instant operator +(Instant at, TimeSpan span) => new(at.Ticks + span.Ticks);

    /// <summary>Earlier by a span.</summary>
    public static Instant operator -(Instant at, TimeSpan span) => new(at.Ticks - span.Ticks);

    /// <summary>The span between two moments.</summary>
    public static TimeSpan operator -(Instant a, Instant b) => new(a.Ticks - b.Ticks);

    /// <summary>Earlier than.</summary>
    public static bool operator <(Instant a, Instant b) => a.Ticks < b.Ticks;

    /// <summary>Later than.</summary>
    public static bool operator >(Instant a, Instant b) => a.Ticks > b.Ticks;

    /// <summary>Not later than.</summary>
    public static bool operator <=(Instant a, Instant b) => a.Ticks <= b.Ticks;

    /// <summary>Not earlier than.</summary>
    public static bool operator >=(Instant a, Instant b) => a.Ticks >= b.Ticks;
}
