using System.Collections.Immutable;
using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Landing;

/// <summary>
/// The expected path over the ellipsoid: stepped from level to level, so that meridians that converge, a pole or the
/// antimeridian on the way do not matter. Arrays of fixed size, filled anew for each fix.
/// </summary>
public sealed class Route
{
    private const int Most = 2 * Levels.Count + 4;
    private GeoPoint[] _place = new GeoPoint[Most];
    private double[] _height = new double[Most];
    private double[] _seconds = new double[Most];
    private int _count, _top;

    /// <summary>Seconds from the start to the beginning of the fall; 0 when it falls already.</summary>
    public double TopS => _seconds[_top];

    /// <summary>Last place reached.</summary>
    public GeoPoint End => _place[_count - 1];

    /// <summary>Seconds from the start to the end.</summary>
    public double EndS => _seconds[_count - 1];

    /// <summary>Height of the end, metres above mean sea level.</summary>
    public double EndM => _height[_count - 1];

    /// <summary>Starts at a place.</summary>
    public void Begin(GeoPoint place, double heightM)
    {
        (_place[0], _height[0], _seconds[0]) = (place, heightM, 0);
        (_count, _top) = (1, 0);
    }

    /// <summary>Adds a float: a drift at one height, by steps of ten minutes or more.</summary>
    public void Drift(double seconds, WindVector wind)
    {
        int parts = Math.Clamp((int)Math.Ceiling(seconds / 600), 1, 300);
        double each = seconds / parts;
        for (int i = 0; i < parts; i++) Step(_height[0], each, each * wind.EastMps, each * wind.NorthMps);
        _top = _count - 1;
    }

    /// <summary>Adds a climb up to a height.</summary>
    internal void Climb(ClimbTable climb, double topM)
    {
        (double seconds, double east, double north) before = default;
        for (int level = Levels.Below(_height[0]) + 1; level < Levels.Count; level++)
        {
            double z = Math.Min(Levels.HeightM(level), topM);
            var now = climb.At(z);
            Step(z, now.Seconds - before.seconds, now.EastM - before.east, now.NorthM - before.north);
            before = now;
            if (z >= topM) break;
        }
        _top = _count - 1;
    }

    /// <summary>
    /// Adds a fall from where the path is down to the ground: a given height, or the terrain where it meets that.
    /// </summary>
    public void Fall(FallTable fall, double groundM, Func<GeoPoint, double?>? terrain)
    {
        double from = _height[_count - 1];
        var start = fall.At(from);
        (double seconds, double east, double north) before = start;
        for (int level = Levels.Below(from); level >= 0; level--)
        {
            double z = Math.Max(Levels.HeightM(level), terrain is null ? groundM : Levels.BottomM);
            if (z >= from) continue;
            var now = fall.At(z);
            int above = _count - 1;
            Step(z, now.Seconds - before.seconds, now.EastM - before.east, now.NorthM - before.north);
            before = now;
            if (terrain is null)
            {
                if (z <= groundM) return;
                continue;
            }
            // 9 km is above all land: no need to ask.
            if (z > 9000) continue;
            double ground = terrain(_place[_count - 1]) ?? groundM;
            if (z > ground) continue;
            Meet(above, terrain, groundM);
            return;
        }
    }

    /// <summary>Place and height after some seconds; at the end for longer ones.</summary>
    public Waypoint At(double seconds, Instant from)
    {
        int i = 1;
        while (i < _count - 1 && _seconds[i] < seconds) i++;
        if (_count < 2) return new(from, _place[0], new HeightMsl(_height[0]));
        double span = _seconds[i] - _seconds[i - 1];
        double f = span > 0 ? Math.Clamp((seconds - _seconds[i - 1]) / span, 0, 1) : 1;
        return new(from.PlusSeconds(_seconds[i - 1] + f * span), Between(_place[i - 1], _place[i], f),
            new HeightMsl(_height[i - 1] + f * (_height[i] - _height[i - 1])));
    }

    /// <summary>Seconds until the path falls through a height; null if it never is above it after the top.</summary>
    public double? FallsThrough(double heightM)
    {
        for (int i = _top + 1; i < _count; i++)
        {
            if (_height[i - 1] < heightM) return null;
            if (_height[i] >= heightM) continue;
            double f = (_height[i - 1] - heightM) / (_height[i - 1] - _height[i]);
            return _seconds[i - 1] + f * (_seconds[i] - _seconds[i - 1]);
        }
        return null;
    }

    /// <summary>The path in at most some sixty points, for plots; burst and landing are among them.</summary>
    public ImmutableArray<Waypoint> Thin(Instant from)
    {
        int stride = Math.Max(1, _count / 60);
        ImmutableArray<Waypoint>.Builder path = ImmutableArray.CreateBuilder<Waypoint>();
        for (int i = 0; i < _count; i++)
        {
            if (i % stride == 0 || i == _top || i == _count - 1)
                path.Add(new(from.PlusSeconds(_seconds[i]), _place[i], new HeightMsl(_height[i])));
        }
        return path.ToImmutable();
    }

    private void Step(double heightM, double seconds, double eastM, double northM)
    {
        int last = _count - 1;
        double middle = (_height[last] + heightM) / 2;
        _place[_count] = LocalFrame.Move(_place[last], eastM, northM, middle);
        (_height[_count], _seconds[_count]) = (heightM, _seconds[last] + seconds);
        _count++;
    }

    /// <summary>The last step went below the terrain: halves it until the meeting is known to a metre.</summary>
    private void Meet(int above, Func<GeoPoint, double?> terrain, double groundM)
    {
        (double low, double high) = (0, 1);
        int below = _count - 1;
        for (int i = 0; i < 8; i++)
        {
            double f = (low + high) / 2, z = _height[above] + f * (_height[below] - _height[above]);
            if (z > (terrain(Between(_place[above], _place[below], f)) ?? groundM)) low = f;
            else high = f;
        }
        _place[below] = Between(_place[above], _place[below], high);
        _seconds[below] = _seconds[above] + high * (_seconds[below] - _seconds[above]);
        _height[below] = _height[above] + high * (_height[below] - _height[above]);
    }

    private static GeoPoint Between(GeoPoint a, GeoPoint b, double share)
    {
        (double east, double north) = LocalFrame.Between(a, b, 0);
        return LocalFrame.Move(a, share * east, share * north, 0);
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal Route Copy()
    {
        var copy = (Route)MemberwiseClone();
        copy._place = [.. _place];
        copy._height = [.. _height];
        copy._seconds = [.. _seconds];
        return copy;
    }
}
