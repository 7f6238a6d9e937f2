using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Core.Landing;

namespace Groundstation.Benchmarks.Calibration;

/// <summary>What one estimate came to.</summary>
internal readonly record struct Outcome(double OursM, double? PlainM, double? LastWindM, double Half, double Most,
    double MajorM, double MinorM, double LateS, double LeftS, double SigmaS, double PlainS)
{
    public static Outcome Of(LandingEstimate ours, (GeoPoint Place, double Seconds)? plain, GeoPoint truth, double lateS, double leftS) => new(
        Geodesic.DistanceM(ours.Position, truth), plain is { } p ? Geodesic.DistanceM(p.Place, truth) : null,
        ours.LastWind is { } w ? Geodesic.DistanceM(w, truth) : null, Reach(ours.Area50, ours.Position, truth),
        Reach(ours.Area95, ours.Position, truth), ours.Area95.MajorM, ours.Area95.MinorM, lateS, leftS, ours.LandingSigmaS, plain?.Seconds ?? 0);

    /// <summary>1 on the ellipse's edge, below 1 inside.</summary>
    private static double Reach(SearchArea area, GeoPoint centre, GeoPoint truth)
    {
        GeodesicLine line = Geodesic.Inverse(centre, truth);
        double angle = (line.AzimuthDeg - area.AzimuthDeg) * Math.PI / 180;
        double along = line.DistanceM * Math.Cos(angle) / area.MajorM, across = line.DistanceM * Math.Sin(angle) / area.MinorM;
        return Math.Sqrt(along * along + across * across);
    }
}

/// <summary>All outcomes at one checkpoint, as a row of the table.</summary>
internal sealed class Tally(string name)
{
    public const string Header =
        "| estimate made | flights | ours, median m | 90 % m | plain, median m | 90 % m | last wind, median m | " +
        "in 50 % area | in 95 % area | 95 % area, median km | " +
        "50 % and 95 % of errors, in radii | time left off by %: mean, rms, rms claimed, plain's rms | rms error over plain's |\n" +
        "|---|---|---|---|---|---|---|---|---|---|---|---|---|";

    private readonly List<Outcome> _all = [];

    public void Add(Outcome outcome) => _all.Add(outcome);

    public string Row()
    {
        string plain = Share([.. _all.Where(o => o.PlainM is not null).Select(o => o.PlainM!.Value)], 0.5, "F0");
        string plain90 = Share([.. _all.Where(o => o.PlainM is not null).Select(o => o.PlainM!.Value)], 0.9, "F0");
        string last = Share([.. _all.Where(o => o.LastWindM is not null).Select(o => o.LastWindM!.Value)], 0.5, "F0");
        double half = 100.0 * _all.Count(o => o.Half <= 1) / _all.Count, most = 100.0 * _all.Count(o => o.Most <= 1) / _all.Count;
        return string.Create(CultureInfo.InvariantCulture,
            $"| {name} | {_all.Count} | {Of(o => o.OursM, 0.5, "F0")} | {Of(o => o.OursM, 0.9, "F0")} | {plain} | {plain90} | {last} | {half:F0} % | {most:F0} % | {Of(o => o.MajorM / 1000, 0.5, "F2")} × {Of(o => o.MinorM / 1000, 0.5, "F2")} | {Of(o => o.Half, 0.5, "F2")}, {Of(o => o.Most, 0.95, "F2")} | {_all.Average(Off):+0.0;-0.0}, {Math.Sqrt(_all.Average(o => Off(o) * Off(o))):F1}, {_all.Average(o => 100 * o.SigmaS / o.LeftS):F1}, {Math.Sqrt(_all.Average(o => Math.Pow(100 * (o.PlainS / o.LeftS - 1), 2))):F1} | {Ratio()} |");
        static double Off(Outcome o) => 100 * o.LateS / o.LeftS;
    }

    // The two errors of one flight go together, so that their ratio is known better than either median.
    private string Ratio()
    {
        Outcome[] both = [.. _all.Where(o => o.PlainM is not null)];
        return both.Length == 0 ? "–" : string.Create(CultureInfo.InvariantCulture,
            $"{Math.Sqrt(both.Sum(o => o.OursM * o.OursM) / both.Sum(o => o.PlainM!.Value * o.PlainM.Value)):F2}");
    }

    private string Of(Func<Outcome, double> part, double share, string format) => Share([.. _all.Select(part)], share, format);

    private static string Share(List<double> values, double share, string format)
    {
        if (values.Count == 0) return "–";
        values.Sort();
        return values[Math.Min((int)(share * values.Count), values.Count - 1)].ToString(format, CultureInfo.InvariantCulture);
    }
}
