using System.Collections.Immutable;
using System.Numerics;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Quantities;
using Groundstation.Io.Folders;

namespace Groundstation.Io.Inspection;

/// <summary>Counts epochs, their belief, range, gaps and dates. Its memory does not grow with the recording.</summary>
internal sealed class FixTally
{
    private readonly FirstLines[] _refused = [.. Enumerable.Range(0, 31).Select(_ => new FirstLines())];
    private readonly FirstLines _rolledOver = new();
    private readonly EpochIntervals _intervals = new();
    private Instant? _previous;
    private (double Min, double Max)? _believedM, _anyM;
    private double? _limitM;
    private GeoPoint? _first;
    private GeoPoint _last;
    private double _farthestKm;

    public long Epochs { get; private set; }

    public long Believed { get; private set; }

    /// <summary>Epochs with a height, believed or not.</summary>
    public long WithHeight { get; private set; }

    /// <summary>Epochs from the first believed one on: before that, a receiver may well be searching.</summary>
    public long SinceFirstBelieved { get; private set; }

    public double? EpochsPerSecond => _intervals.MedianS() is { } s and > 0 ? Math.Round(1 / s, 4) : null;

    /// <summary>Arrival time of the newest epoch.</summary>
    public Instant? Newest => _previous;

    public GapReport Gaps() => _intervals.Gaps();

    /// <summary>One epoch, begun at a line.</summary>
    public void Add(Fix fix, long line)
    {
        Epochs++;
        if (_previous is { } previous)
            _intervals.Add(previous, Math.Max(0, fix.Heard.SecondsSince(previous)), line);
        _previous = fix.Heard;
        for (uint reasons = (uint)fix.Refused; reasons != 0; reasons &= reasons - 1)
            _refused[BitOperations.TrailingZeroCount(reasons)].Add(line);
        Height(fix);
        if (fix.Believed)
            AddBelieved(fix);
        if (Believed > 0)
            SinceFirstBelieved++;
        if (fix.DateFrom == DateOrigin.ReceiverRolledOver)
            _rolledOver.Add(line);
    }

    /// <summary>The receiver's altitude limit, when it seems to be met just now.</summary>
    public void Limit(AltitudeLimit? suspected) => _limitM = suspected?.LimitM ?? _limitM;

    public ImmutableArray<ReasonCount> Refused() =>
        Reasons.List(_refused, bit => Cells.Word((RefusalReasons)(1 << bit)));

    public AltitudeRange? Altitude() => (_believedM ?? _anyM) is var (min, max)
        ? new(Math.Round(min, 1), Math.Round(max, 1), _believedM is not null, _limitM) : null;

    public PositionRange? Position() => _first is { } first
        ? new(Round(first.LatitudeDeg), Round(first.LongitudeDeg), Round(_last.LatitudeDeg), Round(_last.LongitudeDeg),
            Math.Round(_farthestKm, 3)) : null;

    /// <summary>Dates, with what the sentences' own dates showed.</summary>
    public DateReport Dates(DateCheck sentences)
    {
        List<DateProblem> problems = [.. sentences.Problems()];
        if (_rolledOver.Count > 0)
            problems.Add(new("rollover", _rolledOver.Count, _rolledOver.Lines[0],
                "dates lie one GPS week rollover (1024 weeks) back"));
        FirstLines backwards = _refused[BitOperations.TrailingZeroCount((uint)RefusalReasons.TimeBackwards)];
        if (backwards.Count > 0)
            problems.Add(new("backwards", backwards.Count, backwards.Lines[0],
                $"time went back {(backwards.Count == 1 ? "once" : $"{backwards.Count} times")}"));
        return new(sentences.FirstDay, sentences.LastDay, sentences.Midnights, [.. problems]);
    }

    private void Height(Fix fix)
    {
        if (fix.Height is not { } height)
            return;
        WithHeight++;
        _anyM = Widen(_anyM, height.Metres);
        if (fix.Believed)
            _believedM = Widen(_believedM, height.Metres);
    }

    private void AddBelieved(Fix fix)
    {
        Believed++;
        if (fix.Position is not { } position)
            return;
        _first ??= position;
        _last = position;
        _farthestKm = Math.Max(_farthestKm, Geodesic.DistanceM(_first.Value, position) / 1000);
    }

    private static (double, double) Widen((double Min, double Max)? range, double value) =>
        range is var (min, max) ? (Math.Min(min, value), Math.Max(max, value)) : (value, value);

    private static double Round(double degrees) => Math.Round(degrees, 7);
}
