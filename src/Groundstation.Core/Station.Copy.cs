using Groundstation.Core.Fixes;

namespace Groundstation.Core;

/// <summary>
/// A station can be copied at any moment: a replay keeps copies, so that it can go back without beginning anew.
/// </summary>
public sealed partial class Station
{
    /// <summary>
    /// A station that stands where this one stands and goes its own way from here: the two share nothing that
    /// changes, so that each may run on a thread of its own. Every class that holds state has a <c>Copy</c>; a test
    /// looks through all fields for one that was forgotten.
    /// </summary>
    /// <param name="log">Takes the rows of the copy.</param>
    public Station Copy(IFlightLog log)
    {
        var copy = (Station)MemberwiseClone();
        copy._log = log;
        copy._clock = _clock.Copy();
        copy._sources = [.. _sources.Select(s => s.Copy(copy.Completed))];
        copy._epochs = _epochs.Copy(copy.Epoch);
        copy._flight = _flight.Copy();
        copy._flight.Winds.LayerDone = copy.Log;
        copy._estimator = _estimator.Copy();
        copy._alarms = _alarms.Copy();
        copy._keepOuts = _keepOuts.Copy();
        copy._chaseWay = _chaseWay.Copy();
        (copy._ascent, copy._hostOffset) = (_ascent.Copy(), _hostOffset.Copy());
        copy._callouts = _callouts.Copy();
        copy._track = _track.Copy();
        copy._history = _history.Copy();
        copy._refused = new Queue<Fix>(_refused);
        copy._events = new Queue<EventLine>(_events);
        copy._links = [.. _links];
        copy._confirmed = new SortedSet<string>(_confirmed, _confirmed.Comparer);
        return copy;
    }

    /// <summary>
    /// Takes about half the memory until it is used again, and is then the same to the last bit. For copies that are only
    /// kept: each use makes it large again, a copy of it does not.
    /// </summary>
    public void Pack() => _flight.Winds.Pack();
}
