using System.Collections.Immutable;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;

namespace Groundstation.Core.Fixes;

/// <summary>
/// One source from bytes to judged fixes, with its telemetry and health. Fixes are handed out in the order in which
/// their epochs end, from within <see cref="Push"/>, <see cref="Tick"/> or <see cref="Flush"/>.
/// </summary>
public sealed class SourceFixes : ISentenceSink
{
    private SentenceStream _stream;
    private EpochJoiner _joiner;
    private FixJudge _judge;
    private ReceiverMonitor _monitor;
    private TelemetryKeeper _telemetry = new();
    private AltitudeLimitWatch _limit;
    private LineRing _lines = new();
    private Action<Fix> _completed;
    private Instant _now;

    /// <summary>A source from which nothing has been heard.</summary>
    /// <param name="source">Its name.</param>
    /// <param name="plan">The plan in force.</param>
    /// <param name="completed">Takes each judged epoch, believed or not.</param>
    public SourceFixes(SourceId source, FlightPlan plan, Action<Fix> completed)
    {
        Source = source;
        _completed = completed;
        _stream = new(source, plan.Belief.AllowNoChecksum);
        _joiner = new(source, Joined);
        _judge = new(plan);
        _monitor = new(source);
        _limit = new(plan);
    }

    /// <summary>The source's name.</summary>
    public SourceId Source { get; }

    /// <summary>The payload's measurements as this source told them.</summary>
    public Telemetry Telemetry => _telemetry.Now;

    /// <summary>Newest epoch, believed or not.</summary>
    public Fix? Newest { get; private set; }

    /// <summary>Newest believed fix.</summary>
    public Fix? NewestBelieved { get; private set; }

    /// <summary>
    /// Newest epoch with a measured position, believed or not, a fix without altitude included: the last known place.
    /// </summary>
    public Fix? NewestPlace { get; private set; }

    /// <summary>The receiver's altitude limit that seems to be met just now; null without a sign of it.</summary>
    public AltitudeLimit? AltitudeLimitSuspected => _limit.Suspected;

    /// <summary>
    /// Arrival time of the newest sentence that says the receiver has no fix; null when a fix was believed after it.
    /// </summary>
    public Instant? NoFixHeard => _limit.NewestWithout;

    /// <summary>Takes bytes as they come, cut anywhere.</summary>
    public void Push(Instant at, ReadOnlySpan<byte> bytes)
    {
        _now = at;
        _monitor.Bytes(at, bytes);
        SourceFixes sink = this;
        _stream.Push(at, bytes, ref sink);
    }

    /// <summary>Time has come to <paramref name="at"/>: an epoch that has fallen quiet is completed.</summary>
    public void Tick(Instant at)
    {
        _now = at;
        _joiner.Tick(at);
    }

    /// <summary>Nothing more comes for now (link lost, end): pending bytes and the open epoch are completed.</summary>
    public void Flush(Instant at)
    {
        _now = at;
        SourceFixes sink = this;
        _stream.Flush(at, ref sink);
        _joiner.Flush();
    }

    /// <summary>How the source is heard.</summary>
    public ReceiverHealth Health(Instant now) => _monitor.Health(now);

    /// <summary>The newest lines with their verdict, newest last, made printable.</summary>
    /// <param name="most">At most this many (64 are kept).</param>
    public ImmutableArray<(SourceId Source, string Text, string Verdict)> RecentLines(int most) =>
        [.. _lines.Newest(most).Select(line => (Source, line.Text, line.Reason?.ToString() ?? "accepted"))];

    void ISentenceSink.Rejected(in Rejection rejection)
    {
        _monitor.Rejected(rejection);
        _lines.Take(rejection.Bytes, rejection.Reason);
    }

    void ISentenceSink.Other(in Sentence sentence) => Accept(sentence);

    void ISentenceSink.Gga(in Sentence sentence, in Gga message)
    {
        Accept(sentence);
        if (message.Quality == FixQuality.Invalid)
            _limit.Without(sentence.Heard);
        _joiner.Gga(sentence, message);
    }

    void ISentenceSink.Rmc(in Sentence sentence, in Rmc message)
    {
        Accept(sentence);
        if (message.Status != 'A' || message.Mode == 'N')
            _limit.Without(sentence.Heard);
        _joiner.Rmc(sentence, message);
    }

    void ISentenceSink.Gll(in Sentence sentence, in Gll message)
    {
        Accept(sentence);
        _joiner.Gll(sentence, message);
    }

    void ISentenceSink.Gns(in Sentence sentence, in Gns message)
    {
        Accept(sentence);
        if (!message.AnyMode)
            _limit.Without(sentence.Heard);
        _joiner.Gns(sentence, message);
    }

    void ISentenceSink.Gsa(in Sentence sentence, in Gsa message)
    {
        Accept(sentence);
        _joiner.Gsa(sentence, message);
    }

    void ISentenceSink.Gsv(in Sentence sentence, in Gsv message)
    {
        Accept(sentence);
        _monitor.InView(sentence, message);
    }

    void ISentenceSink.Vtg(in Sentence sentence, in Vtg message)
    {
        Accept(sentence);
        _joiner.Vtg(sentence, message);
    }

    void ISentenceSink.Zda(in Sentence sentence, in Zda message)
    {
        Accept(sentence);
        _joiner.Zda(sentence, message);
    }

    void ISentenceSink.Gst(in Sentence sentence, in Gst message)
    {
        Accept(sentence);
        _joiner.Gst(sentence, message);
    }

    void ISentenceSink.Xdr(in Sentence sentence, in XdrMeasurement measurement)
    {
        // One call a measurement, but one sentence.
        if (measurement.Index == 0)
            Accept(sentence);
        _telemetry.Take(sentence.Heard, measurement);
    }

    private void Accept(in Sentence sentence)
    {
        _monitor.Accepted(sentence.Heard);
        _lines.Take(sentence.Text, null);
    }

    private void Joined(Fix epoch, TimeSpan earlierOff)
    {
        if (earlierOff != TimeSpan.Zero)
            _judge.Shift(earlierOff);
        Fix fix = _judge.Judge(epoch, _telemetry.Now);
        // Many a receiver for cars sends RMC alone, and a car's height is of no use.
        if (Source == SourceId.Chase && fix.Refused == RefusalReasons.NoAltitude)
            fix = fix with { Refused = RefusalReasons.None, Detail = "" };
        _monitor.Judged(fix, _now);
        Newest = fix;
        if (fix.Position is not null && (fix.Refused & ~(RefusalReasons.NoAltitude | RefusalReasons.FewSatellites
            | RefusalReasons.PoorHdop | RefusalReasons.AgainstPressure)) == 0)
            NewestPlace = fix;
        if (fix.Believed)
        {
            NewestBelieved = fix;
            if (fix.Height is not null)
                _limit.Believed(fix);
        }
        else if (fix.Refused.HasFlag(RefusalReasons.FrozenAltitude))
            _limit.Without(fix.Heard);
        _completed(fix);
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    /// <param name="completed">Takes its judged epochs; told from which source they come.</param>
    internal SourceFixes Copy(Action<SourceFixes, Fix> completed)
    {
        var copy = (SourceFixes)MemberwiseClone();
        copy._completed = fix => completed(copy, fix);
        copy._stream = _stream.Copy();
        copy._joiner = _joiner.Copy(copy.Joined);
        copy._judge = _judge.Copy();
        copy._monitor = _monitor.Copy();
        copy._telemetry = _telemetry.Copy();
        copy._limit = _limit.Copy();
        copy._lines = _lines.Copy();
        return copy;
    }
}
