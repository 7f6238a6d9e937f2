using Groundstation.Core.Fixes;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Flight;

/// <summary>
/// The heights and places of the last two minutes or so, thinned to two a second: what phases and rates are read from.
/// A ring of fixed size.
/// </summary>
internal sealed class FixWindow
{
    private const int Capacity = 320;
    private const double ThinS = 0.45;

    private Fix?[] _ring = new Fix?[Capacity];
    private int _next, _count;

    public int Count => _count;

    /// <summary>The newest is 0.</summary>
    public Fix this[int age] => _ring[(_next - 1 - age + 2 * Capacity) % Capacity]!;

    public void Clear() => _count = 0;

    public void Add(Fix fix)
    {
        // A fix that follows the one before last too closely takes the last one's place: the newest is always in.
        if (_count >= 2 && fix.Utc.SecondsSince(this[1].Utc) < 2 * ThinS)
        {
            _ring[(_next - 1 + Capacity) % Capacity] = fix;
            return;
        }
        _ring[_next] = fix;
        _next = (_next + 1) % Capacity;
        _count = Math.Min(_count + 1, Capacity);
    }

    /// <summary>How many fixes lie within the last seconds, the newest included.</summary>
    public int Within(double seconds)
    {
        int n = 0;
        while (n < _count && this[0].Utc.SecondsSince(this[n].Utc) <= seconds) n++;
        return n;
    }

    /// <summary>Slope of height over time by least squares over the last seconds, m/s; null with fewer than two fixes.</summary>
    public double? Rate(double seconds)
    {
        int n = Math.Min(Math.Max(Within(seconds), 2), _count);
        if (n < 2) return null;
        Instant now = this[0].Utc;
        double t = 0, h = 0, tt = 0, th = 0;
        for (int i = 0; i < n; i++)
        {
            double x = this[i].Utc.SecondsSince(now), y = this[i].Height!.Value.Metres - this[0].Height!.Value.Metres;
            (t, h, tt, th) = (t + x, h + y, tt + x * x, th + x * y);
        }
        double spread = n * tt - t * t;
        return spread > 1e-9 ? (n * th - t * h) / spread : null;
    }

    /// <summary>Mean height over the last seconds, metres above mean sea level.</summary>
    public double MeanHeightM(double seconds)
    {
        int n = Within(seconds);
        double sum = 0;
        for (int i = 0; i < n; i++) sum += this[i].Height!.Value.Metres;
        return sum / n;
    }

    /// <summary>
    /// The last seconds cut into four equal parts: mean height of each, oldest first. False unless each holds a fix.
    /// </summary>
    public bool Quarters(double seconds, Span<double> means)
    {
        Span<int> counts = stackalloc int[4];
        counts.Clear();
        means.Clear();
        Instant now = this[0].Utc;
        for (int i = 0; i < _count; i++)
        {
            double ago = now.SecondsSince(this[i].Utc);
            if (ago >= seconds) break;
            int quarter = 3 - (int)(ago / seconds * 4);
            means[quarter] += this[i].Height!.Value.Metres;
            counts[quarter]++;
        }
        for (int i = 0; i < 4; i++)
        {
            if (counts[i] == 0) return false;
            means[i] /= counts[i];
        }
        return true;
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public FixWindow Copy()
    {
        var copy = (FixWindow)MemberwiseClone();
        copy._ring = [.. _ring];
        return copy;
    }
}
