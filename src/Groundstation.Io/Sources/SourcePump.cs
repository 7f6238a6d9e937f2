using Groundstation.Core.Receive;
using Polly;
using Polly.Retry;
using Polly.Timeout;

namespace Groundstation.Io.Sources;

/// <summary>
/// Keeps one source open: opens it through a resilience pipeline, reads it, and opens it again when it is lost, for as
/// long as the session lasts. Silence is no loss: a tracker may be silent for an hour. A device node that is gone, an
/// end of data and a hang-up are. Only a TCP connection is made anew after a minute of silence, then after two, and so
/// on to sixteen.
/// </summary>
public sealed class SourcePump
{
    /// <summary>Longest time of one try to open.</summary>
    public static readonly TimeSpan OpenTimeout = TimeSpan.FromSeconds(3);

    /// <summary>Longest wait between two tries: a port is back within two seconds of its return.</summary>
    public static readonly TimeSpan LongestWait = TimeSpan.FromSeconds(1);

    private static readonly TimeSpan _firstWait = TimeSpan.FromMilliseconds(250);

    // In silence the device node is looked after this often.
    private static readonly TimeSpan _quiet = TimeSpan.FromSeconds(1);

    // A server that is there but sends nothing any more looks like a silent tracker: only a new connection tells.
    private static readonly TimeSpan _firstSilence = TimeSpan.FromMinutes(1),
        _longestSilence = TimeSpan.FromMinutes(16);

    private readonly TimeProvider _time;
    private readonly Func<Action<string>, CancellationToken, Task<OpenedSource>> _open;
    private readonly bool _ownPace;
    private TimeSpan _patience = _firstSilence;

    /// <summary>A pump for an address.</summary>
    /// <param name="id">The name its bytes and link go by.</param>
    /// <param name="address">Where from.</param>
    /// <param name="time">For waits and time limits.</param>
    public SourcePump(SourceId id, SourceAddress address, TimeProvider time)
        : this(id, address, time, OpenerFor(address, time), address is SerialAutoAddress)
    {
    }

    /// <summary>A pump with an opener of its own.</summary>
    internal SourcePump(SourceId id, SourceAddress address, TimeProvider time,
        Func<Action<string>, CancellationToken, Task<OpenedSource>> open, bool ownPace = false)
    {
        Id = id;
        Address = address;
        _time = time;
        _open = open;
        _ownPace = ownPace;
    }

    /// <summary>The name its bytes and link go by.</summary>
    public SourceId Id { get; }

    /// <summary>Where from.</summary>
    public SourceAddress Address { get; }

    /// <summary>
    /// Runs until stopped, or until the source has ended for good. Never throws for what a source does.
    /// </summary>
    public async Task RunAsync(ISourceSink sink, CancellationToken stop)
    {
        Reporter report = new(Id, sink);
        ResiliencePipeline<OpenedSource> opening = Pipeline(report);
        try
        {
            while (true)
            {
                report.Trying("");
                using OpenedSource source = await opening.ExecuteAsync(
                    async token => await _open(report.Trying, token).ConfigureAwait(false), stop).ConfigureAwait(false);
                report.Up(source.Detail);
                string why = await Pump(source, sink, stop).ConfigureAwait(false);
                if (source.EndsForGood)
                {
                    report.Ended(why);
                    return;
                }

                report.Lost(why);
                // A server that accepts and hangs up at once must not be hammered.
                await Task.Delay(_firstWait, _time, stop).ConfigureAwait(false);
            }
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // Asked to stop.
        }
#pragma warning disable CA1031 // Whatever a driver throws (its library is missing, say): the other sources go on.
        catch (Exception e)
#pragma warning restore CA1031
        {
            report.Ended($"cannot be used: {SourceTrouble.Words(e)}");
        }
    }

    private async Task<string> Pump(OpenedSource source, ISourceSink sink, CancellationToken stop)
    {
        long heard = _time.GetTimestamp();
        try
        {
            while (true)
            {
                ReadOnlyMemory<byte>? bytes = await source.ReadAsync(_quiet, _time, stop).ConfigureAwait(false);
                if (bytes is { IsEmpty: true })
                    return source.EndsForGood ? "end of input" : "the other end hung up";
                if (bytes is { } some)
                {
                    sink.Bytes(Id, some.Span);
                    (heard, _patience) = (_time.GetTimestamp(), _firstSilence);
                }
                else if (source.Gone() is { } gone)
                {
                    return gone;
                }
                else if (Address is TcpAddress && _time.GetElapsedTime(heard) >= _patience)
                {
                    string silence = FormattableString.Invariant(
                        $"no byte for {_patience.TotalMinutes:F0} min: connecting anew");
                    // A tracker that is silent for hours must not fill the recording with reconnections.
                    _patience = _patience < _longestSilence ? 2 * _patience : _longestSilence;
                    return silence;
                }
            }
        }
        catch (Exception e) when (SourceTrouble.Is(e))
        {
            return SourceTrouble.Words(e);
        }
    }

    private ResiliencePipeline<OpenedSource> Pipeline(Reporter report)
    {
        ResiliencePipelineBuilder<OpenedSource> builder = new() { TimeProvider = _time };
        builder.AddRetry(new RetryStrategyOptions<OpenedSource>
        {
            ShouldHandle = static args => ValueTask.FromResult(
                args.Outcome.Exception is { } e && SourceTrouble.Is(e)),
            MaxRetryAttempts = int.MaxValue,
            BackoffType = DelayBackoffType.Exponential,
            UseJitter = true,
            Delay = _firstWait,
            MaxDelay = LongestWait,
            OnRetry = args =>
            {
                report.Trying(SourceTrouble.Words(args.Outcome.Exception!));
                return default;
            },
        });
        // The search listens for seconds on each port and limits each opening itself.
        if (!_ownPace)
            builder.AddTimeout(OpenTimeout);
        return builder.Build();
    }

    private static Func<Action<string>, CancellationToken, Task<OpenedSource>> OpenerFor(SourceAddress address,
        TimeProvider time)
    {
        switch (address)
        {
            case SerialAddress serial:
                return (_, stop) => Openers.Serial(serial.Device, serial.Baud, stop);
            case SerialAutoAddress:
                return new SerialSearch(time).Open;
            case TcpAddress tcp:
                return (_, stop) => Openers.Tcp(tcp, stop);
            case UdpAddress udp:
                return (_, _) => Task.FromResult(Openers.Udp(udp));
            default:
                return (_, _) => Task.FromResult(Openers.Standard(Console.OpenStandardInput()));
        }
    }

    /// <summary>Tells each change of the link once, not each of a thousand tries with the same outcome.</summary>
    private sealed class Reporter(SourceId id, ISourceSink sink)
    {
        private LinkState? _state;
        private string _why = "";
        private bool _wasUp;

        public void Trying(string why)
        {
            // After a loss the cause stays on view until there is something new to say.
            if (why.Length > 0 || !_wasUp)
                Tell(_wasUp ? LinkState.Lost : LinkState.Opening, why);
        }

        public void Up(string detail)
        {
            _wasUp = true;
            Tell(LinkState.Up, detail);
        }

        public void Lost(string why) => Tell(LinkState.Lost, why);

        public void Ended(string why) => Tell(LinkState.Ended, why);

        private void Tell(LinkState state, string why)
        {
            if (state == _state && why == _why)
                return;
            (_state, _why) = (state, why);
            sink.Link(id, state, why);
        }
    }
}
