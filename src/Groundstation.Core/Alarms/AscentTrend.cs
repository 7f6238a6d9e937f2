using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Alarms;

/// <summary>
/// How the ascent rate goes over minutes: its mean over the last three against the best mean over three so far. A balloon
/// that leaks climbs ever more slowly; draughts pass within a minute, and the rate of a sound balloon wanders by about a
/// third over a whole flight (soundings: 4.3 to 6.2 m/s over ten minutes).
/// </summary>
public sealed class AscentTrend
{
    private const double BlockS = 60, LongestGapS = 180;
    private const int Blocks = 3;

    private Queue<double> _rates = new();
    private (Instant Utc, double HeightM)? _start;
    private Instant? _last;

    /// <summary>Mean rate over the last three minutes, m/s; null until there are three.</summary>
    public double? NowMps { get; private set; }

    /// <summary>The best of these so far, m/s.</summary>
    public double? BestMps { get; private set; }

    /// <summary>Share of the best rate that has been lost, 0–1; null until it is known.</summary>
    public double? LostShare => NowMps is { } now && BestMps is > 0 and var best ? Math.Max(0, 1 - now / best) : null;

    /// <summary>Takes a believed fix and the phase it left the flight in.</summary>
    public void Take(Fix fix, Phase phase)
    {
        if (phase != Phase.Ascent || fix.Height is not { } height)
        {
            _rates.Clear();
            (_start, _last, NowMps, BestMps) = (null, null, null, null);
            return;
        }
        // Over a gap nothing says that it climbed all the time.
        if (_last is { } last && fix.Utc.SecondsSince(last) is > LongestGapS or < 0) _start = null;
        _last = fix.Utc;
        _start ??= (fix.Utc, height.Metres);
        double seconds = fix.Utc.SecondsSince(_start.Value.Utc);
        if (seconds < BlockS) return;
        if (_rates.Count == Blocks) _rates.Dequeue();
        _rates.Enqueue((height.Metres - _start.Value.HeightM) / seconds);
        _start = (fix.Utc, height.Metres);
        if (_rates.Count < Blocks) return;
        NowMps = _rates.Average();
        BestMps = Math.Max(BestMps ?? 0, NowMps.Value);
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal AscentTrend Copy()
    {
        var copy = (AscentTrend)MemberwiseClone();
        copy._rates = new Queue<double>(_rates);
        return copy;
    }
}
