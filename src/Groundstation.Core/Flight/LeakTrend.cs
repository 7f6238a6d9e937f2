namespace Groundstation.Core.Flight;

/// <summary>
/// A descent that began gently, without a burst: a balloon that lost gas still carries a part of the payload, and falls
/// faster as it loses more, until the canopy carries alone. A rate that is held constant would put the landing far too
/// late and too far. How fast gas is lost is not known beforehand; the growth of the rate so far tells it.
/// </summary>
/// <param name="canopyMps">Rate at sea level under the canopy alone, by the plan, m/s.</param>
internal sealed class LeakTrend(double canopyMps)
{
    /// <summary>A burst payload falls faster than under its canopy at first; half of that is a balloon that still carries.</summary>
    private const double GentleShare = 0.5;

    // Before the growth is measured: from nothing to the canopy's rate in a quarter of an hour, give or take as much. An
    // assumption: no published figures are known to us.
    private const double EmptyS = 900;

    // Draughts of 0.5 m/s that last 40 s: of anchors closer than that together only one counts.
    private const double DraughtMps = 0.5, DraughtS = 40;

    // The growth is that of the last some minutes: leaks widen, and close when the balloon is slack.
    private const double MemoryS = 240;

    private bool? _gentle;
    private double _time, _weight, _t, _tt, _r, _tr;

    /// <summary>True when this descent began gently and the canopy does not carry alone yet.</summary>
    public bool Holds => _gentle == true && RateMps < 0.95 * canopyMps;

    /// <summary>Rate now, at sea level in the 1976 atmosphere, m/s.</summary>
    public double RateMps => _weight > 0 ? Math.Max(0.1, _r / _weight + Slope() * (_time - _t / _weight)) : canopyMps;

    /// <summary>
    /// Variance that a rate measured earlier takes up over these seconds, as ln(rate): the growth of a minute, give or take
    /// as much; 0 under a canopy alone.
    /// </summary>
    public double Loosened(double seconds)
    {
        double minute = Holds ? 60 * Slope() / RateMps : 0;
        return minute * minute * seconds / 60;
    }

    /// <summary>A new descent.</summary>
    public void Restart()
    {
        _gentle = null;
        (_time, _weight, _t, _tt, _r, _tr) = (0, 0, 0, 0, 0, 0);
    }

    /// <summary>The next rate of the descent, at sea level in the 1976 atmosphere, over the seconds up to now.</summary>
    public void Take(double seaLevelMps, double seconds)
    {
        _gentle ??= seaLevelMps < GentleShare * canopyMps;
        if (_gentle == false) return;
        double keep = Math.Exp(-seconds / MemoryS);
        _time += seconds;
        (_weight, _t, _tt, _r, _tr) = (_weight * keep, _t * keep, _tt * keep, _r * keep, _tr * keep);
        double middle = _time - seconds / 2, share = Math.Min(1, seconds / DraughtS);
        _weight += share;
        _t += share * middle;
        _tt += share * middle * middle;
        _r += share * seaLevelMps;
        _tr += share * middle * seaLevelMps;
    }

    /// <summary>Rate at sea level this many seconds from now, m/s.</summary>
    public double RateIn(double seconds)
    {
        double now = RateMps;
        return Math.Max(now, Math.Min(now + Slope() * seconds, canopyMps));
    }

    // Growth of the rate, m/s²: what was measured and what was assumed, weighted by how sure either is; gas does not come back.
    private double Slope()
    {
        double assumed = canopyMps / EmptyS, sure = 1 / (assumed * assumed);
        double spread = _weight > 0 ? Math.Max(_tt - _t * _t / _weight, 0) : 0;
        double told = spread / (DraughtMps * DraughtMps);
        double measured = spread > 0 ? (_tr - _t * _r / _weight) / spread : 0;
        return Math.Max(0, (sure * assumed + told * measured) / (sure + told));
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public LeakTrend Copy() => (LeakTrend)MemberwiseClone();
}
