using Groundstation.Core.Air;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Simulation;

/// <summary>One reading of the payload's sensors.</summary>
/// <param name="PressurePa">Air pressure, Pa.</param>
/// <param name="OutsideC">Air temperature, °C.</param>
/// <param name="InsideC">Temperature in the box, °C.</param>
/// <param name="BatteryV">Battery, V.</param>
public readonly record struct SensorReading(double PressurePa, double OutsideC, double InsideC, double BatteryV);

/// <summary>The sensors: a lagging thermometer, a box that cools down, a battery that feels it. Mutable.</summary>
internal sealed class PayloadSensors(Scenario scenario, AtmosphereProfile air)
{
    private readonly SimulatedSensors _set = scenario.Sensors;
    private readonly SeededRandom _random = new(scenario.Seed, 5);
    private double _outsideC, _insideC, _lastS = double.NaN, _dueS = double.NegativeInfinity;

    /// <summary>Goes on to an epoch; a reading when one is due.</summary>
    public SensorReading? Advance(in TrueState truth)
    {
        if (_set.EveryS <= 0)
            return null;
        double airC = air.TemperatureK(truth.Height.Metres) - 273.15;
        if (double.IsNaN(_lastS))
            (_outsideC, _insideC) = (airC, airC + Math.Min(_set.HeatingK, 8));
        else
            Follow(airC, truth.TimeS - _lastS);
        _lastS = truth.TimeS;
        if (truth.TimeS < _dueS)
            return null;
        _dueS = truth.TimeS + _set.EveryS - 1e-6;
        double hours = (truth.TimeS + scenario.PadS) / 3600;
        double battery = _set.BatteryV - _set.BatteryDropVPerHour * hours
            - _set.BatteryDropVPerK * Math.Max(0, 20 - _insideC) + 0.005 * _random.NextGaussian();
        return new(
            air.PressurePa(truth.Height.Metres) + _set.PressureBiasPa + _set.PressureSigmaPa * _random.NextGaussian(),
            _outsideC + _set.TemperatureSigmaK * _random.NextGaussian(),
            _insideC + _set.TemperatureSigmaK * _random.NextGaussian(), battery);
    }

    private void Follow(double airC, double seconds)
    {
        _outsideC += (airC - _outsideC) * (1 - Math.Exp(-seconds / _set.OutsideLagS));
        _insideC += (_outsideC + _set.HeatingK - _insideC) * (1 - Math.Exp(-seconds / _set.BoxLagS));
    }
}
