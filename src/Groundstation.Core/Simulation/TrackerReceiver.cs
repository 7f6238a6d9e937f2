using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Simulation;

/// <summary>What the tracker's receiver makes of one epoch.</summary>
/// <param name="Utc">Time of the epoch.</param>
/// <param name="HasFix">False: no fix; the values below are then what it would hold.</param>
/// <param name="Position">Place with errors and swing.</param>
/// <param name="Height">Height with error.</param>
/// <param name="Velocity">Motion over ground with error and swing.</param>
/// <param name="Satellites">Satellites used.</param>
/// <param name="Hdop">Horizontal dilution of precision.</param>
/// <param name="Vdop">Vertical dilution of precision.</param>
public readonly record struct ReceiverEpoch(Instant Utc, bool HasFix, GeoPoint Position, HeightMsl Height,
    WindVector Velocity, int Satellites, double Hdop, double Vdop);

/// <summary>
/// The receiver: slow and quick errors, swing under the canopy, satellites, altitude limit with loss and return.
/// Mutable; belongs to one flight.
/// </summary>
internal sealed class TrackerReceiver
{
    private const double SkyEveryS = 5;

    private readonly SimulatedReceiver _set;
    private readonly Scenario _scenario;
    private readonly SeededRandom _random;
    private readonly SatelliteSky _sky;
    private readonly double _keep, _add;
    private double _east, _north, _up, _skyDueS = double.NegativeInfinity, _belowSinceS = double.NegativeInfinity;
    private Pendulum _swingEast, _swingNorth;
    private bool _above;

    public TrackerReceiver(Scenario scenario)
    {
        _scenario = scenario;
        _set = scenario.Receiver;
        _random = new SeededRandom(scenario.Seed, 3);
        _sky = new SatelliteSky(_set, new SeededRandom(scenario.Seed, 4));
        _keep = Math.Exp(-1 / (_set.RateHz * _set.CorrelationS));
        _add = Math.Sqrt(1 - _keep * _keep);
        (_east, _north, _up) = (_random.NextGaussian(), _random.NextGaussian(), _random.NextGaussian());
    }

    /// <summary>Satellites in view at the newest epoch.</summary>
    public IReadOnlyList<SkySatellite> InView => _sky.InView;

    /// <summary>One epoch.</summary>
    /// <param name="truth">Where it is.</param>
    /// <param name="utc">The epoch's time.</param>
    /// <param name="releasedS">Time after launch at which the payload was let go; null before.</param>
    public ReceiverEpoch Observe(in TrueState truth, Instant utc, double? releasedS)
    {
        double sinceRelease = truth.TimeS - (releasedS ?? double.NegativeInfinity);
        if (truth.TimeS >= _skyDueS || sinceRelease is > 0 and < 30)
        {
            double loss = sinceRelease is >= 0 and < 120 ? _set.TumbleLossDb * Math.Exp(-sinceRelease / 15) : 0;
            _sky.Look(truth.Position, truth.Height.Metres, utc, loss);
            _skyDueS = truth.TimeS + SkyEveryS - 1e-6;
        }

        _east = _keep * _east + _add * _random.NextGaussian();
        _north = _keep * _north + _add * _random.NextGaussian();
        _up = _keep * _up + _add * _random.NextGaussian();
        double line = _scenario.Parachute.LineM, dt = 1 / _set.RateHz;
        double rms = truth.Phase switch
        {
            Phase.Ascent or Phase.Float => _scenario.Balloon.SwingDeg,
            Phase.Descent => _scenario.Parachute.SwingDeg,
            _ => 0,
        };
        double reach = line * Math.Sin(rms * Math.PI / 180);
        _swingEast.Advance(dt, line, _random);
        _swingNorth.Advance(dt, line, _random);

        double e = _set.HorizontalSigmaM * _east + _set.JitterM * _random.NextGaussian() + reach * _swingEast.Place;
        double n = _set.HorizontalSigmaM * _north + _set.JitterM * _random.NextGaussian() + reach * _swingNorth.Place;
        double h = _set.VerticalSigmaM * _up + _set.JitterM * _random.NextGaussian();
        foreach (Outlier off in _set.Outliers)
        {
            if (truth.TimeS >= off.FromS && truth.TimeS < off.FromS + off.ForS)
                (e, n, h) = (e + off.EastM, n + off.NorthM, h + off.UpM);
        }

        WindVector over = truth.Phase is Phase.Pad or Phase.Landed ? default : truth.Wind;
        WindVector velocity = new(
            over.EastMps + reach * _swingEast.Rate + _set.SpeedSigmaMps * _random.NextGaussian(),
            over.NorthMps + reach * _swingNorth.Rate + _set.SpeedSigmaMps * _random.NextGaussian());
        (double hdop, double vdop) = _sky.Dilution ?? (99, 99);
        return new(utc, _sky.Dilution is not null && WithinLimit(truth),
            LocalFrame.Move(truth.Position, e, n, truth.Height.Metres), new(truth.Height.Metres + h), velocity,
            _sky.UsedCount, hdop, vdop);
    }

    // Lost at once above the limit; below it again, it takes its time.
    private bool WithinLimit(in TrueState truth)
    {
        if (_set.AltitudeLimit is not { } limit)
            return true;
        if (truth.Height.Metres > limit.Metres)
        {
            _above = true;
            return false;
        }

        if (_above)
            (_above, _belowSinceS) = (false, truth.TimeS);
        return truth.TimeS - _belowSinceS >= _set.RegainS;
    }

    /// <summary>
    /// A pendulum driven at random: a complex Ornstein-Uhlenbeck process, exact for any time step. Place and rate are
    /// those of unit rms; period 2π·√(L/g), memory three periods.
    /// </summary>
    private struct Pendulum
    {
        private double _re, _im;
        private double _omega;

        public readonly double Place => _re;

        public readonly double Rate => -_omega * _im;

        public void Advance(double dt, double lineM, SeededRandom random)
        {
            _omega = Math.Sqrt(AtmosphereProfile.StandardGravity / lineM);
            double keep = Math.Exp(-dt * _omega / (6 * Math.PI)), add = Math.Sqrt(1 - keep * keep);
            (double sin, double cos) = Math.SinCos(_omega * dt);
            (_re, _im) = (keep * (_re * cos - _im * sin) + add * random.NextGaussian(),
                keep * (_re * sin + _im * cos) + add * random.NextGaussian());
        }
    }
}
