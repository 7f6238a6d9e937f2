namespace Groundstation.Core.Flight;

/// <summary>
/// Seconds that a path spends at each of <see cref="WindNodes"/>, between two nodes shared linearly, and when it is
/// there.
/// </summary>
public sealed class NodeWeights
{
    private double[] _moment = new double[WindNodes.Count];
    private double[] _mean = new double[WindNodes.Count];

    /// <summary>Seconds at each node.</summary>
    public double[] Seconds { get; private set; } = new double[WindNodes.Count];

    /// <summary>Lowest node with time on it.</summary>
    public int First { get; private set; } = int.MaxValue;

    /// <summary>Highest node with time on it; below <see cref="First"/> when there is none.</summary>
    public int Last { get; private set; } = -1;

    /// <summary>Forgets everything.</summary>
    public void Clear()
    {
        if (Last >= First)
        {
            Array.Clear(Seconds, First, Last - First + 1);
            Array.Clear(_moment, First, Last - First + 1);
        }
        (First, Last) = (int.MaxValue, -1);
    }

    /// <summary>Adds time at a height.</summary>
    /// <param name="heightM">Metres above mean sea level.</param>
    /// <param name="seconds">How long.</param>
    /// <param name="at">How many seconds from now.</param>
    public void Add(double heightM, double seconds, double at = 0)
    {
        (int lower, double upper) = WindNodes.Locate(heightM);
        Seconds[lower] += seconds * (1 - upper);
        Seconds[lower + 1] += seconds * upper;
        _moment[lower] += seconds * (1 - upper) * at;
        _moment[lower + 1] += seconds * upper * at;
        First = Math.Min(First, lower);
        Last = Math.Max(Last, lower + 1);
    }

    /// <summary>Mean time of being at each node, seconds from now; 0 where no time is spent. Valid until the next call.</summary>
    public ReadOnlySpan<double> MeanTimes()
    {
        for (int i = First; i <= Last; i++) _mean[i] = Seconds[i] > 0 ? _moment[i] / Seconds[i] : 0;
        return _mean;
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal NodeWeights Copy()
    {
        var copy = (NodeWeights)MemberwiseClone();
        copy._moment = [.. _moment];
        copy._mean = [.. _mean];
        copy.Seconds = [.. Seconds];
        return copy;
    }
}
