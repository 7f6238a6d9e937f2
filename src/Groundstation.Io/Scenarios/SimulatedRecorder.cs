using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Simulation;
using Groundstation.Io.Recordings;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Scenarios;

/// <summary>
/// Keeps what arrives of a simulated flight as the station keeps what arrives of a real one: received lines, link
/// changes, and a tick for each second of arrival time in which there was nothing else.
/// </summary>
internal sealed class SimulatedRecorder
{
    private static readonly TimeSpan _idle = TimeSpan.FromMilliseconds(500);

    private readonly Scenario _scenario;
    private readonly AppendFile _file;
    private readonly SourceId _source;
    private readonly Transmission _way;
    private readonly LineAssembler _assembler = new();
    private readonly List<ArrivedBytes> _arrived = [];
    private readonly SimulatedGroundEvents _ground;
    private Instant _last, _pendingSince;
    private bool _linked = true;

    public SimulatedRecorder(Scenario scenario, AppendFile file)
    {
        _scenario = scenario;
        _file = file;
        _source = new SourceId(scenario.Radio.Source);
        _way = new Transmission(scenario);
        _ground = new SimulatedGroundEvents(scenario);
        _last = Arrival(scenario.LaunchUtc.PlusSeconds(-Math.Ceiling(scenario.PadS)));
        Put(RecordedEvent.Opened(_last, scenario.Seed));
        Put(RecordedEvent.Linked(_source, _last, LinkState.Up, ""));
    }

    /// <summary>Lines received.</summary>
    public long Lines { get; private set; }

    public void Take(in SimulatedEpoch epoch)
    {
        Instant at = Arrival(epoch.Receiver.Utc);
        Idle(at);
        _ground.Take(epoch.Truth.TimeS, this);
        if (_linked == (epoch.Reception == Reception.NoLink))
        {
            _linked = !_linked;
            TickUpTo(at);
            Put(_linked
                ? RecordedEvent.Linked(_source, Later(at), LinkState.Up, "")
                : RecordedEvent.Linked(_source, Later(at), LinkState.Lost, "simulated: the device is gone"));
        }

        _arrived.Clear();
        _way.Carry(epoch, _arrived);
        foreach (ArrivedBytes bytes in _arrived)
            Take(bytes);
        TickUpTo(at);
    }

    public void End()
    {
        Instant end = _last + TimeSpan.FromSeconds(1);
        Idle(end);
        Put(RecordedEvent.Linked(_source, end, LinkState.Ended, "end of the simulation"));
        Put(RecordedEvent.OfTime(RecordedKind.Ended, end));
    }

    private void Take(ArrivedBytes bytes)
    {
        Instant at = Milliseconds(bytes.At);
        Idle(at);
        for (int used = 0; used < bytes.Bytes.Length;)
        {
            used += _assembler.Take(bytes.Bytes.AsSpan(used), out ReadOnlyMemory<byte> piece);
            if (!piece.IsEmpty)
                Received(at, piece);
        }

        _pendingSince = at;
    }

    // A stretch without its line end is kept as it is after half a second without a byte.
    private void Idle(Instant until)
    {
        if (_assembler.Pending && until - _pendingSince >= _idle && _assembler.TryFlush(out ReadOnlyMemory<byte> piece))
            Received(_pendingSince + _idle, piece);
    }

    private void Received(Instant at, ReadOnlyMemory<byte> piece)
    {
        TickUpTo(at);
        Put(RecordedEvent.Received(_source, at, piece));
        Lines++;
    }

    /// <summary>Keeps an event of the ground at a time after launch, s, or as soon as the order of events allows.</summary>
    public void Put(double timeS, Func<Instant, RecordedEvent> make)
    {
        Instant at = Later(Arrival(_scenario.LaunchUtc.PlusSeconds(timeS)));
        TickUpTo(at);
        Put(make(at));
    }

    // A tick in each whole second before this one that has nothing else in it.
    private void TickUpTo(Instant at)
    {
        long second = TimeSpan.TicksPerSecond;
        for (long s = _last.Ticks / second + 1; s < at.Ticks / second; s++)
            Put(RecordedEvent.OfTime(RecordedKind.Tick, new Instant(s * second)));
    }

    private void Put(in RecordedEvent e)
    {
        RecordingWriter.Append(_file, e);
        _last = e.At;
    }

    // On a slow line the bytes of one second still come in the next.
    private Instant Later(Instant at) => at > _last ? at : _last;

    private Instant Arrival(Instant utc) => Milliseconds(utc.PlusSeconds(_scenario.Radio.ClockAheadS));

    private static Instant Milliseconds(Instant at) => Instant.FromUnixMilliseconds(at.UnixMilliseconds);
}
