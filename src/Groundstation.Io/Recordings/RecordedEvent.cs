using Groundstation.Core;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Io.Recordings;

/// <summary>What an event of a recording is.</summary>
public enum RecordedKind
{
    /// <summary>A session began.</summary>
    Opened,

    /// <summary>Bytes came from a source.</summary>
    Received,

    /// <summary>A link changed.</summary>
    Link,

    /// <summary>The operator did something.</summary>
    Act,

    /// <summary>Time went on with nothing heard.</summary>
    Tick,

    /// <summary>A session ended in good order.</summary>
    Ended,

    /// <summary>A line of the station's own that cannot be read; it only carries time.</summary>
    Damaged,
}

/// <summary>
/// One event of a recording. Live, it is written and then applied; in a replay it is read and applied: the station
/// gets the same calls either way.
/// </summary>
public readonly record struct RecordedEvent
{
    // A verb is a word; one of absurd length must not burst the line together with its argument.
    private const int MaxVerb = 40;

    /// <summary>What it is.</summary>
    public required RecordedKind Kind { get; init; }

    /// <summary>Arrival time, whole milliseconds; never earlier than the event before.</summary>
    public required Instant At { get; init; }

    /// <summary>For <see cref="RecordedKind.Received"/> and <see cref="RecordedKind.Link"/>: which source.</summary>
    public SourceId Source { get; init; }

    /// <summary>
    /// For <see cref="RecordedKind.Received"/>: the bytes, with CR LF where a line ended. From a reader they are only
    /// good until the next read.
    /// </summary>
    public ReadOnlyMemory<byte> Bytes { get; init; }

    /// <summary>For <see cref="RecordedKind.Link"/>: the state.</summary>
    public LinkState State { get; init; }

    /// <summary>For <see cref="RecordedKind.Link"/>: the cause.</summary>
    public string Why { get; init; }

    /// <summary>For <see cref="RecordedKind.Act"/>: the act.</summary>
    public OperatorAct? Done { get; init; }

    /// <summary>For <see cref="RecordedKind.Opened"/>: the seed of the station's draws.</summary>
    public ulong Seed { get; init; }

    /// <summary>Hands it to the station: the only way in which a session of either kind calls it.</summary>
    public void ApplyTo(Station station)
    {
        switch (Kind)
        {
            case RecordedKind.Received:
                station.Receive(Source, At, Bytes.Span);
                break;
            case RecordedKind.Link:
                station.Link(new LinkStatus(Source, State, Why, At));
                break;
            case RecordedKind.Act:
                station.Act(At, Done!);
                break;
            default:
                station.Tick(At);
                break;
        }
    }

    /// <summary>Bytes from a source.</summary>
    public static RecordedEvent Received(SourceId source, Instant at, ReadOnlyMemory<byte> bytes) =>
        new() { Kind = RecordedKind.Received, At = at, Source = source, Bytes = bytes };

    /// <summary>A link's change; the cause is cut and cleaned as a recording does it.</summary>
    public static RecordedEvent Linked(SourceId source, Instant at, LinkState state, string why) =>
        new() { Kind = RecordedKind.Link, At = at, Source = source, State = state, Why = Escape.Recordable(why) };

    /// <summary>An operator's act; its texts are cut and cleaned as a recording does it.</summary>
    public static RecordedEvent Acted(Instant at, OperatorAct act) => new()
    {
        Kind = RecordedKind.Act,
        At = at,
        Done = new OperatorAct(Escape.Recordable(act.Verb, MaxVerb), Escape.Recordable(act.Argument)),
    };

    /// <summary>The beginning of a session.</summary>
    public static RecordedEvent Opened(Instant at, ulong seed) =>
        new() { Kind = RecordedKind.Opened, At = at, Seed = seed };

    /// <summary>An event that only carries time.</summary>
    public static RecordedEvent OfTime(RecordedKind kind, Instant at) => new() { Kind = kind, At = at };
}
