using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Recordings;

namespace Groundstation.Io.Faults;

/// <summary>
/// One fault while a recording passes through it. Holds what it has heard before, as a receiver would.
/// </summary>
/// <param name="timed">The fault and its times.</param>
/// <param name="seed">Of its draws.</param>
internal sealed class FaultAtWork(TimedFault timed, ulong seed)
{
    private const double JumpS = 2;

    // A receiver needs some time below its limit before it has a fix again.
    private static readonly TimeSpan _regain = TimeSpan.FromSeconds(25);

    private readonly SeededRandom _random = new(seed, Stream(timed.Fault));
    private readonly Dictionary<string, byte[]> _before = [];
    private readonly HashSet<SourceId> _unplugged = [];
    private string? _altitude;
    private Instant? _above;
    private long _jump = -1;
    private (double North, double East) _off;

    private Fault Fault => timed.Fault;

    /// <summary>Events that come about by themselves before the next event: a link lost, and up again.</summary>
    public IEnumerable<RecordedEvent> Due(Instant next, IReadOnlyCollection<SourceId> sources)
    {
        if (Fault.Kind != FaultKind.Unplug)
            yield break;
        foreach (SourceId source in sources.Where(Concerns))
        {
            if (next >= timed.From && next < timed.To && _unplugged.Add(source))
                yield return RecordedEvent.Linked(source, timed.From, LinkState.Lost, "the device is gone");
            if (next >= timed.To && _unplugged.Remove(source))
                yield return RecordedEvent.Linked(source, timed.To, LinkState.Up, "");
        }
    }

    /// <summary>What becomes of an event; null: nothing is left of it.</summary>
    public RecordedEvent? Pass(in RecordedEvent e)
    {
        bool now = e.At >= timed.From && e.At < timed.To;
        if (e.Kind is not (RecordedKind.Received or RecordedKind.Link) || !Concerns(e.Source))
            return e;
        if (e.Kind == RecordedKind.Link)
            return now && Fault.Kind == FaultKind.Unplug && e.State != LinkState.Ended ? null : e;
        switch (Fault.Kind)
        {
            case FaultKind.Silence or FaultKind.ChaseLost or FaultKind.Unplug:
                return now ? null : e;
            case FaultKind.Damaged:
                return now && _random.NextDouble() < Fault.Share ? e with { Bytes = Damage(e.Bytes.Span) } : e;
        }

        if (!now && e.At >= timed.To)
            return e;
        return SentenceEdit.Of(e.Bytes.Span) is { } sentence && Change(sentence, e.At, now) is { } changed
            ? e with { Bytes = changed } : e;
    }

    /// <summary>
    /// Draws of its own, whatever faults stand beside it: one that is taken back must not change the others.
    /// </summary>
    private static ulong Stream(Fault fault) =>
        0x4661756C + 1_000_003 * (ulong)fault.Kind + (ulong)(long)Math.Round(fault.From * 1000);

    private bool Concerns(SourceId source) => Fault.Kind == FaultKind.ChaseLost ? source == SourceId.Chase
        : Fault.Source is { } name ? source.Name == name : source != SourceId.Chase;

    /// <summary>The sentence as it arrives; null: as it was.</summary>
    private byte[]? Change(SentenceEdit s, Instant at, bool now)
    {
        switch (Fault.Kind)
        {
            case FaultKind.StalledFix when s.PlaceField > 0 || s.Type is "ZDA" or "VTG":
                if (now)
                    return _before.GetValueOrDefault(s.Address);
                _before[s.Address] = s.Seal();
                return null;
            case FaultKind.FrozenAltitude when now && s.AltitudeM is not null:
                s[9] = _altitude ??= s[9];
                return s.Seal();
            case FaultKind.AltitudeLimit when now:
                if (s.AltitudeM is { } height)
                    _above = height > Fault.LimitM ? at : at - _above > _regain ? null : _above;
                if (_above is null)
                    return null;
                s.TakeFix();
                return s.Seal();
            case FaultKind.Jumps when now && s.PlaceField > 0:
                double since = at.SecondsSince(timed.From);
                if (since % Fault.EveryS >= JumpS)
                    return null;
                if (_jump != (long)(since / Fault.EveryS))
                {
                    _jump = (long)(since / Fault.EveryS);
                    (double sin, double cos) = Math.SinCos(_random.NextBetween(0, 2 * Math.PI));
                    _off = (Fault.ByM * cos, Fault.ByM * sin);
                }

                s.Move(_off.North, _off.East);
                return s.Seal();
            case FaultKind.WrongDate when now && s.Type is "RMC" or "ZDA":
                s.MoveDate(Fault.Days);
                return s.Seal();
            default:
                return null;
        }
    }

    /// <summary>One byte becomes another, or the end is lost, as radios do it.</summary>
    private byte[] Damage(ReadOnlySpan<byte> bytes)
    {
        byte[] damaged = bytes.ToArray();
        int content = bytes.TrimEnd("\r\n"u8).Length;
        if (content == 0)
            return damaged;
        int at = (int)(_random.NextDouble() * content);
        if (_random.NextDouble() < 0.5)
            return [.. damaged[..at], .. damaged[content..]];
        damaged[at] = (byte)(' ' + (damaged[at] - ' ' + 1 + (int)(_random.NextDouble() * 90)) % 94);
        return damaged;
    }
}
