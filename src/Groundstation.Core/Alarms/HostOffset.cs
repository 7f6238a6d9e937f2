using Groundstation.Core.Fixes;

namespace Groundstation.Core.Alarms;

/// <summary>
/// How far the host's clock is ahead of the receiver's UTC: the least difference of the last ten believed fixes, because
/// a slow link only ever adds to it.
/// </summary>
internal sealed class HostOffset
{
    private const int Kept = 10;

    private Queue<double> _offsets = new();

    /// <summary>Host clock ahead of the receiver, s, negative when behind; null until ten fixes are believed.</summary>
    public double? AheadS => _offsets.Count == Kept ? _offsets.Min() : null;

    /// <summary>Takes a believed fix.</summary>
    public void Take(Fix fix)
    {
        if (_offsets.Count == Kept) _offsets.Dequeue();
        _offsets.Enqueue(fix.Heard.SecondsSince(fix.Utc));
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public HostOffset Copy()
    {
        var copy = (HostOffset)MemberwiseClone();
        copy._offsets = new Queue<double>(_offsets);
        return copy;
    }
}
