using Groundstation.Core.Fixes;
using Groundstation.Core.Quantities;

namespace Groundstation.Core;

/// <summary>
/// The station's idea of time, from event stamps only: arrival time, the whole seconds in it, and UTC as the newest
/// believed fix said plus the arrival time since.
/// </summary>
internal sealed class StationClock
{
    private Instant? _started;
    private Instant? _utcBase;
    private Instant _arrivalBase;
    private double? _interval;
    private Instant? _lastUtc;

    /// <summary>Arrival stamp of the first event.</summary>
    public Instant Started => _started ?? Arrival;

    /// <summary>Arrival stamp of the newest event or tick.</summary>
    public Instant Arrival { get; private set; }

    /// <summary>UTC now: the receiver's, carried on by arrival time; the arrival stamp before the first fix.</summary>
    public Instant Utc => _utcBase is { } utc ? utc + (Arrival - _arrivalBase) : Arrival;

    /// <summary>Arrival stamp of the newest believed fix.</summary>
    public Instant? Believed { get; private set; }

    /// <summary>Arrival stamp of the newest epoch that was a new one: a receiver whose time stands says old ones.</summary>
    public Instant? Epoch { get; private set; }

    /// <summary>Usual time between two epochs, s: the middle of what was seen, slowly following; 1 until known.</summary>
    public double EpochIntervalS => _interval ?? 1;

    /// <summary>Age of the newest believed fix, s of arrival time; null before the first.</summary>
    public double? HeardAgeS => Believed is { } b ? Math.Max(0, Arrival.SecondsSince(b)) : null;

    /// <summary>
    /// True when nothing believed has been heard for 15 s, or for two and a half epochs where these are slower: from then
    /// on the phase is the model's.
    /// </summary>
    public bool Silent => HeardAgeS is { } age && age >= Math.Max(15, 2.5 * EpochIntervalS);

    /// <summary>
    /// The whole seconds of arrival time after the newest event, up to <paramref name="at"/>; moves the clock to each, and
    /// at the end to <paramref name="at"/>. After <paramref name="longest"/> of them the rest is skipped.
    /// </summary>
    public IEnumerable<Instant> SecondsUpTo(Instant at, TimeSpan longest)
    {
        if (_started is null)
        {
            _started = Arrival = at;
            yield break;
        }
        if (at <= Arrival) yield break;
        Instant last = at - Arrival > longest ? Arrival + longest : at;
        long second = Arrival.Ticks - Fraction(Arrival.Ticks) + TimeSpan.TicksPerSecond;
        for (; second <= last.Ticks; second += TimeSpan.TicksPerSecond)
        {
            Arrival = new(second);
            yield return Arrival;
        }
        Arrival = at;
    }

    /// <summary>An epoch came. A believed one sets UTC.</summary>
    public void Heard(Fix fix)
    {
        if (Epoch is not null && _lastUtc is { } before && fix.Utc.SecondsSince(before) is > 0 and < 600 and var gap)
            _interval = _interval is { } usual ? usual + Math.Clamp(gap - usual, -0.1 * usual, 0.1 * usual) : gap;
        _lastUtc = fix.Utc;
        if ((fix.Refused & (RefusalReasons.Duplicate | RefusalReasons.FrozenUtc)) == 0) Epoch = fix.Heard;
        if (!fix.Believed) return;
        Believed = fix.Heard;
        (_utcBase, _arrivalBase) = (fix.Utc, fix.Heard);
    }

    private static long Fraction(long ticks) =>
        ((ticks % TimeSpan.TicksPerSecond) + TimeSpan.TicksPerSecond) % TimeSpan.TicksPerSecond;

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public StationClock Copy() => (StationClock)MemberwiseClone();
}
