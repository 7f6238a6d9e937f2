using Groundstation.Core.Earth;

namespace Groundstation.Core.Flight;

/// <summary>How the newest fixes move: the questions that phases are told by.</summary>
/// <param name="window">The fixes of the last two minutes, newest first.</param>
internal readonly struct Motion(FixWindow window)
{
    /// <summary>Slowest mean rate that is a climb or fall, m/s: GPS heights on the pad wander by 0.2 m/s over 20 s.</summary>
    public const double MovingMps = 1.2;

    /// <summary>+1 climbing, −1 falling, 0 neither: each quarter of the window must go on by half the least rate.</summary>
    public int Trend()
    {
        // Twenty seconds, or four epochs where those are far apart.
        double epoch = window.Count > 1 ? window[0].Utc.SecondsSince(window[1].Utc) : 0;
        double span = Math.Clamp(4.4 * epoch, 20, 110);
        Span<double> q = stackalloc double[4];
        if (!window.Quarters(span, q)) return Plunging() ? -1 : 0;
        double quarter = span / 4, least = MovingMps * quarter;
        double a = q[1] - q[0], b = q[2] - q[1], c = q[3] - q[2];
        if (a + b + c > 3 * least && Math.Min(a, Math.Min(b, c)) > least / 2) return 1;
        if (a + b + c < -3 * least && Math.Max(a, Math.Max(b, c)) < -least / 2) return -1;
        return Plunging() ? -1 : 0;
    }

    /// <summary>
    /// A fall at more than 8 m/s through the last four fixes and more than 5 s: nothing climbs like that, so burst need
    /// not wait for a full window.
    /// </summary>
    private bool Plunging()
    {
        if (window.Count < 4) return false;
        int n = Math.Max(window.Within(6), 4);
        if (n > window.Count) return false;
        for (int i = 0; i + 1 < n; i++)
        {
            double seconds = window[i].Utc.SecondsSince(window[i + 1].Utc);
            double lost = window[i + 1].Height!.Value.Metres - window[i].Height!.Value.Metres;
            if (lost < 3 * seconds) return false;
        }
        double span = window[0].Utc.SecondsSince(window[n - 1].Utc);
        return span >= 4.5 &&
            window[n - 1].Height!.Value.Metres - window[0].Height!.Value.Metres > Math.Max(8 * span, 40);
    }

    /// <summary>Neither climbing nor falling over the last two minutes: less than 0.4 m/s and 60 m.</summary>
    public bool Level() => Span(110) && Math.Abs(window.Rate(110) ?? 1) < 0.4 && HeightRange(110) < 60;

    /// <summary>Losing height slowly but surely: 0.5 m/s over two minutes and 150 m below the highest.</summary>
    /// <param name="topM">The highest so far, metres above mean sea level.</param>
    public bool Leaking(double topM) => Span(110) && window.Rate(110) < -0.5 &&
        window[0].Height!.Value.Metres < topM - 150;

    /// <summary>
    /// On the ground: for a minute the same height within 25 m and the same place within 40 m. A receiver that lies among
    /// trees wanders by 15 m and more and never does that: then two minutes within 80 m of height, at less than 0.8 m/s on the
    /// whole and 0.7 m/s aside. No canopy falls so slowly, and no wind aloft that would carry it is so weak for long. (The rate
    /// alone will not do: up and down about a burst it is nought.)
    /// </summary>
    public bool Standing() =>
        (Span(55) && Math.Abs(window.Rate(60) ?? 1) < 0.4 && HeightRange(60) < 25 && PlaceRange(60) < 40)
        || (Span(110) && Math.Abs(window.Rate(110) ?? 1) < 0.8 && HeightRange(110) < 80
            && Shift(110) < 40);

    /// <summary>At one height but moving with the wind: a float that the station did not see begin.</summary>
    public bool Drifting() => Level() && PlaceRange(110) > 400;

    private bool Span(double seconds) =>
        window.Count >= 4 && window[0].Utc.SecondsSince(window[window.Count - 1].Utc) >= seconds;

    private double HeightRange(double seconds)
    {
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        for (int i = window.Within(seconds) - 1; i >= 0; i--)
        {
            low = Math.Min(low, window[i].Height!.Value.Metres);
            high = Math.Max(high, window[i].Height!.Value.Metres);
        }
        return high - low;
    }

    /// <summary>Metres between the mean places of the two halves of the last seconds; infinite unless both hold a fix.</summary>
    private double Shift(double seconds)
    {
        (double E, double N, int Count) newer = default, older = default;
        for (int i = window.Within(seconds) - 1; i >= 0; i--)
        {
            (double e, double n) = LocalFrame.Between(window[0].Position!.Value, window[i].Position!.Value, 0);
            ref (double E, double N, int Count) half = ref window[0].Utc.SecondsSince(window[i].Utc) < seconds / 2 ? ref newer : ref older;
            half = (half.E + e, half.N + n, half.Count + 1);
        }
        return newer.Count == 0 || older.Count == 0 ? double.PositiveInfinity
            : double.Hypot(newer.E / newer.Count - older.E / older.Count, newer.N / newer.Count - older.N / older.Count);
    }

    private double PlaceRange(double seconds)
    {
        double most = 0;
        for (int i = window.Within(seconds) - 1; i > 0; i--)
        {
            (double e, double n) = LocalFrame.Between(window[0].Position!.Value, window[i].Position!.Value, 0);
            most = Math.Max(most, Math.Sqrt(e * e + n * n));
        }
        return most;
    }
}
