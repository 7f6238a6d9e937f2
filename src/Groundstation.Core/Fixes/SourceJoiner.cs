using System.Collections.Immutable;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Core.Fixes;

/// <summary>
/// Makes one fix of an epoch that several receivers of the flight have heard: the better one, which names the others.
/// <para>
/// Believed goes before refused, then more satellites, then the lower HDOP, then the one heard first. An epoch waits
/// for a receiver that is keeping up, as long as that one usually needs and a second at most; with one receiver, or
/// when the others are silent or slower than that, nothing waits. Epochs are given in the order of their UTC. One that
/// comes after its epoch was given is only new when it is believed and the given one was not; one that nobody else has
/// heard and that comes when another receiver is past it is given as late: for the record, but no longer for the
/// flight.
/// </para>
/// <para>
/// All are put on the day of the receiver that tells a date, nearest to the arrival's where several tell different
/// ones: one that tells none is dated by the laptop, whose date may be wrong, and would else be a year ahead of the
/// others.
/// </para>
/// </summary>
/// <param name="given">Takes each epoch, and whether it is late.</param>
internal sealed class SourceJoiner(Action<Fix, bool> given)
{
    private const double LongestWaitS = 1;

    // Of a receiver that usually follows by so much, waited for is twice that and a moment.
    private const double LeastWaitS = 0.1;

    // A receiver that has left out two epochs is not waited for.
    private const double StepsMissed = 2.5;
    private const int Remembered = 600;

    // Its own judge says of these that they are no epoch of their own.
    private const RefusalReasons OutOfRow = RefusalReasons.Duplicate | RefusalReasons.FrozenUtc
        | RefusalReasons.WithinSecond | RefusalReasons.TimeBackwards | RefusalReasons.TimeJump;

    private readonly List<Peer> _peers = [];
    private readonly List<Fix> _held = [];
    private readonly Queue<(Instant Utc, Instant Heard, bool Believed)> _done = new();
    private Instant? _newestGiven;

    // The receiver whose date all go by, and its UTC less the arrival time.
    private SourceId? _dating;
    private TimeSpan _ahead;

    private sealed class Peer(SourceId source)
    {
        public SourceId Source => source;
        public Instant? Newest;
        public double StepS = 1;

        /// <summary>How long after the first receiver this one gives an epoch, s of arrival time.</summary>
        public double LagS { get; private set; }

        /// <summary>
        /// Grows at once; shrinks within some epochs, so that one early epoch is not taken for the rule.
        /// </summary>
        public void Lagged(double s) => LagS = Math.Max(s, 0.8 * LagS);

        public Peer Copy() => (Peer)MemberwiseClone();
    }

    /// <summary>Takes one judged epoch of one source.</summary>
    public void Take(Fix fix, Instant now)
    {
        fix = OnItsDay(fix);
        if ((fix.Refused & OutOfRow) != 0)
        {
            given(fix, false);
            return;
        }

        Peer peer = Known(fix.Source);
        if (peer.Newest is { } before && fix.Utc.SecondsSince(before) is > 0 and var step)
            peer.StepS = Math.Min(step, 60);
        peer.Newest = fix.Utc;
        int at = _held.FindIndex(f => f.Utc == fix.Utc);
        if (at >= 0)
        {
            peer.Lagged(now.SecondsSince(Heard(_held[at])));
            _held[at] = Better(_held[at], fix);
        }
        else if (Done(fix.Utc) is { } done)
        {
            peer.Lagged(now.SecondsSince(done.Heard));
            if (fix.Believed && !done.Believed) Give(fix);
        }
        else if (Past(fix))
        {
            Give(fix);
        }
        else
        {
            int later = _held.FindIndex(f => f.Utc > fix.Utc);
            peer.Lagged(0);
            _held.Insert(later < 0 ? _held.Count : later, fix);
        }

        Release(now);
    }

    private Fix OnItsDay(Fix fix)
    {
        TimeSpan day = TimeSpan.FromDays(1), ahead = fix.Utc - fix.Heard;
        bool dated = fix.DateFrom != DateOrigin.NearestToArrival && (fix.Refused & OutOfRow) == 0;
        // With nobody to go by its own day stays: half a day off the arrival's, it would be put from one day to the other.
        if (!dated && _dating is null) return fix;
        if (!dated || !(_dating is null || _dating == fix.Source || ahead.Duration() + day / 2 < _ahead.Duration()))
            return fix with { Utc = fix.Utc + day * Math.Round((_ahead - ahead) / day) };
        // What was given before lies in another time: nothing that comes now is late for that.
        if ((ahead - _ahead).Duration() > day / 2)
        {
            (_newestGiven, Fix[] held) = (null, [.. _held]);
            _held.Clear();
            _peers.Clear();
            _done.Clear();
            foreach (Fix old in held) given(old, true);
        }

        (_dating, _ahead) = (fix.Source, ahead);
        return fix;
    }

    /// <summary>Nothing more comes from a source for now: nobody waits for it.</summary>
    public void Gone(SourceId source, Instant now)
    {
        _peers.RemoveAll(p => p.Source == source);
        Release(now);
    }

    /// <summary>Time has come to <paramref name="now"/>: gives what has waited long enough.</summary>
    public void Release(Instant now)
    {
        while (_held.Count > 0 && !_peers.Exists(p => Awaited(p, _held[0], now)))
        {
            Fix first = _held[0];
            _held.RemoveAt(0);
            Give(first);
        }
    }

    private static bool Awaited(Peer peer, Fix fix, Instant now) =>
        peer.Newest is { } newest && newest < fix.Utc
        && fix.Utc.SecondsSince(newest) < StepsMissed * peer.StepS
        && peer.LagS < LongestWaitS
        && now.SecondsSince(Heard(fix)) < Math.Min(LongestWaitS, LeastWaitS + 2 * peer.LagS);

    private static Fix Better(Fix held, Fix other)
    {
        bool better = other.Believed != held.Believed ? other.Believed
            : other.SatellitesUsed != held.SatellitesUsed ? (other.SatellitesUsed ?? 0) > (held.SatellitesUsed ?? 0)
            : other.Hdop is { } hdop && !(held.Hdop <= hdop);
        return better ? other with { Also = held.Also.Insert(0, held with { Also = [] }) }
            : held with { Also = held.Also.Add(other) };
    }

    // When the epoch was first heard, from whichever source.
    private static Instant Heard(Fix fix)
    {
        Instant first = fix.Heard;
        foreach (Fix also in fix.Also)
            if (also.Heard < first) first = also.Heard;
        return first;
    }

    private (Instant Heard, bool Believed)? Done(Instant utc)
    {
        foreach ((Instant at, Instant heard, bool believed) in _done)
            if (at == utc) return (heard, believed);
        return null;
    }

    // A receiver that sets its own clock back is not late: then nobody is past it.
    private bool Past(Fix fix) => _newestGiven > fix.Utc
        && _peers.Exists(p => p.Source != fix.Source && p.Newest > fix.Utc);

    private void Give(Fix fix)
    {
        bool late = Past(fix);
        if (_done.Count == Remembered) _done.Dequeue();
        _done.Enqueue((fix.Utc, Heard(fix), fix.Believed));
        if (!late) _newestGiven = fix.Utc;
        given(fix, late);
    }

    private Peer Known(SourceId source)
    {
        if (_peers.Find(p => p.Source == source) is { } known) return known;
        _peers.Add(new Peer(source));
        return _peers[^1];
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    /// <param name="given">Takes each epoch of the copy.</param>
    public SourceJoiner Copy(Action<Fix, bool> given)
    {
        var copy = new SourceJoiner(given) { _newestGiven = _newestGiven, _dating = _dating, _ahead = _ahead };
        copy._peers.AddRange(_peers.Select(static p => p.Copy()));
        copy._held.AddRange(_held);
        foreach (var done in _done) copy._done.Enqueue(done);
        return copy;
    }
}
