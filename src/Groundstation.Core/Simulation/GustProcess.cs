using Groundstation.Core.Air;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Simulation;

/// <summary>
/// Gusts as the payload meets them: three independent Ornstein-Uhlenbeck processes of unit variance, scaled by the
/// height above ground. Mutable; belongs to one flight.
/// </summary>
internal sealed class GustProcess(SimulatedAir air, double groundM, SeededRandom random)
{
    private readonly bool _calm = air.GustSurfaceMps <= 0 && air.GustAloftMps <= 0;
    private double _east, _north, _up, _forStepS, _keep, _add;

    /// <summary>Goes on by a time step and gives the gust at a height: horizontal, and upward in m/s.</summary>
    public (WindVector Horizontal, double UpMps) Advance(double stepS, double heightM)
    {
        if (_calm)
            return default;
        if (stepS != _forStepS)
        {
            _forStepS = stepS;
            _keep = Math.Exp(-stepS / air.GustS);
            _add = Math.Sqrt(1 - _keep * _keep);
        }

        _east = _keep * _east + _add * random.NextGaussian();
        _north = _keep * _north + _add * random.NextGaussian();
        _up = _keep * _up + _add * random.NextGaussian();
        double fade = Math.Exp(-Math.Max(0, heightM - groundM) / air.GustDepthM);
        double sigma = air.GustAloftMps + (air.GustSurfaceMps - air.GustAloftMps) * fade;
        // The ground stops vertical motion: its share grows over the lowest 100 m.
        double upShare = air.GustVerticalShare * Math.Clamp((heightM - groundM) / 100, 0, 1);
        return (new(sigma * _east, sigma * _north), sigma * upShare * _up);
    }
}
