namespace Groundstation.Core.Fixes;

/// <summary>
/// What a balloon, a parachute and a receiver can do at most: the physics behind the gates of <see cref="Track"/>.
/// Each figure is a bound for real flights, not a fit to recordings.
/// </summary>
internal static class MotionLimits
{
    /// <summary>Gravity: nothing falls faster into its fall than this, m/s².</summary>
    public const double FallMps2 = 9.81;

    /// <summary>
    /// Upward acceleration, m/s²: a canopy that opens in a fast fall slows it with about three g. Only the rate that is
    /// reached is bounded otherwise, by <see cref="ClimbMps"/>.
    /// </summary>
    public const double ArrestMps2 = 30;

    /// <summary>Upward acceleration of a balloon that is not falling: the launch, at most a third of g, m/s².</summary>
    public const double LiftMps2 = 3;

    /// <summary>Fastest climb, m/s: an overfilled balloon (10) in an updraught (5).</summary>
    public const double ClimbMps = 15;

    /// <summary>Wind change by height crossed, 1/s: jet-stream and frontal shear seldom exceed 0.05.</summary>
    public const double ShearPerS = 0.06;

    /// <summary>Horizontal acceleration from launch, gusts and the payload's swing, m/s².</summary>
    public const double GustMps2 = 2;

    /// <summary>Swing under the balloon plus turbulence, m/s, in any fix's horizontal velocity.</summary>
    public const double SwingMps = 8;

    /// <summary>Largest change of horizontal velocity between two layers of any atmosphere, m/s.</summary>
    public const double VelocityChangeMps = 90;

    /// <summary>Strongest horizontal motion that has to be believed, m/s (jet-stream cores reach 110).</summary>
    public const double WindMps = 120;

    /// <summary>Standard deviation of one horizontal fix at HDOP 1, metres.</summary>
    public const double HorizontalSigmaM = 4;

    /// <summary>Standard deviation of one vertical fix at HDOP 1, metres.</summary>
    public const double VerticalSigmaM = 6;

    /// <summary>Noise is let pass up to this many standard deviations.</summary>
    public const double Sigmas = 6;

    /// <summary>
    /// Fastest fall at a height, m/s: a small box without any canopy falls at about 30 m/s at sea level, and faster as
    /// √(ρ₀/ρ) in thin air (density scale height 7 km, so the root doubles every 9.7 km); below 300 m/s everywhere.
    /// </summary>
    /// <param name="heightM">Height above mean sea level, metres.</param>
    public static double FallMps(double heightM) => Math.Min(300, 30 * Math.Exp(Math.Max(heightM, 0) / 14_000));
}
