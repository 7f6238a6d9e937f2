using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;

namespace Groundstation.Benchmarks.Calibration;

/// <summary>
/// What a careful user's short script does, to measure ours against: mean drift by layers of 250 m on the way up, taken
/// anew on the way down; the descent constant of the last minute; down to the height of the launch ground.
/// </summary>
internal sealed class PlainEstimator
{
    private const double LayerM = 250;
    private const int Layers = 200;

    private readonly double[] _east = new double[Layers], _north = new double[Layers], _seconds = new double[Layers];
    private readonly bool[] _down = new bool[Layers];
    private readonly Queue<Fix> _minute = new();
    private Fix? _last;
    private double _groundM = double.NaN;

    public void Take(Fix fix, bool falling)
    {
        double z = fix.Height!.Value.Metres;
        if (double.IsNaN(_groundM)) _groundM = z;
        _minute.Enqueue(fix);
        while (fix.Utc.SecondsSince(_minute.Peek().Utc) > 60) _minute.Dequeue();
        if (_last is { } last && fix.Utc.SecondsSince(last.Utc) is > 0 and < 60 and var seconds && z > _groundM + 20)
        {
            (double e, double n) = LocalFrame.Between(last.Position!.Value, fix.Position!.Value, z);
            int i = Layer((z + last.Height!.Value.Metres) / 2);
            if (falling && !_down[i]) (_east[i], _north[i], _seconds[i], _down[i]) = (0, 0, 0, true);
            (_east[i], _north[i], _seconds[i]) = (_east[i] + e, _north[i] + n, _seconds[i] + seconds);
        }
        _last = fix;
    }

    public (GeoPoint Place, double Seconds)? Estimate()
    {
        if (_last is not { } newest || _minute.Count < 2) return null;
        Fix first = _minute.Peek();
        double z = newest.Height!.Value.Metres, before = first.Height!.Value.Metres;
        double rate = (before - z) / newest.Utc.SecondsSince(first.Utc);
        if (rate <= 0.3) return null;
        double constant = rate / StandardAtmosphere.Table.FallFactor((z + before) / 2);
        GeoPoint place = newest.Position!.Value;
        double all = 0;
        while (z > _groundM)
        {
            double step = Math.Min(50, z - _groundM), middle = z - step / 2;
            double seconds = step / (constant * StandardAtmosphere.Table.FallFactor(middle));
            (double e, double n) = Wind(Layer(middle));
            place = LocalFrame.Move(place, e * seconds, n * seconds, middle);
            z -= step;
            all += seconds;
        }
        return (place, all);
    }

    private (double East, double North) Wind(int layer)
    {
        for (int off = 0; off < Layers; off++)
        {
            for (int i = layer - off; i <= layer + off; i += Math.Max(2 * off, 1))
                if (i >= 0 && i < Layers && _seconds[i] > 0) return (_east[i] / _seconds[i], _north[i] / _seconds[i]);
        }
        return default;
    }

    private static int Layer(double heightM) => Math.Clamp((int)(heightM / LayerM), 0, Layers - 1);
}
