using System.Collections.Immutable;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;

namespace Groundstation.Core.Fixes;

/// <summary>
/// Counts what one source sends, over the last minute of arrival time in sixty one-second buckets and since start, and
/// reads line faults off the bytes.
/// </summary>
internal sealed class ReceiverMonitor(SourceId source)
{
    private const int WindowS = 60;

    private Bucket[] _buckets = new Bucket[WindowS];
    private long[] _rejected = new long[Enum.GetValues<RejectReason>().Length];
    private SkyView _sky = new();
    private Instant? _firstByte;
    private Instant? _lastByte;
    private Instant? _lastBelieved;
    private long _accepted;
    private long _believed;
    private long _refused;
    private int? _satellitesUsed;

    private struct Bucket
    {
        public long Second;
        public int Bytes;
        public int OddBytes;
        public int Accepted;
        public int Rejected;
        public int EighthBit;
        public int Epochs;
    }

    /// <summary>Bytes have come, whatever they are.</summary>
    public void Bytes(Instant at, ReadOnlySpan<byte> bytes)
    {
        _firstByte ??= at;
        _lastByte = at;
        ref Bucket bucket = ref At(at);
        bucket.Bytes += bytes.Length;
        // NUL and bytes above ASCII: what a UART gives when it reads at another speed than is sent.
        int odd = bytes.IndexOfAnyExceptInRange((byte)1, (byte)0x7E);
        for (; odd >= 0 && odd < bytes.Length; odd++)
        {
            if (bytes[odd] is 0 or > 0x7E)
                bucket.OddBytes++;
        }
    }

    /// <summary>A sentence was accepted.</summary>
    public void Accepted(Instant at)
    {
        _accepted++;
        At(at).Accepted++;
    }

    /// <summary>A stretch was rejected.</summary>
    public void Rejected(in Rejection rejection)
    {
        _rejected[(int)rejection.Reason]++;
        ref Bucket bucket = ref At(rejection.Heard);
        bucket.Rejected++;
        if (LineFaults.IsEighthBit(rejection.Bytes))
            bucket.EighthBit++;
    }

    /// <summary>Satellites in view were told.</summary>
    public void InView(in Sentence sentence, in Gsv message) => _sky.Take(sentence, message);

    /// <summary>An epoch was judged.</summary>
    public void Judged(Fix fix, Instant at)
    {
        At(at).Epochs++;
        _satellitesUsed = fix.SatellitesUsed;
        if (fix.Refused == RefusalReasons.WithinSecond)
            return;
        if (!fix.Believed)
        {
            _refused++;
            return;
        }

        _believed++;
        _lastBelieved = fix.Heard;
    }

    /// <summary>How the source stands.</summary>
    public ReceiverHealth Health(Instant now)
    {
        var sum = default(Bucket);
        int heard = 0;
        long second = SecondOf(now);
        foreach (Bucket bucket in _buckets)
        {
            if (bucket.Second <= second - WindowS || bucket.Second > second)
                continue;
            heard += bucket.Bytes > 0 ? 1 : 0;
            sum.Bytes += bucket.Bytes;
            sum.OddBytes += bucket.OddBytes;
            sum.Accepted += bucket.Accepted;
            sum.Rejected += bucket.Rejected;
            sum.EighthBit += bucket.EighthBit;
            sum.Epochs += bucket.Epochs;
        }

        // In the first minute the window is as long as the source has been heard.
        double seconds = Math.Clamp(_firstByte is { } first ? now.SecondsSince(first) : WindowS, 1, WindowS);
        int lines = sum.Accepted + sum.Rejected;
        var rejected = ImmutableArray.CreateBuilder<KeyValuePair<RejectReason, long>>();
        for (int i = 0; i < _rejected.Length; i++)
        {
            if (_rejected[i] > 0)
                rejected.Add(new((RejectReason)i, _rejected[i]));
        }

        return new ReceiverHealth
        {
            Source = source,
            SentencesPerSecond = sum.Accepted / seconds,
            FixesPerSecond = sum.Epochs / seconds,
            RejectedShare = lines == 0 ? 0 : (double)sum.Rejected / lines,
            Accepted = _accepted,
            Rejected = rejected.ToImmutable(),
            LineFault = LineFaults.Name(sum.Bytes, heard, sum.OddBytes, sum.Accepted, sum.Rejected, sum.EighthBit),
            SatellitesUsed = _satellitesUsed,
            InView = _sky.At(now),
            FirstByte = _firstByte,
            LastByte = _lastByte,
            LastBelieved = _lastBelieved,
            Believed = _believed,
            Refused = _refused,
        };
    }

    private ref Bucket At(Instant at)
    {
        long second = SecondOf(at);
        ref Bucket bucket = ref _buckets[(int)(((second % WindowS) + WindowS) % WindowS)];
        if (bucket.Second != second)
            bucket = new Bucket { Second = second };
        return ref bucket;
    }

    private static long SecondOf(Instant at) => Math.DivRem(at.Ticks, TimeSpan.TicksPerSecond).Quotient;

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public ReceiverMonitor Copy()
    {
        var copy = (ReceiverMonitor)MemberwiseClone();
        copy._buckets = [.. _buckets];
        copy._rejected = [.. _rejected];
        copy._sky = _sky.Copy();
        return copy;
    }
}
