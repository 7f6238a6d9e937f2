using System.Collections.Immutable;
using System.Globalization;

namespace Groundstation.Io.Inspection;

/// <summary>
/// Watches the dates that RMC and ZDA carry: none at all, a default sent before the first fix, and days that change
/// other than at midnight.
/// </summary>
internal sealed class DateCheck
{
    private const int RolloverDays = 1024 * 7;

    /// <summary>
    /// A receiver one rollover behind since 2019-04-07 said 1999-08-22 and on. A fix dated before 2000 is far more
    /// likely that than a log of that age.
    /// </summary>
    private static readonly DateOnly _earliest = new(2000, 1, 1);

    private readonly FirstLines _blank = new(), _default = new(), _rollover = new(), _wobble = new();

    /// <summary>Dates sent before the first fix, few by nature; each with its first line and count.</summary>
    private readonly List<(DateOnly Date, long Line, long Count)> _early = new(8);

    private DateOnly? _first, _last;
    private TimeSpan _lastTime;
    private string _defaultSample = "", _rolloverText = "", _wobbleSample = "";

    /// <summary>True once a date came with a fix.</summary>
    public bool Any => _last is not null;

    /// <summary>First date that came with a fix, yyyy-MM-dd.</summary>
    public string? FirstDay => _first is { } day ? Day(day) : null;

    /// <summary>Last date that came with a fix, yyyy-MM-dd.</summary>
    public string? LastDay => _last is { } day ? Day(day) : null;

    /// <summary>Midnights passed.</summary>
    public int Midnights { get; private set; }

    /// <summary>One sentence that has a date field.</summary>
    /// <param name="time">Its time of day.</param>
    /// <param name="date">Its date; null: blank.</param>
    /// <param name="fixedNow">The receiver says that it has a fix.</param>
    /// <param name="line">Its line.</param>
    public void Add(TimeSpan? time, DateOnly? date, bool fixedNow, long line)
    {
        if (date is not { } day)
        {
            if (fixedNow)
                _blank.Add(line);
            return;
        }

        if (fixedNow && day < _earliest)
            Rolled($"says {Day(day)}: one GPS week rollover (1024 weeks) back?", line);

        if (!fixedNow)
            Unfixed(day, line);
        else if (_last is not { } last)
            First(day);
        else if (day != last)
            Changed(last, day, time ?? _lastTime, line);
        if (fixedNow)
            (_last, _lastTime) = (day, time ?? _lastTime);
    }

    /// <summary>What is wrong, in the order in which an operator would care.</summary>
    public IEnumerable<DateProblem> Problems()
    {
        if (!Any)
            yield return new("no_date", _blank.Count, null, _early.Count > 0
                ? $"no date with a fix (without one it said {Day(_early[0].Date)})"
                : "no date: the day must come from the arrival time");
        else if (_blank.Count > 0)
            yield return new("no_date", _blank.Count, _blank.Lines[0],
                $"date blank or impossible {Times(_blank.Count)} with a fix");
        if (_default.Count > 0)
            yield return new("default_date", _default.Count, _default.Lines[0],
                $"{_defaultSample} sent {Times(_default.Count)} without a fix");
        if (_rollover.Count > 0)
            yield return new("rollover", _rollover.Count, _rollover.Lines[0], _rolloverText);
        if (_wobble.Count > 0)
            yield return new("wobble", _wobble.Count, _wobble.Lines[0],
                $"day changed {Times(_wobble.Count)} away from midnight ({_wobbleSample})");
    }

    private void Unfixed(DateOnly day, long line)
    {
        if (_last is { } last)
        {
            if (Math.Abs(day.DayNumber - last.DayNumber) > 1)
                AddDefault(day, line);
            return;
        }

        int at = _early.FindIndex(e => e.Date == day);
        if (at >= 0)
            _early[at] = _early[at] with { Count = _early[at].Count + 1 };
        else if (_early.Count < 8)
            _early.Add((day, line, 1));
    }

    private void First(DateOnly day)
    {
        _first = day;
        foreach ((DateOnly date, long line, long count) in _early)
            for (long i = 0; i < count && Math.Abs(date.DayNumber - day.DayNumber) > 1; i++)
                AddDefault(date, line);
    }

    private void AddDefault(DateOnly day, long line)
    {
        if (_default.Count == 0)
            _defaultSample = Day(day);
        _default.Add(line);
    }

    private void Changed(DateOnly last, DateOnly day, TimeSpan time, long line)
    {
        // Around midnight a receiver may change the date a few seconds before or after the time wraps.
        TimeSpan tolerance = TimeSpan.FromMinutes(1);
        bool atMidnight = time < tolerance || time > TimeSpan.FromDays(1) - tolerance || time < _lastTime;
        int days = day.DayNumber - last.DayNumber;
        if (Math.Abs(Math.Abs(days) - RolloverDays) <= 1)
            Rolled($"day went from {Day(last)} to {Day(day)}: GPS week rollover (1024 weeks)", line);
        else if (days == 1 && atMidnight)
            Midnights++;
        else if (days == -1 && atMidnight && Midnights > 0)
            Midnights--;
        else
        {
            if (_wobble.Count == 0)
                _wobbleSample = $"{Day(last)} to {Day(day)}";
            _wobble.Add(line);
        }
    }

    private void Rolled(string text, long line)
    {
        if (_rollover.Count == 0)
            _rolloverText = text;
        _rollover.Add(line);
    }

    private static string Times(long count) => count == 1 ? "once" : $"{count} times";

    private static string Day(DateOnly date) => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
