using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;

namespace Groundstation.Core.Fixes;

/// <summary>
/// Joins the sentences of one source into epochs by their UTC: one fix an epoch, however many talkers tell of it.
/// <para>
/// An epoch ends with the sentence that ended the three before it, else when another UTC comes, else when nothing has
/// come for 0.7 s of arrival time. What comes later of an ended epoch still gives its date; it makes no second fix,
/// unless it repeats the sentence that gave the place, which then is an epoch of its own for the judge to refuse.
/// Sentences without a time (GSA, VTG, blank ones) belong to the epoch that is open, else to the next.
/// </para>
/// </summary>
internal sealed class EpochJoiner(SourceId source, Action<Fix, TimeSpan> done)
{
    private const double QuietS = 0.7;
    private const double StaleS = 2;
    private const int AgreeingEnds = 3;
    private const int Remembered = 8;

    private Action<Fix, TimeSpan> _done = done;
    private DateKeeper _dates = new();
    private EndOfBurst _end = new(AgreeingEnds);
    private (TimeSpan Time, int Parts)[] _ended = new (TimeSpan, int)[Remembered];
    private int _endedCount;
    private EpochDraft _open = new();
    private EpochDraft _next = new();
    private int _parts;
    private (TimeSpan? Time, DateOnly? Date) _late;

    public void Gga(in Sentence s, in Gga m)
    {
        if (Draft(s, Part.Gga, m.Time) is { } draft)
        {
            draft.Take(m);
            EndIfLast();
        }
    }

    public void Gns(in Sentence s, in Gns m)
    {
        if (Draft(s, Part.Gns, m.Time) is { } draft)
        {
            draft.Take(m);
            EndIfLast();
        }
    }

    public void Rmc(in Sentence s, in Rmc m)
    {
        if (Draft(s, Part.Rmc, m.Time) is { } draft)
        {
            draft.Take(m);
            EndIfLast();
        }
        else if (m.Status == 'A' && m.Mode is not ('N' or 'E' or 'M' or 'S'))
            _late = (m.Time, m.Date);
    }

    public void Gll(in Sentence s, in Gll m)
    {
        if (Draft(s, Part.Gll, m.Time) is { } draft)
        {
            draft.Take(m);
            EndIfLast();
        }
    }

    public void Gsa(in Sentence s, in Gsa m)
    {
        if (Draft(s, Part.Gsa, null) is { } draft)
        {
            draft.Take(m, s.Address);
            EndIfLast();
        }
    }

    public void Vtg(in Sentence s, in Vtg m)
    {
        if (Draft(s, Part.Vtg, null) is { } draft)
        {
            draft.Take(m);
            EndIfLast();
        }
    }

    public void Zda(in Sentence s, in Zda m)
    {
        if (Draft(s, Part.Zda, m.Time) is { } draft)
        {
            draft.Take(m);
            EndIfLast();
        }
    }

    public void Gst(in Sentence s, in Gst m)
    {
        if (Draft(s, Part.Gst, m.Time) is not null)
            EndIfLast();
    }

    /// <summary>Time has come to <paramref name="at"/>: an epoch that has fallen quiet ends.</summary>
    public void Tick(Instant at)
    {
        if (_open.Any && at.SecondsSince(_open.Newest) >= QuietS)
            End();
    }

    /// <summary>Nothing more will come: the open epoch ends.</summary>
    public void Flush()
    {
        if (_open.Any)
            End();
    }

    // The draft that a sentence belongs to, or null when it is late for an epoch that has ended.
    private EpochDraft? Draft(in Sentence s, Part part, TimeSpan? time)
    {
        int bit = Bit(s.Address, part);
        if (time is null)
        {
            EpochDraft draft = _open.Any ? _open : _next;
            draft.Touch(s.Heard, null);
            _end.Note(s.Address, part);
            return draft;
        }

        if ((!_open.Any || _open.Time != time) && IsLate(time.Value, bit, part))
        {
            _end.NoteLate();
            return null;
        }

        bool repeats = part <= Part.Gns && _open.Any && _open.Time == time && (_parts & bit) != 0;
        if (_open.Any && (_open.Time != time || repeats))
            End();
        if (!_open.Any)
        {
            if (_next.Any && s.Heard.SecondsSince(_next.Newest) > StaleS)
                _next.Clear();
            (_open, _next) = (_next, _open);
            _parts = 0;
        }

        _open.Touch(s.Heard, time);
        _parts |= bit;
        _end.Note(s.Address, part);
        return _open;
    }

    // Belongs to an ended epoch and was not in it, or is no sentence that makes an epoch.
    private bool IsLate(TimeSpan time, int bit, Part part)
    {
        for (int i = 0; i < _endedCount; i++)
        {
            if (_ended[i].Time == time)
                return part > Part.Gns || (_ended[i].Parts & bit) == 0;
        }

        return false;
    }

    // GGA and GNS of up to eight talkers each, and one bit for each other type.
    private static int Bit(ReadOnlySpan<byte> address, Part part)
    {
        if (part > Part.Gns)
            return 1 << (16 + (int)part);
        int talker = address.Length < 2 ? 0 : (address[0] * 5 + address[1]) & 7;
        return 1 << ((int)part * 8 + talker);
    }

    private void EndIfLast()
    {
        if (_open.Any && _end.IsLast)
            End();
    }

    // The epoch's own date, else that of a sentence which came too late for the epoch before.
    private DateOnly? DateOf(EpochDraft draft)
    {
        if (!draft.HasFix)
            return null;
        (TimeSpan? time, DateOnly? date) = _late;
        _late = default;
        return draft.Date ?? (draft.Time < time - TimeSpan.FromHours(12) ? date?.AddDays(1) : date);
    }

    private void End()
    {
        EpochDraft draft = _open;
        _end.Epoch();
        if (draft.Time is { } time)
        {
            int keep = Math.Min(_endedCount, Remembered - 1);
            Array.Copy(_ended, 0, _ended, 1, keep);
            _ended[0] = (time, _parts);
            _endedCount = keep + 1;
            if (draft.TellsFix)
            {
                (Instant utc, DateOrigin origin, TimeSpan off, TimeSpan sentOff) =
                    _dates.Resolve(time, DateOf(draft), draft.Heard);
                _done(draft.ToFix(source, utc, origin) with { DateSentOff = sentOff }, off);
            }
        }

        draft.Clear();
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    /// <param name="to">Takes its epochs.</param>
    public EpochJoiner Copy(Action<Fix, TimeSpan> to)
    {
        var copy = (EpochJoiner)MemberwiseClone();
        copy._done = to;
        copy._dates = _dates.Copy();
        copy._end = _end.Copy();
        copy._ended = [.. _ended];
        copy._open = _open.Copy();
        copy._next = _next.Copy();
        return copy;
    }
}
