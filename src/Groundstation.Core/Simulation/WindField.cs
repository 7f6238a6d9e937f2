using Groundstation.Core.Air;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Simulation;

/// <summary>
/// The true wind at a height and a time: the scenario's levels, and a slow random change. Time must not go back by more
/// than <see cref="StepS"/>. Mutable; belongs to one flight.
/// </summary>
public sealed class WindField
{
    /// <summary>Grid of the change in time, s, and in height, m: well below its correlation lengths.</summary>
    private const double StepS = 60, StepM = 250;

    private readonly double[] _heights, _east, _north;
    private readonly SimulatedAir _air;
    private readonly SeededRandom _random;
    private readonly double _bottomM;
    private readonly int _nodes;

    // The change at the two grid times around now; east and north of node i at 2i and 2i + 1.
    private double[] _before = [], _after = [];
    private double _beforeS;
    private int _level;

    /// <summary>The wind of a flight.</summary>
    /// <param name="air">The scenario's air.</param>
    /// <param name="bottomM">Lowest height of the flight above mean sea level, m.</param>
    /// <param name="topM">Highest, m.</param>
    /// <param name="startS">Earliest time, s after launch.</param>
    /// <param name="random">Stream of the change's draws.</param>
    public WindField(SimulatedAir air, double bottomM, double topM, double startS, SeededRandom random)
    {
        _air = air;
        _random = random;
        _heights = [.. air.Winds.Select(w => w.Height.Metres)];
        _east = [.. air.Winds.Select(w => w.Wind.EastMps)];
        _north = [.. air.Winds.Select(w => w.Wind.NorthMps)];
        for (int i = 1; i < _heights.Length; i++)
        {
            if (_heights[i] <= _heights[i - 1])
                throw new ArgumentException("wind levels must be in rising order of height", nameof(air));
        }

        _bottomM = bottomM;
        _nodes = (int)Math.Ceiling(Math.Max(0, topM - bottomM) / StepM) + 2;
        _beforeS = startS;
        if (air.ChangeMps <= 0)
            return;
        _before = new double[2 * _nodes];
        _after = new double[2 * _nodes];
        Draw(_before);
        Next();
    }

    /// <summary>The wind, without gusts.</summary>
    /// <param name="heightM">Height above mean sea level, m.</param>
    /// <param name="timeS">Time after launch, s.</param>
    public WindVector At(double heightM, double timeS)
    {
        WindVector mean = Mean(heightM);
        if (_before.Length == 0)
            return mean;
        while (timeS > _beforeS + StepS)
        {
            _beforeS += StepS;
            (_before, _after) = (_after, _before);
            Next();
        }

        double t = Math.Clamp((timeS - _beforeS) / StepS, 0, 1);
        double x = Math.Clamp((heightM - _bottomM) / StepM, 0, _nodes - 1.001);
        int i = (int)x;
        double u = x - i;
        return new(mean.EastMps + Blend(2 * i), mean.NorthMps + Blend(2 * i + 1));

        double Blend(int k) => (1 - t) * ((1 - u) * _before[k] + u * _before[k + 2])
            + t * ((1 - u) * _after[k] + u * _after[k + 2]);
    }

    private WindVector Mean(double heightM)
    {
        int last = _heights.Length - 1;
        if (last < 0)
            return default;
        if (heightM <= _heights[0])
            return new(_east[0], _north[0]);
        if (heightM >= _heights[last])
            return new(_east[last], _north[last]);
        // The payload moves steadily through the levels: the one of last time, or a neighbour.
        while (heightM < _heights[_level])
            _level--;
        while (heightM >= _heights[_level + 1])
            _level++;
        double u = (heightM - _heights[_level]) / (_heights[_level + 1] - _heights[_level]);
        return new(_east[_level] + u * (_east[_level + 1] - _east[_level]),
            _north[_level] + u * (_north[_level + 1] - _north[_level]));
    }

    // One slice, correlated over height: exponential correlation is a first-order chain from node to node.
    private void Draw(double[] slice)
    {
        double keep = Math.Exp(-StepM / _air.ChangeHeightM), add = Math.Sqrt(1 - keep * keep);
        for (int i = 0; i < slice.Length; i++)
        {
            double fresh = _air.ChangeMps * _random.NextGaussian();
            slice[i] = i < 2 ? fresh : keep * slice[i - 2] + add * fresh;
        }
    }

    // And another from time to time.
    private void Next()
    {
        double keep = Math.Exp(-StepS / _air.ChangeS), add = Math.Sqrt(1 - keep * keep);
        Draw(_after);
        for (int i = 0; i < _after.Length; i++)
            _after[i] = keep * _before[i] + add * _after[i];
    }
}
