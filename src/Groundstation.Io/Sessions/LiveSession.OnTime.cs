using System.Globalization;
using Groundstation.Core;
using Groundstation.Core.Quantities;
using Groundstation.Io.Recordings;

namespace Groundstation.Io.Sessions;

/// <summary>What a live session does by the clock: unfinished stretches, ticks, a look at clock and disk.</summary>
public sealed partial class LiveSession
{
    // A tick comes this long after the whole second, so that a line that came within it is in the queue before.
    private static readonly TimeSpan _afterSecond = TimeSpan.FromMilliseconds(20);

    private const int MostNotes = 100, MostHeldUpS = 60;

    // What outlives two looks of the collector it leaves for hours: 47 MB had become 69 after 100 minutes. About 20 ms.
    private const int TidyEveryS = 600;

    private readonly DiskWatch _disk;
    private long _ticked;
    private long _looked;

    /// <summary>Milliseconds until something is due with nothing coming in.</summary>
    private int Wait()
    {
        Instant now = _clock!.Now;
        TimeSpan wait = now.ToWholeSecond() + TimeSpan.FromSeconds(1) + _afterSecond - now;
        foreach (SourceLine source in _sources.Values)
        {
            if (source.Due is { } due)
                wait = Shorter(wait, due - now);
        }

        if (_runner.PublishDue() is { } publish)
            wait = Shorter(wait, publish);
        return (int)Math.Clamp(Math.Ceiling(wait.TotalMilliseconds), 0, 1020);
    }

    /// <summary>What is due by the clock: unfinished stretches, the tick, and once a second a look around.</summary>
    private void OnTime()
    {
        Instant now = Stamp();
        // What waits in the queue came before now and carries its own time: it goes first.
        if (_queue.IsEmpty)
        {
            FlushDue(now);
            Tick(now);
        }

        long second = SecondOf(now);
        if (second == _looked)
            return;
        _looked = second;
        if (_clock!.Check() is { } step)
        {
            if (_clock.SetS != 0)
            {
                Handle(RecordedEvent.Acted(Stamp(),
                    new OperatorAct("clock-set", _clock.SetS.ToString("F3", CultureInfo.InvariantCulture))));
            }

            Note("clock", step);
        }

        _folder.Look();
        foreach (string mishap in _folder.TakeMishaps())
            Note("recording", mishap);
        if (second % DiskWatch.EveryS == 0 && _disk.Look() is { } room)
            Handle(RecordedEvent.Acted(Stamp(), new OperatorAct("disk", room)));
        if (second % TidyEveryS == 0)
            GC.Collect(2, GCCollectionMode.Aggressive);
        if (_folder.Unreplaced is var unreplaced && unreplaced != _unreplaced)
            Note("recording", _unreplaced = unreplaced);
        string trouble = _folder.Trouble;
        if (trouble == _fault)
            return;
        _fault = trouble;
        Note("storage", trouble);
    }

    /// <summary>
    /// Brings the station to each whole second soon after it, so that an alarm does not wait for the next line. The
    /// next event would do the same, so only a second that stays without an event is recorded, at its beginning.
    /// </summary>
    private void Tick(Instant now)
    {
        long second = SecondOf(now);
        if (second == _ticked)
            return;
        // A busy computer may have held the thread up for some seconds; one that slept has nothing to tell of its sleep.
        long passed = second - _ticked <= MostHeldUpS ? _ticked : second - 1;
        for (; passed < second; passed++)
        {
            Instant empty = new(passed * TimeSpan.TicksPerSecond);
            if (_lastEventSecond < passed && empty >= _runner.Last)
                Handle(RecordedEvent.OfTime(RecordedKind.Tick, empty));
        }

        _ticked = second;
        _runner.TickTo(new Instant(second * TimeSpan.TicksPerSecond));
    }

    private void FlushDue(Instant at)
    {
        foreach (SourceLine source in _sources.Values)
        {
            if (source.Due is { } due && at >= due)
                Flush(source, at);
        }
    }

    /// <summary>
    /// Something the station's own housekeeping has to say: an event like the operator's, so a replay shows it.
    /// </summary>
    private void Note(string verb, string text)
    {
        Handle(RecordedEvent.Acted(Stamp(), new OperatorAct(verb, text)));
        // The summary shows the first ones; a disk that comes and goes for a day must not fill the memory.
        if (text.Length > 0 && _notes.Count < MostNotes)
            _notes.Add(text);
    }

    private async Task Sync(CancellationToken stop)
    {
        using PeriodicTimer timer = new(TimeSpan.FromSeconds(1), _time);
        try
        {
            while (await timer.WaitForNextTickAsync(stop).ConfigureAwait(false))
                _folder.Sync();
        }
        catch (OperationCanceledException)
        {
            // Closing syncs once more.
        }
    }

    private static long SecondOf(Instant at) => at.Ticks / TimeSpan.TicksPerSecond;

    private static TimeSpan Shorter(TimeSpan a, TimeSpan b) => a < b ? a : b;
}
