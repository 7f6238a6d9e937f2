using System.Collections.Immutable;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Desk;
using Groundstation.Io.Recordings;

namespace Groundstation.Io.Faults;

/// <summary>Puts faults into a recording of any receiver: a function of the events and the faults alone.</summary>
internal static class FaultedEvents
{
    /// <summary>The events as they would have come with the faults.</summary>
    /// <param name="clean">The recording.</param>
    /// <param name="faults">The faults; each takes what those before it have left.</param>
    /// <param name="seed">Of their draws.</param>
    /// <exception cref="UserErrorException">A fault begins at a moment that the recording does not have.</exception>
    public static RecordedEvent[] Of(RecordedEvent[] clean, ImmutableArray<Fault> faults, ulong seed)
    {
        FaultTimes times = new(clean);
        FaultAtWork[] at = [.. faults.Select(fault => new FaultAtWork(times.Of(fault), seed))];
        List<RecordedEvent> all = new(clean.Length + 16);
        List<SourceId> sources = [];
        foreach (RecordedEvent e in clean)
        {
            if (e.Kind is RecordedKind.Received or RecordedKind.Link && !sources.Contains(e.Source))
                sources.Add(e.Source);
            foreach (FaultAtWork fault in at)
                all.AddRange(fault.Due(e.At, sources));
            RecordedEvent? left = e;
            foreach (FaultAtWork fault in at)
                left = left is { } l ? fault.Pass(l) : null;
            // Time goes on although nothing is heard, as a live station would have noted it.
            all.Add(left ?? RecordedEvent.OfTime(RecordedKind.Tick, e.At));
        }

        return [.. all];
    }
}

/// <summary>When faults begin in a recording.</summary>
/// <param name="clean">The recording without faults.</param>
internal sealed class FaultTimes(RecordedEvent[] clean)
{
    private (Instant Utc, TimeSpan Off)? _launch;
    private string[]? _sources;

    /// <summary>A fault with its arrival times.</summary>
    /// <exception cref="UserErrorException">
    /// It begins at a moment, or is in a source, that the recording does not have.
    /// </exception>
    public TimedFault Of(Fault fault)
    {
        string? wanted = fault.Kind == FaultKind.ChaseLost ? SourceId.Chase.Name : fault.Source;
        _sources ??= [.. clean.Where(e => e.Kind is RecordedKind.Received or RecordedKind.Link)
            .Select(e => e.Source.Name).Distinct()];
        if (wanted is not null && !_sources.Contains(wanted))
        {
            throw new UserErrorException($"{FaultFile.Word(fault.Kind)}: the recording has no source {wanted}; "
                + "it has " + string.Join(", ", _sources));
        }

        Instant? from = fault.Begin switch
        {
            FaultBegin.Recording => clean[0].At.PlusSeconds(fault.From),
            FaultBegin.Mission => Launch() is { } launch ? (launch.Utc + launch.Off).PlusSeconds(fault.From) : null,
            FaultBegin.TimeOfDay => OfDay(fault.From),
            FaultBegin.AscentAbove => Passes(fault.From, climbing: true),
            _ => Passes(fault.From, climbing: false),
        };
        Instant begin = from ?? throw new UserErrorException(fault.Begin == FaultBegin.Mission
            ? $"{FaultFile.Word(fault.Kind)}: no launch is recognised in the recording; give a UTC time or +seconds"
            : $"{FaultFile.Word(fault.Kind)}: the recording never passes {fault.From:F0} m that way");
        begin = Instant.FromUnixMilliseconds(begin.UnixMilliseconds);
        return new(fault, begin, fault.ForS is { } s ? begin.PlusSeconds(s) : new Instant(long.MaxValue));
    }

    private Instant OfDay(double second)
    {
        Instant start = clean[0].At;
        Instant at = Instant.FromUtc(start.Date, TimeSpan.FromSeconds(second));
        return at < start - TimeSpan.FromHours(12) ? at + TimeSpan.FromDays(1) : at;
    }

    /// <summary>The launch as the station recognises it without faults.</summary>
    private (Instant Utc, TimeSpan Off)? Launch()
    {
        if (_launch is not null)
            return _launch;
        DeskRun run = new(FlightPlan.Default, null, Timeline.Of(clean));
        Timeline along = Timeline.Of(clean);
        while (run.At < along.End && run.AlarmsRaised.All(a => a.Alarm != "launch"))
            run.MoveTo(along, run.At + TimeSpan.FromSeconds(10) is var next && next < along.End ? next : along.End);
        Groundstation.Core.Snapshot now = run.Snapshot();
        return _launch = now.Flight.Launch is { } launch ? (launch.Utc, now.Arrival - now.Utc) : null;
    }

    private Instant? Passes(double heightM, bool climbing)
    {
        Instant? found = null;
        double highest = double.NegativeInfinity;
        foreach (RecordedEvent e in clean)
        {
            if (e.Kind != RecordedKind.Received || e.Source == SourceId.Chase
                || SentenceEdit.Of(e.Bytes.Span) is not { AltitudeM: { } at })
                continue;
            if (climbing && at >= heightM)
                return e.At;
            // The descent is what comes after the highest point; 500 m, so that a wave in the ascent is none.
            if (at > highest)
                (highest, found) = (at, null);
            else if (!climbing && at < heightM && at < highest - 500)
                found ??= e.At;
        }

        return found;
    }
}
