using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Simulation;

/// <summary>Where the payload truly is.</summary>
/// <param name="TimeS">Time after launch, s; negative on the pad.</param>
/// <param name="Position">Place.</param>
/// <param name="Height">Height.</param>
/// <param name="VerticalRateMps">Vertical rate, m/s, up positive.</param>
/// <param name="Wind">Air's horizontal motion there with gusts, which is also the payload's while it flies.</param>
/// <param name="Phase">Phase.</param>
public readonly record struct TrueState(double TimeS, GeoPoint Position, HeightMsl Height, double VerticalRateMps,
    WindVector Wind, Phase Phase);

/// <summary>
/// The flight itself, without receiver or radio. Up: the balloon's rate. Down: the full equation of motion
/// m·z″ = −m·g(z) − ½·ρ(z)·CdS·w·|w|, w being the motion through the air, by the classical fourth-order Runge-Kutta
/// method. Sideways: exactly with the wind. Mutable, deterministic.
/// </summary>
public sealed class TrueFlight
{
    // A canopy at 2 m/s settles at 2g/v ≈ 10 per second: the step must stay well below 2.8 of that for stability.
    private const double LongestStepS = 0.1;

    private readonly Scenario _scenario;
    private readonly WindField _wind;
    private readonly GustProcess _gusts;
    private readonly DensityTable _density;
    private double _t, _z, _v, _gustUp, _floatingSinceS = double.NaN, _leakingSinceS = double.NaN;
    private GeoPoint _position;
    private WindVector _air;
    private Phase _phase = Phase.Pad;
    private bool _released, _tangled;

    /// <summary>A flight standing on its pad.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="density">Density to fly through in place of the scenario's, such as a sounding's.</param>
    public TrueFlight(Scenario scenario, DensityTable? density = null)
    {
        _scenario = scenario;
        _t = -scenario.PadS;
        _z = scenario.LaunchHeight.Metres;
        _position = scenario.LaunchSite;
        double bottom = Math.Min(_z, scenario.LandingGround.Metres);
        Profile = new AtmosphereProfile(scenario.Air.TemperatureOffsetK, scenario.Air.SeaLevelPressurePa);
        _density = density ?? new DensityTable(Profile);
        _wind = new WindField(scenario.Air, bottom, Math.Max(_z, scenario.Balloon.BurstHeight.Metres) + 1000, _t,
            new SeededRandom(scenario.Seed, 1));
        _gusts = new GustProcess(scenario.Air, bottom, new SeededRandom(scenario.Seed, 2));
        _air = _wind.At(_z, _t);
    }

    /// <summary>The air it flies through.</summary>
    public AtmosphereProfile Profile { get; }

    /// <summary>Where it is now.</summary>
    public TrueState Now => new(_t, _position, new(_z), _v, _air, _phase);

    /// <summary>Where the payload parted from the balloon, or the balloon began to sink; null before.</summary>
    public TrueState? Burst { get; private set; }

    /// <summary>Where it came down, with its speed just before; null before.</summary>
    public TrueState? Landing { get; private set; }

    /// <summary>Goes on by a time, in equal steps of at most 0.1 s.</summary>
    public void Advance(double seconds)
    {
        int steps = Math.Max(1, (int)Math.Ceiling(seconds / LongestStepS - 1e-9));
        double step = seconds / steps, start = _t;
        for (int i = 1; i <= steps; i++)
        {
            Step(step);
            // Not summed up: after ten thousand steps a time of day must still be a whole number of epochs.
            _t = start + i * step;
        }
    }

    /// <summary>Flies to the ground and gives the landing.</summary>
    public TrueState FlyToGround()
    {
        while (Landing is null)
            Advance(1);
        return Landing.Value;
    }

    private void Step(double dt)
    {
        if (_phase == Phase.Landed)
            return;
        // A hair early counts as launch: times are sums of binary fractions.
        if (_phase == Phase.Pad && _t < -1e-6)
            return;
        if (_phase == Phase.Pad)
            Launch();

        double z0 = _z, v0 = _v;
        WindVector air0 = _air;
        if (_released)
            Fall(dt);
        else
            Climb(dt);
        (WindVector gust, _gustUp) = _gusts.Advance(dt, _z);
        WindVector mean = _wind.At(_z, _t + dt);
        _air = new(mean.EastMps + gust.EastMps, mean.NorthMps + gust.NorthMps);

        double ground = _scenario.LandingGround.Metres, part = 1;
        bool landed = _z <= ground && _v < 0 && (z0 > ground || _phase == Phase.Descent);
        if (landed)
            part = z0 > _z ? Math.Clamp((z0 - ground) / (z0 - _z), 0, 1) : 0;
        _position = LocalFrame.Move(_position, (air0.EastMps + _air.EastMps) / 2 * dt * part,
            (air0.NorthMps + _air.NorthMps) / 2 * dt * part, (z0 + _z) / 2);
        if (landed)
        {
            _z = ground;
            Landing = new(_t + dt * part, _position, new(ground), v0 + (_v - v0) * part, _air, Phase.Landed);
            (_v, _air, _phase) = (0, default, Phase.Landed);
        }
    }

    private void Launch()
    {
        _phase = Phase.Ascent;
        _air = _wind.At(_z, _t);
        if (_z >= _scenario.Balloon.BurstHeight.Metres)
            Release();
    }

    private void Release()
    {
        _released = true;
        _phase = Phase.Descent;
        Burst ??= Now;
    }

    private void Climb(double dt)
    {
        SimulatedBalloon balloon = _scenario.Balloon;
        double rate = balloon.AscentRateMps;
        if (balloon.AscentExponent != 0)
        {
            rate *= Math.Pow(StandardAtmosphere.SeaLevelDensityKgM3 / _density.DensityKgM3(_z),
                balloon.AscentExponent);
        }

        if (balloon.LeakHeight is { } leak && (_z >= leak.Metres || _leakingSinceS is not double.NaN))
        {
            _leakingSinceS = double.IsNaN(_leakingSinceS) ? _t : _leakingSinceS;
            rate -= balloon.LeakMpsPerMin * (_t - _leakingSinceS) / 60;
            // Empty, it comes down no faster than under the canopy alone.
            rate = Math.Max(rate, -_scenario.Parachute.SeaLevelRateMps * _density.FallFactor(_z));
        }

        if (balloon.FloatHeight is { } level)
            rate = Math.Min(rate, (level.Metres - _z) / 60);

        // A balloon takes up the air's vertical motion within about a second.
        double v0 = _v;
        _v += (rate + _gustUp - _v) * (1 - Math.Exp(-dt));
        _z += (v0 + _v) / 2 * dt;
        Judge(rate, balloon);
    }

    private void Judge(double rate, SimulatedBalloon balloon)
    {
        if (rate < -0.5)
            Burst ??= Now;
        _phase = rate > 0.5 ? Phase.Ascent : rate < -0.5 ? Phase.Descent : Phase.Float;
        if (balloon.FloatHeight is not null && _phase == Phase.Float && double.IsNaN(_floatingSinceS))
            _floatingSinceS = _t;
        if (_z >= balloon.BurstHeight.Metres || _t >= balloon.CutDownS || _t - _floatingSinceS >= balloon.FloatS)
            Release();
    }

    private void Fall(double dt)
    {
        SimulatedParachute canopy = _scenario.Parachute;
        _tangled |= _z <= canopy.TangledHeight?.Metres;
        double area = canopy.DragAreaM2 * (_tangled ? canopy.TangledShare : 1);
        double half = 0.5 * area / canopy.MassKg, up = _gustUp;
        double k1 = Acceleration(_z, _v);
        double v2 = _v + k1 * dt / 2, k2 = Acceleration(_z + _v * dt / 2, v2);
        double v3 = _v + k2 * dt / 2, k3 = Acceleration(_z + v2 * dt / 2, v3);
        double v4 = _v + k3 * dt, k4 = Acceleration(_z + v3 * dt, v4);
        _z += dt / 6 * (_v + 2 * v2 + 2 * v3 + v4);
        _v += dt / 6 * (k1 + 2 * k2 + 2 * k3 + k4);

        double Acceleration(double z, double v)
        {
            double w = v - up;
            return -AtmosphereProfile.Gravity(z) - half * _density.DensityKgM3(z) * w * Math.Abs(w);
        }
    }
}
