using Groundstation.Core.Quantities;

namespace Groundstation.Io.Recordings;

/// <summary>
/// Gives the lines of a log without TAG blocks their arrival times: the UTC of the newest sentence that carries one.
/// It goes by differences of the time of day, so that a date that wobbles at a cold start cannot throw it by years, and
/// believes a step of more than <see cref="StepS"/> only when the next sentences go on from there. It never goes back:
/// where a log's time does, arrival stands still for one line and then goes on at the log's own pace.
/// </summary>
internal sealed class SentenceClock
{
    /// <summary>Seconds a time may go on from one timed sentence to the next without being looked at twice.</summary>
    public const double StepS = 10;

    /// <summary>Longest gap kept, hours. A recording of one flight has none longer; a wobbling date has.</summary>
    public const double MaxGapH = 48;

    /// <summary>Lines a second in a log that carries no time at all.</summary>
    public const int LinesPerSecond = 10;

    /// <summary>Where a log without any date begins. An invented day: nothing better is known.</summary>
    public static readonly Instant Undated = Instant.FromUtc(new DateOnly(2000, 1, 1), TimeSpan.Zero);

    private static readonly TimeSpan _day = TimeSpan.FromDays(1);
    private static readonly TimeSpan _step = TimeSpan.FromSeconds(StepS);

    private readonly bool _unverified;
    private readonly bool _timed;
    private TimeSpan _timeOfDay;
    private DateOnly? _date;

    private SentenceClock(Instant start, bool timed, bool unverified)
    {
        Now = start;
        _timed = timed;
        _unverified = unverified;
        _timeOfDay = start.TimeOfDay;
        _date = timed ? start.Date : null;
    }

    /// <summary>Arrival time of the line last given to <see cref="Step"/>.</summary>
    public Instant Now { get; private set; }

    /// <summary>How the times were come by, in words.</summary>
    public string Basis { get; private init; } = "";

    /// <summary>False when nothing in the log tells the time.</summary>
    public bool Timed => _timed;

    /// <summary>Looks through the beginning of a log for its first time and date.</summary>
    /// <param name="lines">A scanner at the log's start, of its own.</param>
    /// <param name="limit">How many bytes to look through at most.</param>
    public static SentenceClock For(LineScanner lines, long limit = 4 << 20)
    {
        SentenceTime? first = null, firstUnverified = null;
        Instant? sure = null, unsure = null, unverified = null;
        int midnights = 0, midnightsUnverified = 0;
        TimeSpan last = default, lastUnverified = default;
        while (sure is null && lines.Position < limit && lines.TryNext(out ReadOnlySpan<byte> line, out _))
        {
            if (SentenceTime.TryRead(line, false, out SentenceTime time))
            {
                first ??= time;
                midnights += time.TimeOfDay < last - _day / 2 ? 1 : 0;
                last = time.TimeOfDay;
                if (time.Date is { } date && time.DateSure)
                    sure = StartOf(date, midnights, first.Value.TimeOfDay);
                else if (time.Date is { } maybe)
                    unsure ??= StartOf(maybe, midnights, first.Value.TimeOfDay);
            }
            else if (first is null && SentenceTime.TryRead(line, true, out time))
            {
                firstUnverified ??= time;
                midnightsUnverified += time.TimeOfDay < lastUnverified - _day / 2 ? 1 : 0;
                lastUnverified = time.TimeOfDay;
                if (time.Date is { } date)
                    unverified ??= StartOf(date, midnightsUnverified, firstUnverified.Value.TimeOfDay);
            }
        }

        if (first is { } good)
        {
            Instant start = sure ?? unsure ?? Undated + good.TimeOfDay;
            return new SentenceClock(start, true, false)
            {
                Basis = sure is not null ? "times from its sentences"
                    : unsure is not null ? "times from its sentences, date not confirmed by the receiver"
                    : "times of day from its sentences, date not known (taken as 2000-01-01)",
            };
        }

        if (firstUnverified is { } poor)
        {
            return new SentenceClock(unverified ?? Undated + poor.TimeOfDay, true, true)
            {
                Basis = "times from its sentences, although no checksum is right",
            };
        }

        return new SentenceClock(Undated, false, false)
        {
            Basis = $"no times in it: {LinesPerSecond} lines a second from 2000-01-01",
        };
    }

    /// <summary>Moves on to a line.</summary>
    /// <param name="line">The line.</param>
    /// <param name="ahead">The lines after it.</param>
    public void Step(ReadOnlySpan<byte> line, LineScanner.Following ahead)
    {
        if (!_timed)
        {
            Now += TimeSpan.FromSeconds(1) / LinesPerSecond;
            return;
        }

        if (!SentenceTime.TryRead(line, _unverified, out SentenceTime time))
            return;
        TimeSpan delta = Difference(time.TimeOfDay, _timeOfDay);
        if (delta.Duration() <= _step)
        {
            Accept(time, delta);
            return;
        }

        if (!Confirmed(time, delta, ahead, out DateOnly? date))
            return;
        // The date says how many midnights lie in a long gap; a date that jumps farther than a gap can be is a
        // receiver that has changed its mind.
        if (date is { } then && _date is { } now && then.DayNumber - now.DayNumber is var days && days >= 0)
        {
            TimeSpan gap = time.TimeOfDay - _timeOfDay + days * _day;
            if (gap > TimeSpan.Zero && gap.TotalHours <= MaxGapH)
                delta = gap;
        }

        Accept(time with { Date = date }, delta);
    }

    private void Accept(in SentenceTime time, TimeSpan delta)
    {
        if (_date is { } day && time.TimeOfDay < _timeOfDay && delta > TimeSpan.Zero)
            _date = day.AddDays(1);
        _date = time.DateSure && time.Date is { } sure ? sure : _date;
        _timeOfDay = time.TimeOfDay;
        if (delta > TimeSpan.Zero)
            Now += delta;
    }

    /// <summary>
    /// True when the next sentence with another time goes on from this one: by a few seconds, or after a step forward
    /// by no more than twice that step, as a logger with one fix a minute does.
    /// </summary>
    private bool Confirmed(in SentenceTime time, TimeSpan delta, LineScanner.Following ahead, out DateOnly? date)
    {
        date = time.DateSure ? time.Date : null;
        TimeSpan most = delta > TimeSpan.Zero && delta * 2 > _step ? delta * 2 : _step;
        bool goesOn = false;
        TimeSpan last = time.TimeOfDay;
        while ((!goesOn || date is null) && ahead.TryNext(out ReadOnlySpan<byte> line))
        {
            if (!SentenceTime.TryRead(line, _unverified, out SentenceTime next))
                continue;
            TimeSpan on = Difference(next.TimeOfDay, last);
            if (on < TimeSpan.Zero || on > most)
                break;
            goesOn |= on > TimeSpan.Zero;
            last = next.TimeOfDay;
            date ??= next.DateSure ? next.Date : null;
        }

        return goesOn;
    }

    private static Instant StartOf(DateOnly date, int midnights, TimeSpan first) =>
        Instant.FromUtc(date.AddDays(-midnights), first);

    /// <summary>The shorter way round the day, −12 h &lt; d ≤ 12 h.</summary>
    private static TimeSpan Difference(TimeSpan a, TimeSpan b)
    {
        TimeSpan d = a - b;
        return d > _day / 2 ? d - _day : d <= -_day / 2 ? d + _day : d;
    }
}
