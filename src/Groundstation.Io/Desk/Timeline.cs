using System.Collections.Immutable;
using Groundstation.Core.Quantities;
using Groundstation.Io.Faults;
using Groundstation.Io.Recordings;

namespace Groundstation.Io.Desk;

/// <summary>
/// All events of a replay in memory, in order: those of the recording with the faults put into it and, among them,
/// what the trainee did. Immutable: whatever changes makes another timeline, the same up to the moment of the change.
/// </summary>
public sealed class Timeline
{
    private const int BlockSize = 1 << 16;

    private readonly RecordedEvent[] _clean;
    private readonly RecordedEvent[] _received;
    private readonly ImmutableArray<RecordedEvent> _acts;
    private readonly RecordedEvent[] _events;

    private Timeline(RecordedEvent[] clean, FaultFile faults, RecordedEvent[] received,
        ImmutableArray<RecordedEvent> acts)
    {
        (_clean, Faults, _received, _acts) = (clean, faults, received, acts);
        _events = acts.IsEmpty ? received : Merge(received, acts);
    }

    /// <summary>The recording without faults and the trainee's acts.</summary>
    internal RecordedEvent[] Clean => _clean;

    /// <summary>What the trainee did, in order.</summary>
    internal ImmutableArray<RecordedEvent> Acts => _acts;

    /// <summary>The faults in it.</summary>
    public FaultFile Faults { get; }

    /// <summary>The events, by arrival time.</summary>
    public ReadOnlySpan<RecordedEvent> Events => _events;

    /// <summary>How many there are.</summary>
    public int Count => _events.Length;

    /// <summary>Arrival time of the first.</summary>
    public Instant Start => _events[0].At;

    /// <summary>Arrival time of the last.</summary>
    public Instant End => _events[^1].At;

    /// <summary>Reads a recording to its end.</summary>
    /// <param name="reader">At its beginning.</param>
    /// <param name="seed">The seed for the opening event of a recording that another program made.</param>
    /// <param name="withoutActs">Leaves out what the operator of that day did.</param>
    /// <exception cref="UserErrorException">It cannot be read, or holds no event.</exception>
    public static Timeline Load(RecordingReader reader, ulong seed, bool withoutActs = false)
    {
        List<RecordedEvent> events = [];
        byte[] block = [];
        int used = 0;
        while (reader.Read(out RecordedEvent e))
        {
            if (events.Count == 0 && !reader.IsOwn)
                events.Add(RecordedEvent.Opened(e.At, seed));
            if (withoutActs && e.Kind == RecordedKind.Act)
                e = RecordedEvent.OfTime(RecordedKind.Tick, e.At);
            if (!e.Bytes.IsEmpty)
            {
                if (used + e.Bytes.Length > block.Length)
                    (block, used) = (new byte[Math.Max(BlockSize, e.Bytes.Length)], 0);
                Memory<byte> kept = block.AsMemory(used, e.Bytes.Length);
                e.Bytes.CopyTo(kept);
                used += kept.Length;
                e = e with { Bytes = kept };
            }

            events.Add(e);
        }

        if (events.Count == 0)
            throw new UserErrorException($"{reader.Path}: holds no line; nothing to replay");
        if (!reader.IsOwn)
            events.Add(RecordedEvent.OfTime(RecordedKind.Ended, events[^1].At));
        return Of([.. events]);
    }

    /// <summary>A timeline of events without faults.</summary>
    internal static Timeline Of(RecordedEvent[] clean) => new(clean, FaultFile.None, clean, []);

    /// <summary>The same with these faults and no others; what the trainee did stays.</summary>
    /// <exception cref="UserErrorException">A fault begins at a moment that the recording does not have.</exception>
    public Timeline With(FaultFile faults) =>
        new(_clean, faults, FaultedEvents.Of(_clean, faults.Faults, faults.Seed), _acts);

    /// <summary>The same with one more act of the trainee's, later than or with all before.</summary>
    public Timeline With(in RecordedEvent act) => new(_clean, Faults, _received, _acts.Add(act));

    /// <summary>The same without what the trainee did after a moment.</summary>
    public Timeline WithoutActsAfter(Instant at)
    {
        ImmutableArray<RecordedEvent> kept = _acts.RemoveAll(act => act.At > at);
        return kept.Length == _acts.Length ? this : new Timeline(_clean, Faults, _received, kept);
    }

    private static RecordedEvent[] Merge(RecordedEvent[] recorded, ImmutableArray<RecordedEvent> acts)
    {
        RecordedEvent[] all = new RecordedEvent[recorded.Length + acts.Length];
        int next = 0, n = 0;
        foreach (RecordedEvent act in acts)
        {
            // Behind all that had been received when the key was pressed.
            while (next < recorded.Length && recorded[next].At <= act.At)
                all[n++] = recorded[next++];
            all[n++] = act;
        }

        recorded.AsSpan(next).CopyTo(all.AsSpan(n));
        return all;
    }
}
