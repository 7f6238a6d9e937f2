using Groundstation.Core.Sentences;

namespace Groundstation.Core.Fixes;

/// <summary>
/// Learns which sentence ends a receiver's burst: the one that ended several epochs in a row. Waiting for the next UTC
/// instead would make every fix one period old. Forgotten when sentences keep coming late for epochs it ended.
/// </summary>
internal sealed class EndOfBurst(int agreeing)
{
    private const int LateEpochs = 2;

    private List<int> _seen = new(32);
    private int _newest;
    private int _candidate;
    private int _agreed;
    private int _learnt;
    private bool _late;
    private int _lateInARow;

    /// <summary>A sentence has come.</summary>
    public void Note(ReadOnlySpan<byte> address, Part part)
    {
        // Several GSA of one talker come in an epoch: which one it is counts.
        int talker = address.Length < 2 ? 0 : address[0] << 8 | address[1];
        int kind = (talker << 8) | ((int)part << 4);
        int ordinal = 1;
        foreach (int seen in _seen)
        {
            if ((seen & ~0xF) == kind)
                ordinal++;
        }

        _newest = kind | Math.Min(ordinal, 15);
        if (_seen.Count < 32)
            _seen.Add(_newest);
    }

    /// <summary>A sentence has come whose epoch had ended already.</summary>
    public void NoteLate() => _late = true;

    /// <summary>True when the sentence noted last is the one that ends a burst.</summary>
    public bool IsLast => _learnt != 0 && _newest == _learnt;

    /// <summary>The epoch has ended, in whichever way.</summary>
    public void Epoch()
    {
        _lateInARow = _late ? _lateInARow + 1 : 0;
        _late = false;
        _agreed = _newest == _candidate ? _agreed + 1 : 1;
        _candidate = _newest;
        if (_lateInARow >= LateEpochs)
            (_learnt, _agreed, _lateInARow) = (0, 0, 0);
        else if (_agreed >= agreeing)
            _learnt = _candidate;
        _seen.Clear();
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public EndOfBurst Copy()
    {
        var copy = (EndOfBurst)MemberwiseClone();
        copy._seen = [.. _seen];
        return copy;
    }
}
