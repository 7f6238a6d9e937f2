using Groundstation.Core.Air;
using Groundstation.Core.Flight;

namespace Groundstation.Core.Landing;

/// <summary>
/// A fall under drag through a wind column: seconds, and metres east and north, from the start down to each of
/// <see cref="Levels"/>. The wind carries the payload exactly; its lag behind the air (v/g: 4 s at 40 m/s, half a
/// second near the ground) moves the landing by less than 60 m in the strongest shear and is left out.
/// </summary>
/// <remarks>
/// Vertically it is the full equation of motion, in the square y of the speed over the way s fallen:
/// dy/ds = 2g(1 − y/Y), Y the square of the terminal speed. With Y linear in s over a step of at most 100 m, its exact
/// solution is y = aY + C·exp(−2g∫ds/Y), a = 2g/(2g + dY/ds): no stiffness near the ground and the start-up transient at
/// any terminal speed.
/// </remarks>
public sealed class FallTable
{
    private double[] _seconds = new double[Levels.Count];
    private double[] _east = new double[Levels.Count];
    private double[] _north = new double[Levels.Count];
    private int _top;

    /// <summary>Where the fall starts, metres above mean sea level.</summary>
    public double StartM { get; private set; }

    /// <summary>Follows a fall from its start down to a level below a height.</summary>
    /// <param name="startM">Start, metres above mean sea level.</param>
    /// <param name="startMps">Downward speed there, m/s; null: already at the steady speed.</param>
    /// <param name="speedSquared">Square of the terminal speed at each of <see cref="Levels"/>, m²/s².</param>
    /// <param name="windEast">Eastward wind at each level, m/s.</param>
    /// <param name="windNorth">Northward wind at each level, m/s.</param>
    /// <param name="bottomM">How far down the table must reach.</param>
    public void Fill(double startM, double? startMps, ReadOnlySpan<double> speedSquared,
        ReadOnlySpan<double> windEast, ReadOnlySpan<double> windNorth, double bottomM)
    {
        StartM = startM;
        _top = Levels.Below(startM);
        double z = startM, seconds = 0, east = 0, north = 0;
        double y = startMps is { } v ? v * v : -1;
        int last = Levels.Below(bottomM);
        for (int level = _top; level >= last; level--)
        {
            double low = Levels.HeightM(level), gravity = 2 * AtmosphereProfile.Gravity(low + Levels.StepM / 2);
            double y0 = speedSquared[level], slope = (y0 - speedSquared[level + 1]) / Levels.StepM;
            double a = gravity / (gravity + slope);
            double we = windEast[level], wn = windNorth[level];
            double we1 = (windEast[level + 1] - we) / Levels.StepM, wn1 = (windNorth[level + 1] - wn) / Levels.StepM;
            while (z > low)
            {
                double steadyAt = a * (y0 - slope * (z - low));
                if (y < 0) y = steadyAt;
                double off = y - steadyAt;
                double step = z - low;
                // While it gains speed: steps of a third of the way fallen so far, as from rest v² grows with that way.
                if (Math.Abs(off) > 0.01 * steadyAt)
                    step = Math.Min(step, Math.Max(0.3 * y / gravity, 0.5));
                double terminal = y0 - slope * (z - step / 2 - low);
                double next = a * (y0 - slope * (z - step - low));
                double decay = gravity * step / terminal;
                if (off != 0 && decay < 40) next += off * Math.Exp(-decay);
                double dt = 2 * step / (Math.Sqrt(y) + Math.Sqrt(next));
                double middle = z - step / 2 - low;
                seconds += dt;
                east += (we + we1 * middle) * dt;
                north += (wn + wn1 * middle) * dt;
                y = next;
                // A remainder of rounding must not become a step of its own.
                z = z - step < low + 1e-6 ? low : z - step;
            }
            (_seconds[level], _east[level], _north[level]) = (seconds, east, north);
        }
    }

    /// <summary>Seconds, metres east and metres north from the start down to a height.</summary>
    public (double Seconds, double EastM, double NorthM) At(double heightM)
    {
        int level = Levels.Below(heightM);
        if (level >= _top)
        {
            double span = StartM - Levels.HeightM(_top);
            double f = span > 0 ? Math.Clamp((StartM - heightM) / span, 0, 1) : 0;
            return (f * _seconds[_top], f * _east[_top], f * _north[_top]);
        }
        double upper = (heightM - Levels.HeightM(level)) / Levels.StepM;
        double high = Math.Max(upper, 0), low = 1 - high;
        return (low * _seconds[level] + high * _seconds[level + 1], low * _east[level] + high * _east[level + 1],
            low * _north[level] + high * _north[level + 1]);
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public FallTable Copy()
    {
        var copy = (FallTable)MemberwiseClone();
        copy._seconds = [.. _seconds];
        copy._east = [.. _east];
        copy._north = [.. _north];
        return copy;
    }
}
