using Groundstation.Core.Fixes;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Groundstation.Io.Folders;

namespace Groundstation.Io.Inspection;

/// <summary>
/// One source's bytes on the station's own way (sentences, then fixes), counted as they pass. What inspect says of a
/// recording is thus what the station would make of it in flight.
/// </summary>
internal sealed class SourceInspection : ISentenceSink
{
    /// <summary>A line fault is read off the last minute of bytes, so looking twice a minute misses none.</summary>
    private const double HealthEveryS = 30;

    private readonly SourceFixes _fixes;
    // A second stream beside the one in SourceFixes: decoding twice costs less than a seam in the station's own path.
    private readonly SentenceStream _stream;
    private readonly SentenceTally _sentences = new();
    private readonly FixTally _epochs = new();
    private readonly DateCheck _dates = new();
    private readonly FirstLines[] _rejected = [.. Enum.GetValues<RejectReason>().Select(_ => new FirstLines())];
    private readonly EpochLines _lines = new();
    private Instant? _first;
    private Instant _last, _healthAt;
    private long _line, _rejectedCount;
    private bool? _fixedNow;
    private string _lineFault = "";

    public SourceInspection(SourceId source, FlightPlan plan)
    {
        _fixes = new(source, plan, fix => _epochs.Add(fix, _lines.Take(fix.Utc.TimeOfDay, _line)));
        _stream = new(source, plan.Belief.AllowNoChecksum);
    }

    /// <summary>Bytes, with the line of the recording that they come from.</summary>
    public void Push(Instant at, ReadOnlySpan<byte> bytes, long line)
    {
        if (_first is null)
            (_first, _healthAt) = (at, at);
        Tick(at);
        (_last, _line) = (at, line);
        SourceInspection sink = this;
        _stream.Push(at, bytes, ref sink);
        _fixes.Push(at, bytes);
        _epochs.Limit(_fixes.AltitudeLimitSuspected);
        if (at.SecondsSince(_healthAt) >= HealthEveryS)
            Health(at);
    }

    /// <summary>Time goes on: an epoch that has fallen quiet is complete.</summary>
    public void Tick(Instant at) => _fixes.Tick(at);

    /// <summary>The link was lost or ended: what is pending is judged.</summary>
    public void Flush(Instant at)
    {
        SourceInspection sink = this;
        _stream.Flush(at, ref sink);
        _fixes.Flush(at);
    }

    /// <summary>What came of it.</summary>
    /// <param name="end">Time of the recording's last event.</param>
    /// <param name="timed">The recording tells the time.</param>
    public SourceReport Report(Instant end, bool timed)
    {
        Flush(_last);
        Health(_last);
        double durationS = timed && _first is { } first ? _last.SecondsSince(first) : 0;
        GapReport gaps = _epochs.Gaps();
        double heardS = durationS - gaps.TotalS;
        double? silentS = timed && _epochs.Newest is { } newest ? Math.Round(end.SecondsSince(newest), 1) : null;
        SourceReport report = new()
        {
            Source = _fixes.Source.Name,
            FirstUtc = timed ? _first?.ToString() : null,
            LastUtc = timed && _first is not null ? _last.ToString() : null,
            DurationS = Math.Round(durationS, 3),
            Talkers = _sentences.Talkers(),
            Systems = _sentences.Systems(),
            Identification = _sentences.Identification(),
            Accepted = _sentences.Accepted,
            SentencesPerSecond = heardS > 0 ? Math.Round(_sentences.Accepted / heardS, 2) : null,
            EpochsPerSecond = timed ? _epochs.EpochsPerSecond : null,
            Sentences = _sentences.Sentences(),
            Rejected = Reasons.List(_rejected, i => Cells.Word((RejectReason)i)),
            RejectedShare = _rejectedCount == 0 ? 0
                : Math.Round(_rejectedCount / (double)(_rejectedCount + _sentences.Accepted), 6),
            LineFault = _lineFault,
            Epochs = _epochs.Epochs,
            Believed = _epochs.Believed,
            Refused = _epochs.Refused(),
            Altitude = _epochs.Altitude(),
            Position = _epochs.Position(),
            Gaps = gaps,
            SilentAtEndS = silentS >= gaps.ThresholdS ? silentS : null,
            Dates = _epochs.Dates(_dates),
            Fitness = new(Fitness.NotFit, [], []),
        };
        return report with { Fitness = FitnessJudge.Judge(report, _epochs.WithHeight, _epochs.SinceFirstBelieved) };
    }

    void ISentenceSink.Rejected(in Rejection rejection)
    {
        _rejectedCount++;
        _rejected[(int)rejection.Reason].Add(_line);
    }

    void ISentenceSink.Other(in Sentence sentence) => _sentences.Add(sentence);

    void ISentenceSink.Gga(in Sentence sentence, in Gga message)
    {
        _sentences.Add(sentence);
        _lines.Add(sentence, message.Time, _line);
        if (message.Quality is { } quality)
            _fixedNow = quality != FixQuality.Invalid;
    }

    void ISentenceSink.Rmc(in Sentence sentence, in Rmc message)
    {
        _sentences.Add(sentence);
        _lines.Add(sentence, message.Time, _line);
        _fixedNow = message.Status == 'A' && message.Mode != 'N';
        _dates.Add(message.Time, message.Date, _fixedNow.Value, _line);
    }

    void ISentenceSink.Gll(in Sentence sentence, in Gll message)
    {
        _sentences.Add(sentence);
        _lines.Add(sentence, message.Time, _line);
    }

    void ISentenceSink.Gns(in Sentence sentence, in Gns message)
    {
        _sentences.Add(sentence);
        _lines.Add(sentence, message.Time, _line);
    }

    void ISentenceSink.Gsa(in Sentence sentence, in Gsa message)
    {
        _sentences.Add(sentence);
        _sentences.AddSystem(message.SystemId);
    }

    void ISentenceSink.Gsv(in Sentence sentence, in Gsv message) => _sentences.Add(sentence);

    void ISentenceSink.Vtg(in Sentence sentence, in Vtg message) => _sentences.Add(sentence);

    void ISentenceSink.Zda(in Sentence sentence, in Zda message)
    {
        _sentences.Add(sentence);
        // A ZDA does not say whether there is a fix: it goes by what was said last, and stands when nothing was.
        _dates.Add(message.Time, message.Date, _fixedNow ?? true, _line);
    }

    void ISentenceSink.Gst(in Sentence sentence, in Gst message) => _sentences.Add(sentence);

    void ISentenceSink.Xdr(in Sentence sentence, in XdrMeasurement measurement)
    {
        // One call a measurement, but one sentence.
        if (measurement.Index == 0)
            _sentences.Add(sentence);
    }

    private void Health(Instant at)
    {
        _healthAt = at;
        if (_lineFault.Length == 0)
            _lineFault = _fixes.Health(at).LineFault;
    }
}
