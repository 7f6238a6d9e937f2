using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;

namespace Groundstation.Io.Report;

/// <summary>A stretch of time in which no fix was believed.</summary>
/// <param name="From">The believed fix before it.</param>
/// <param name="To">The believed fix after it; null: none came any more.</param>
/// <param name="Seconds">How long, s; to the recording's end where none came.</param>
public sealed record Gap(Waypoint From, Waypoint? To, double Seconds);

/// <summary>The figures of a flight that summary, plots and comparisons share. Missing is null.</summary>
public sealed class FlightFigures
{
    // Shorter than this no gap is told, however fast the receiver speaks.
    private const double ShortestGapS = 15;

    /// <summary>Works them out.</summary>
    public FlightFigures(FlightRecord record)
    {
        Believed = [.. record.Epochs.Where(e => e.Fix is { Believed: true, Position: not null, Height: not null })];
        FlightState flight = record.Last.Flight;
        Flew = flight.Launch is not null;
        Origin = flight.Launch ?? flight.Pad ?? (Believed.Count > 0 ? At(Believed[0].Fix) : null);
        Zero = flight.Launch?.Utc ?? (record.Epochs.Length > 0 ? record.Epochs[0].Fix.Utc : record.Last.Utc);
        Burst = flight.Burst;
        Landed = flight.Landed is { } landed ? landed with { Utc = TouchDown(landed) } : null;
        DescentRateSeaLevelMps = MeasuredDescent();
        Truth = record.Found ?? flight.Landed?.Position;
        IntervalS = Usual(Believed);
        Gaps = [.. FindGaps(record)];
        if (flight is { Launch: { } up, Burst: { } top, BurstHeard: true })
            MeanAscentMps = (top.Height.Metres - up.Height.Metres) / top.Utc.SecondsSince(up.Utc);
        List<EpochRow> aloft = [.. Believed.Where(e => e.Phase is Phase.Ascent or Phase.Float or Phase.Descent)];
        FastestMps = aloft.Max(e => e.Fix.SpeedMps);
        FarthestM = Origin is { } origin && aloft.Count > 0
            ? aloft.Max(e => Geodesic.DistanceM(origin.Position, e.Fix.Position!.Value)) : null;
        StrongestMps = record.Winds.Length > 0 ? record.Winds.Max(w => w.Layer.Wind.SpeedMps) : null;
        ColdestC = record.Payload.Where(p => p.Phase is not Phase.Pad).Min(p => p.Telemetry.OutsideC);
    }

    /// <summary>Believed epochs with position and height.</summary>
    public IReadOnlyList<EpochRow> Believed { get; }

    /// <summary>True when a launch was recognised.</summary>
    public bool Flew { get; }

    /// <summary>The place that plots are drawn around: launch, pad, or the first believed fix.</summary>
    public Waypoint? Origin { get; }

    /// <summary>The moment that T+ counts from: the launch, or the first epoch where there was none.</summary>
    public Instant Zero { get; }

    /// <summary>Burst, or where it was falling when heard.</summary>
    public Waypoint? Burst { get; }

    /// <summary>Landing as heard: the place where it stood, from the moment on at which it stood there.</summary>
    public Waypoint? Landed { get; }

    /// <summary>
    /// Middle of the descent rates from a minute after the burst to 200 m above the landing, each brought to sea level
    /// in the 1976 atmosphere, v(h)/√(ρ₀/ρ(h)), m/s; null when less than two minutes of the descent were heard.
    /// </summary>
    public double? DescentRateSeaLevelMps { get; }

    /// <summary>Where it came down: as found, else as heard; null: not known.</summary>
    public GeoPoint? Truth { get; }

    /// <summary>Usual time between two believed fixes, s; null with fewer than two.</summary>
    public double? IntervalS { get; }

    /// <summary>Stretches without a believed fix, oldest first.</summary>
    public IReadOnlyList<Gap> Gaps { get; }

    /// <summary>Mean rate from launch to burst, m/s; null unless both were heard.</summary>
    public double? MeanAscentMps { get; }

    /// <summary>Greatest speed over ground, m/s.</summary>
    public double? FastestMps { get; }

    /// <summary>Greatest distance from the launch, m.</summary>
    public double? FarthestM { get; }

    /// <summary>Strongest wind measured, m/s.</summary>
    public double? StrongestMps { get; }

    /// <summary>Lowest outside temperature, °C.</summary>
    public double? ColdestC { get; }

    /// <summary>Minutes after <see cref="Zero"/>.</summary>
    public double Minutes(Instant utc) => utc.SecondsSince(Zero) / 60;

    // The station takes a while to be sure that it stands: the landing was when it first was where it then stood.
    private Instant TouchDown(Waypoint landed)
    {
        Instant first = landed.Utc;
        foreach (EpochRow row in Believed.Reverse().SkipWhile(e => e.Fix.Utc > landed.Utc))
        {
            if (Math.Abs(row.Fix.Height!.Value.Metres - landed.Height.Metres) > 15
                || Geodesic.DistanceM(row.Fix.Position!.Value, landed.Position) > 60)
                break;
            first = row.Fix.Utc;
        }

        return first;
    }

    private double? MeasuredDescent()
    {
        if (Burst is not { } burst)
            return null;
        const double PartS = 20;
        double floor = Landed is { } landed ? landed.Height.Metres + 200 : double.NegativeInfinity;
        AtmosphereProfile air = new();
        List<double> rates = [];
        Fix? from = null;
        foreach (Fix fix in Believed.Where(e => e.Phase == Phase.Descent).Select(e => e.Fix)
            .Where(f => f.Utc.SecondsSince(burst.Utc) > 60 && f.Height!.Value.Metres > floor))
        {
            double seconds = from is null ? double.PositiveInfinity : fix.Utc.SecondsSince(from.Utc);
            if (from is null || seconds is < 0 or > 3 * PartS)
                from = fix;
            else if (seconds >= PartS)
            {
                double low = fix.Height!.Value.Metres, high = from.Height!.Value.Metres;
                rates.Add((high - low) / seconds
                    * Math.Sqrt(air.DensityKgM3((low + high) / 2) / air.DensityKgM3(0)));
                from = fix;
            }
        }

        rates.Sort();
        return rates.Count < 6 ? null : rates[rates.Count / 2];
    }

    private static Waypoint At(Fix fix) => new(fix.Utc, fix.Position!.Value, fix.Height!.Value);

    private static double? Usual(IReadOnlyList<EpochRow> believed)
    {
        List<double> steps = [.. believed.Zip(believed.Skip(1))
            .Select(p => p.Second.Fix.Utc.SecondsSince(p.First.Fix.Utc)).Where(s => s > 0).Order()];
        return steps.Count == 0 ? null : steps[steps.Count / 2];
    }

    private IEnumerable<Gap> FindGaps(FlightRecord record)
    {
        double least = Math.Max(ShortestGapS, 5 * (IntervalS ?? 1));
        foreach ((EpochRow first, EpochRow second) in Believed.Zip(Believed.Skip(1)))
        {
            // The first epochs stand on the laptop's day until the receiver tells its own: that step is no gap.
            bool dated = first.Fix.DateFrom != second.Fix.DateFrom
                && second.Fix.Heard.SecondsSince(first.Fix.Heard) < least;
            if (second.Fix.Utc.SecondsSince(first.Fix.Utc) is var seconds && seconds >= least && !dated)
                yield return new Gap(At(first.Fix), At(second.Fix), seconds);
        }

        if (Believed.Count > 0 && record.Last.Utc.SecondsSince(Believed[^1].Fix.Utc) is var rest && rest >= least)
            yield return new Gap(At(Believed[^1].Fix), null, rest);
    }
}
