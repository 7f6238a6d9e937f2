using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Simulation;

/// <summary>Whether an epoch reaches the laptop.</summary>
public enum Reception
{
    /// <summary>It does.</summary>
    Heard,

    /// <summary>Lost near the ground.</summary>
    Faded,

    /// <summary>The tracker is silent.</summary>
    Silent,

    /// <summary>The laptop has no link to its radio.</summary>
    NoLink,
}

/// <summary>One epoch of the receiver: the truth, and what is made of it.</summary>
/// <param name="Truth">The truth.</param>
/// <param name="Receiver">What the receiver gives.</param>
/// <param name="Sensors">What the sensors give; null when no reading was due.</param>
/// <param name="Reception">Whether it reaches the laptop.</param>
/// <param name="InView">Satellites in view; valid until the next epoch.</param>
public readonly record struct SimulatedEpoch(TrueState Truth, ReceiverEpoch Receiver, SensorReading? Sensors,
    Reception Reception, IReadOnlyList<SkySatellite> InView);

/// <summary>
/// Runs a scenario epoch by epoch, from the pad to after the landing. The same scenario gives the same epochs; sine,
/// exponential and logarithm can differ in their last bit from platform to platform, far below a printed digit.
/// </summary>
public sealed class FlightSimulator
{
    private readonly Scenario _scenario;
    private readonly TrueFlight _flight;

    private FlightSimulator(Scenario scenario)
    {
        _scenario = scenario;
        _flight = new TrueFlight(scenario);
    }

    /// <summary>A flight at its start.</summary>
    public static FlightSimulator Start(Scenario scenario) => new(scenario);

    /// <summary>All epochs of a scenario.</summary>
    public static IEnumerable<SimulatedEpoch> Run(Scenario scenario) => Start(scenario).Epochs();

    /// <summary>The flight's truth; its burst and landing are known once the epochs have passed them.</summary>
    public TrueFlight Flight => _flight;

    /// <summary>The epochs, once.</summary>
    public IEnumerable<SimulatedEpoch> Epochs()
    {
        TrackerReceiver receiver = new(_scenario);
        PayloadSensors sensors = new(_scenario, _flight.Profile);
        RadioPath radio = new(_scenario);
        double rate = _scenario.Receiver.RateHz;
        long first = -(long)Math.Floor(_scenario.PadS * rate);
        // A scenario that never comes down, such as a float without end, is cut after a week.
        long last = (long)(7 * 86_400 * rate);
        for (long k = first; k <= last; k++)
        {
            double t = k / rate;
            if (t > _flight.Now.TimeS)
                _flight.Advance(t - _flight.Now.TimeS);
            TrueState truth = _flight.Now with { TimeS = t };
            Instant utc = _scenario.LaunchUtc.PlusSeconds(t);
            ReceiverEpoch epoch = receiver.Observe(truth, utc, _flight.Burst?.TimeS);
            yield return new(truth, epoch, sensors.Advance(truth), radio.Judge(truth), receiver.InView);
            if (truth.Phase == Phase.Landed && t >= _flight.Landing!.Value.TimeS + _scenario.AfterLandingS)
                yield break;
        }
    }
}
