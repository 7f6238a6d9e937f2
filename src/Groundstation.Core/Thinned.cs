using System.Collections.Immutable;

namespace Groundstation.Core;

/// <summary>
/// A history of bounded length for plots: when it is full, every second entry is dropped and from then on only every
/// second one is taken, and so on, so that a flight of any length keeps its whole shape in the same memory.
/// </summary>
/// <typeparam name="T">What is kept.</typeparam>
/// <param name="capacity">Most entries kept, ≥ 2.</param>
internal sealed class Thinned<T>(int capacity)
{
    private List<T> _kept = new(capacity);
    private int _stride = 1;
    private int _skipped;
    private ImmutableArray<T> _view = [];

    public void Add(T item)
    {
        if (++_skipped < _stride) return;
        _skipped = 0;
        if (_kept.Count == capacity)
        {
            for (int i = 1; i < capacity / 2; i++) _kept[i] = _kept[2 * i];
            _kept.RemoveRange(capacity / 2, _kept.Count - capacity / 2);
            _stride *= 2;
        }
        _kept.Add(item);
        _view = default;
    }

    public void Clear()
    {
        _kept.Clear();
        (_stride, _skipped, _view) = (1, 0, []);
    }

    /// <summary>What is kept now, oldest first; made anew only after a change.</summary>
    public ImmutableArray<T> View => _view.IsDefault ? _view = [.. _kept] : _view;

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public Thinned<T> Copy()
    {
        var copy = (Thinned<T>)MemberwiseClone();
        copy._kept = new List<T>(capacity);
        copy._kept.AddRange(_kept);
        return copy;
    }
}
