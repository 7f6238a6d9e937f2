using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Groundstation.Io.Inspection;

/// <summary>The report for reading: about a dozen lines a source, at most 100 columns.</summary>
public static class InspectionText
{
    private const int Width = 100;
    private const int LabelWidth = 11;

    /// <summary>Writes it.</summary>
    public static void Write(InspectionReport report, TextWriter to)
    {
        // A file's name comes from outside, too.
        to.Write(UserErrorException.OneLine(Invariant($"{report.Recording}: {report.Lines} lines")));
        if (report.CommentLines > 0)
            to.Write(Invariant($" ({report.CommentLines} of them notes)"));
        to.Write(Invariant($", {Size(report.Bytes)}, {report.TimesFrom}\n"));
        if (report.DamagedLines > 0)
            Row(to, "Damaged", [Invariant($"{report.DamagedLines} of the station's own lines cannot be read")]);
        if (report.TornEnd)
            Row(to, "Torn", ["the last line has no end: it may be cut off"]);
        if (report.LinksLost.Length > 0)
            Row(to, "Link lost", [.. report.LinksLost.Select(UserErrorException.OneLine)]);
        if (report.Sources.IsEmpty)
            to.Write("Not fit: nothing received in it\n");
        foreach (SourceReport source in report.Sources)
            Write(source, to);
    }

    private static void Write(SourceReport s, TextWriter to)
    {
        Row(to, "Source", [s.Source, s.FirstUtc is null ? "no time in it"
            : $"{s.FirstUtc} to {s.LastUtc} ({Span(s.DurationS)})"]);
        Row(to, "Receiver", [$"talkers {Or(s.Talkers)}", .. s.Systems, .. s.Identification.Select(i => $"\"{i}\"")]);
        Row(to, "Rates", [Rate(s.SentencesPerSecond, "sentences"), Rate(s.EpochsPerSecond, "epochs")]);
        Row(to, "Sentences", [Invariant($"{s.Accepted} good"), .. ByType(s.Sentences)]);
        Row(to, "Rejected", s.Rejected.IsEmpty ? ["none"]
            : [Invariant($"{100 * s.RejectedShare:0.##} %"), .. s.Rejected.Select(Reason)]);
        Row(to, "Fixes", [Invariant($"{s.Epochs} epochs, {s.Believed} believed"), .. s.Refused.Select(Reason)]);
        if (s.Altitude is { } a)
            Row(to, "Altitude", [Invariant($"{a.MinM:0} to {a.MaxM:0} m above mean sea level")
                + (a.OfBelieved ? "" : " (none of it believed)")]);
        if (s.Position is { } p)
            Row(to, "Position", [$"{Place(p.FirstLatitudeDeg, p.FirstLongitudeDeg)} to "
                + Place(p.LastLatitudeDeg, p.LastLongitudeDeg), p.FarthestKm < 1
                    ? Invariant($"within {1000 * p.FarthestKm:0} m of the first")
                    : Invariant($"up to {p.FarthestKm:0.0} km from the first")]);
        ImmutableArray<string> gaps = s.Gaps.Count == 0 ? [Invariant($"none of {s.Gaps.ThresholdS:0.##} s or more")]
            : [Invariant($"{s.Gaps.Count} of {s.Gaps.ThresholdS:0.##} s or more, {s.Gaps.TotalS:0} s together"),
                .. s.Gaps.Longest.Select(GapWords)];
        Row(to, "Gaps", s.SilentAtEndS is { } silentS ? gaps.Add($"silent for the last {Span(silentS)}") : gaps);
        Row(to, "Dates", [s.Dates.First is null ? "none"
            : s.Dates.First == s.Dates.Last ? s.Dates.First : $"{s.Dates.First} to {s.Dates.Last}",
            .. s.Dates.Problems.Select(d => d.Text + (d.FirstLine is { } line ? Invariant($" (line {line})") : ""))]);
        if (s.LineFault.Length > 0)
            Row(to, "Line", [s.LineFault]);
        Row(to, s.Fitness.Verdict switch
        {
            Fitness.Fit => "Fit",
            Fitness.FitWithCautions => "Fit, but",
            _ => "Not fit",
        }, s.Fitness.Verdict == Fitness.FitWithCautions ? s.Fitness.Cautions
            : [.. s.Fitness.Reasons, .. s.Fitness.Cautions]);
    }

    /// <summary>A label, then items with semicolons, broken before the item that would pass the width.</summary>
    private static void Row(TextWriter to, string label, ImmutableArray<string> items)
    {
        StringBuilder line = new(label.PadRight(LabelWidth));
        for (int i = 0; i < items.Length; i++)
        {
            string item = i < items.Length - 1 ? items[i] + "; " : items[i];
            if (line.Length > LabelWidth && line.Length + item.TrimEnd().Length > Width)
            {
                to.Write(line.ToString().TrimEnd());
                to.Write('\n');
                line.Clear().Append(' ', LabelWidth);
            }

            line.Append(item);
        }

        to.Write(line.ToString().TrimEnd());
        to.Write('\n');
    }

    private static IEnumerable<string> ByType(ImmutableArray<SentenceCount> sentences) => sentences
        .GroupBy(s => FitnessJudge.Formatter(s.Address) is { Length: > 0 } formatter ? formatter : s.Address)
        .Select(g => (Type: g.Key, Count: g.Sum(s => s.Count)))
        .OrderByDescending(g => g.Count).ThenBy(g => g.Type, StringComparer.Ordinal)
        .Select(g => Invariant($"{g.Type} {g.Count}"));

    private static string Reason(ReasonCount r)
    {
        string lines = string.Join(", ", r.FirstLines.Select(l => Invariant($"{l}")));
        string word = r.FirstLines.Length > 1 || r.Count > 1 ? "lines" : "line";
        return Invariant($"{r.Reason} {r.Count} ({word} {lines}{(r.Count > r.FirstLines.Length ? ", …" : "")})");
    }

    private static string GapWords(Gap gap) =>
        Invariant($"{gap.Seconds:0.#} s from {gap.FromUtc[11..19]} (line {gap.Line})");

    private static string Rate(double? perSecond, string of) =>
        perSecond is { } rate ? Invariant($"{rate:0.###} {of} a second") : $"{of} a second not known";

    private static string Or(ImmutableArray<string> words) => words.IsEmpty ? "none" : string.Join(' ', words);

    private static string Place(double latitudeDeg, double longitudeDeg) =>
        new Core.Earth.GeoPoint(latitudeDeg, longitudeDeg).ToString();

    /// <summary>A span of time in the unit that suits it.</summary>
    internal static string Span(double seconds) => seconds switch
    {
        < 120 => Invariant($"{seconds:0} s"),
        < 7200 => Invariant($"{seconds / 60:0} min"),
        _ => Invariant($"{seconds / 3600:0.0} h"),
    };

    private static string Size(long bytes) => bytes switch
    {
        < 10_000 => Invariant($"{bytes} bytes"),
        < 10_000_000 => Invariant($"{bytes / 1e3:0} kB"),
        _ => Invariant($"{bytes / 1e6:0} MB"),
    };

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
