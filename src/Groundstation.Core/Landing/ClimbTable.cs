using Groundstation.Core.Flight;

namespace Groundstation.Core.Landing;

/// <summary>A climb at a steady rate through a wind column: seconds, metres east and north from the start up to each level.</summary>
internal sealed class ClimbTable
{
    private double[] _seconds = new double[Levels.Count];
    private double[] _east = new double[Levels.Count];
    private double[] _north = new double[Levels.Count];
    private int _first;

    public double StartM { get; private set; }

    public void Fill(double startM, double rateMps, ReadOnlySpan<double> windEast, ReadOnlySpan<double> windNorth)
    {
        StartM = startM;
        _first = Levels.Below(startM) + 1;
        double z = startM, seconds = 0, east = 0, north = 0;
        for (int level = _first; level < Levels.Count; level++)
        {
            double high = Levels.HeightM(level), middle = (z + high) / 2, dt = Math.Max(high - z, 0) / rateMps;
            seconds += dt;
            east += Levels.At(windEast, middle) * dt;
            north += Levels.At(windNorth, middle) * dt;
            (_seconds[level], _east[level], _north[level]) = (seconds, east, north);
            z = high;
        }
    }

    /// <summary>Seconds, metres east and metres north from the start up to a height.</summary>
    public (double Seconds, double EastM, double NorthM) At(double heightM)
    {
        int level = Levels.Below(heightM) + 1;
        double high = Math.Clamp((heightM - Levels.HeightM(level - 1)) / Levels.StepM, 0, 1), low = 1 - high;
        if (level <= _first)
        {
            double span = Levels.HeightM(_first) - StartM;
            double f = span > 0 ? Math.Clamp((heightM - StartM) / span, 0, 1) : 0;
            return (f * _seconds[_first], f * _east[_first], f * _north[_first]);
        }
        return (low * _seconds[level - 1] + high * _seconds[level], low * _east[level - 1] + high * _east[level],
            low * _north[level - 1] + high * _north[level]);
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public ClimbTable Copy()
    {
        var copy = (ClimbTable)MemberwiseClone();
        copy._seconds = [.. _seconds];
        copy._east = [.. _east];
        copy._north = [.. _north];
        return copy;
    }
}
