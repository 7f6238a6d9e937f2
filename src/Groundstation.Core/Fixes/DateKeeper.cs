using Groundstation.Core.Quantities;

namespace Groundstation.Core.Fixes;

/// <summary>
/// Puts a date to the receiver's time of day. The day is the one nearest to where UTC stands by the epochs before and
/// the arrival time since; so midnight works in whichever order sentences come. A date from the receiver moves that
/// day at once when it agrees with the arrival's date or nothing else is known, else only when as many epochs in a row
/// say the same as have told the day before, and three at least: a cold start gives wild dates for seconds, and a
/// laptop's clock may be years off. A day on which receiver and laptop agree stays: a date that jumps for some minutes
/// in flight would put all that follows into the past.
/// </summary>
internal sealed class DateKeeper
{
    private const int AgreeingDates = 3;
    private static readonly TimeSpan Rollover = TimeSpan.FromDays(1024 * 7);
    private static readonly Instant KnownClock = Instant.FromUtc(new DateOnly(1980, 1, 1), TimeSpan.Zero);

    private Instant? _utc;
    private Instant _heard;
    private DateOrigin _origin = DateOrigin.NearestToArrival;
    private TimeSpan _otherBy;
    private int _others, _agreed;
    private TimeSpan _sentOff;

    /// <summary>
    /// UTC of an epoch, where its date came from, by how much the day of all earlier epochs proved wrong (zero but
    /// when a new date has just been accepted), and by how much the date that the receiver sent last is ahead of it.
    /// </summary>
    /// <param name="timeOfDay">The receiver's time.</param>
    /// <param name="date">The date it sent with it, if it has a fix.</param>
    /// <param name="heard">Arrival time; before 1980 it stands for an unknown clock.</param>
    public (Instant Utc, DateOrigin Origin, TimeSpan EarlierOff, TimeSpan SentOff) Resolve(
        TimeSpan timeOfDay, DateOnly? date, Instant heard)
    {
        Instant near = Nearest(timeOfDay, heard);
        var off = TimeSpan.Zero;
        if (date is { } sent && IsDate(sent))
        {
            Instant raw = Instant.FromUtc(sent, timeOfDay);
            (Instant said, DateOrigin origin) = Rolled(raw, heard);
            TimeSpan by = said - near;
            if (by == TimeSpan.Zero)
                (_origin, _others, _agreed) = (origin, 0, _agreed + 1);
            else if (Accept(by, said, near, heard))
            {
                off = _utc is null ? TimeSpan.Zero : by;
                (near, _origin, _others, _agreed) = (said, origin, 0, 1);
            }

            _sentOff = raw - near;
        }

        (_utc, _heard) = (near, heard);
        return (near, _origin, off, _sentOff);
    }

    private bool Accept(TimeSpan by, Instant said, Instant near, Instant heard)
    {
        // No date yet from anywhere but an unknown clock, or the receiver's date is the host's.
        if (heard < KnownClock && _origin == DateOrigin.NearestToArrival)
            return true;
        if (heard >= KnownClock && (said - heard).Duration() < TimeSpan.FromHours(12))
            return true;
        if (_origin != DateOrigin.NearestToArrival && (near - heard).Duration() < TimeSpan.FromHours(12))
            return false;
        _others = by == _otherBy ? _others + 1 : 1;
        _otherBy = by;
        return _others >= Math.Max(AgreeingDates, _agreed);
    }

    private Instant Nearest(TimeSpan timeOfDay, Instant heard)
    {
        Instant around = _utc is { } utc ? utc + Later(heard - _heard) : heard;
        Instant day = Instant.FromUtc(around.Date, timeOfDay);
        TimeSpan off = day - around;
        TimeSpan half = TimeSpan.FromHours(12);
        return off > half ? day - TimeSpan.FromDays(1) : off < -half ? day + TimeSpan.FromDays(1) : day;
    }

    private static TimeSpan Later(TimeSpan span) => span > TimeSpan.Zero ? span : TimeSpan.Zero;

    // 1980-01-05 and -06, the GPS calendar's first day, stand for a date not set. No flight is older, and at the end of
    // the calendar, 9999-12-31, no time can go on.
    private static bool IsDate(DateOnly date) =>
        date.Year is >= 1980 and < 2200 && date is not { Year: 1980 or 2080, Month: 1, Day: 5 or 6 };

    // The 10-bit week number starts again every 1024 weeks: a date that far behind the arrival is moved on by as many
    // whole rollovers as leave it not ahead of the arrival (20 weeks of a wrong host clock allowed).
    private static (Instant Said, DateOrigin Origin) Rolled(Instant said, Instant heard)
    {
        double rollovers = Math.Floor((heard - said) / Rollover + 0.02);
        return heard < KnownClock || rollovers < 1
            ? (said, DateOrigin.Receiver)
            : (said + Rollover * rollovers, DateOrigin.ReceiverRolledOver);
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public DateKeeper Copy() => (DateKeeper)MemberwiseClone();
}
