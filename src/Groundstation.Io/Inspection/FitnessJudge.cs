using System.Collections.Immutable;
using System.Globalization;

namespace Groundstation.Io.Inspection;

/// <summary>
/// Judges from what a recording holds whether its receiver is fit to fly: the station must be able to follow it, to
/// believe it and to date it.
/// </summary>
internal static class FitnessJudge
{
    /// <summary>Below this many epochs nothing can be said about gaps and belief.</summary>
    private const int FewestEpochs = 30;

    /// <summary>The same share of damage that raises the link alarm in flight (plan's default).</summary>
    private const double MostRejectedShare = 0.2;

    private static readonly string[] _positionTypes = ["GGA", "GNS", "RMC", "GLL"];

    /// <summary>The verdict on one source, whose other findings are complete.</summary>
    public static FitnessReport Judge(SourceReport source, long withHeight, long epochsSinceFirstBelieved)
    {
        List<string> bad = [], cautions = [];
        string carriers = string.Join('+', Carriers(source));
        if (source.Accepted == 0)
            bad.Add("no valid sentence");
        else if (carriers.Length == 0)
            bad.Add("no position sentence (GGA, RMC, GNS or GLL)");
        else if (source.Believed == 0 && withHeight > 0)
            bad.Add($"no fix believed ({Most(source.Refused)})");
        if (carriers.Length > 0 && withHeight == 0)
            bad.Add(source.Sentences.Any(s => Formatter(s.Address) is "GGA" or "GNS")
                ? "no altitude (GGA or GNS there, their altitude blank)"
                : "no altitude (no valid GGA or GNS)");
        if (source.RejectedShare >= MostRejectedShare)
            bad.Add(Invariant($"{100 * source.RejectedShare:0} % of the lines damaged"));
        bool mostRefused = source.Believed > 0 && source.Believed < 0.5 * epochsSinceFirstBelieved;
        if (mostRefused && source.Altitude?.LimitM is null)
            bad.Add(RefusedShare(source, epochsSinceFirstBelieved));
        if (source.LineFault.Length > 0)
            (source.RejectedShare >= MostRejectedShare ? bad : cautions).Add("line fault: " + source.LineFault);

        if (source.Epochs > 0)
            Cautions(source, epochsSinceFirstBelieved, cautions);
        if (bad.Count > 0)
            return new(Fitness.NotFit, [.. bad], [.. cautions]);

        ImmutableArray<string> good = [Invariant($"{carriers} at {source.EpochsPerSecond:0.##} Hz"), "altitude",
            .. source.Dates.Problems.IsEmpty ? ["dates good"] : Array.Empty<string>()];
        return new(cautions.Count > 0 ? Fitness.FitWithCautions : Fitness.Fit, good, [.. cautions]);
    }

    private static void Cautions(SourceReport source, long epochsSinceFirstBelieved, List<string> cautions)
    {
        if (source.Epochs < FewestEpochs)
            cautions.Add($"only {source.Epochs} epochs: too short to be sure");
        if (source.EpochsPerSecond < 0.2)
            cautions.Add(Invariant($"one epoch in {1 / source.EpochsPerSecond:0} s"));
        if (source.Altitude?.LimitM is { } limitM)
            cautions.Add(Invariant($"no fix near {limitM:0} m while sentences went on: altitude limit?"));
        if (source.Believed < 0.9 * epochsSinceFirstBelieved && (source.Believed >= 0.5 * epochsSinceFirstBelieved
            || source.Altitude?.LimitM is not null))
            cautions.Add(RefusedShare(source, epochsSinceFirstBelieved));
        if (source.Gaps.TotalS > 0.05 * source.DurationS)
            cautions.Add(Invariant($"{100 * source.Gaps.TotalS / source.DurationS:0} % of the time in gaps"));
        if (source.SilentAtEndS is { } silentS)
            cautions.Add($"silent for the last {InspectionText.Span(silentS)}");
        foreach (DateProblem problem in source.Dates.Problems)
            cautions.Add(problem.Text);
        if (!source.Sentences.Any(s => Formatter(s.Address) is "GGA" or "GNS" or "GSA"))
            cautions.Add("no satellite count or dilution: bad fixes are harder to tell");
    }

    private static string RefusedShare(SourceReport source, long epochs) =>
        Invariant($"{100 * (1 - source.Believed / (double)epochs):0} % of epochs refused since the first good one (")
        + Most(source.Refused) + ")";

    /// <summary>The types that carry positions, and GSA if it comes with them.</summary>
    private static IEnumerable<string> Carriers(SourceReport source)
    {
        HashSet<string> heard = [.. source.Sentences.Select(s => Formatter(s.Address))];
        string[] positions = [.. _positionTypes.Where(heard.Contains)];
        return positions.Length > 0 && heard.Contains("GSA") ? positions.Append("GSA") : positions;
    }

    private static string Most(ImmutableArray<ReasonCount> reasons) =>
        reasons.IsEmpty ? "no reason given" : "mostly " + reasons[0].Reason;

    /// <summary>Formatter of a standard address; empty for a proprietary one.</summary>
    internal static string Formatter(string address) => address is [not 'P', _, _, _, _] ? address[2..] : "";

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
