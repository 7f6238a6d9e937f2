using Groundstation.Core.Fixes;
using Groundstation.Core.Sentences;

namespace Groundstation.Io.Report;

/// <summary>How well it was heard, and what the figures rest on.</summary>
internal static class QualitySection
{
    private const int MostGaps = 15;

    /// <summary>The table of gaps and the figures of the receivers.</summary>
    public static void Receivers(Html page, FlightRecord record, FlightFigures figures)
    {
        page.Table(["receiver", "sentences accepted", "lines rejected", "fixes believed", "refused"],
            record.Last.Receivers.Select(r => (IReadOnlyList<string>)[r.Source.Name, Html.Whole(r.Accepted),
                Html.Whole(r.Rejected.Sum(p => p.Value)), Html.Whole(r.Believed), Html.Whole(r.Refused)]));
        if (figures.Gaps.Count == 0)
        {
            if (figures.Believed.Count > 0)
                page.Paragraph("No gap: a believed fix came all the time.");
            return;
        }

        ReportUnits units = ReportUnits.Of(record);
        page.Element("h3", "Gaps without a believed fix");
        page.Table(["from", "at", "to", "at", "lasted"], figures.Gaps.OrderByDescending(g => g.Seconds).Take(MostGaps)
            .OrderBy(g => g.From.Utc).Select(g => (IReadOnlyList<string>)[Html.Clock(g.From.Utc),
                units.Height(g.From.Height.Metres), g.To is { } to ? Html.Clock(to.Utc) : "the end",
                g.To is { } at ? units.Height(at.Height.Metres) : "", Html.Duration(g.Seconds)]));
        if (figures.Gaps.Count > MostGaps)
            page.Remark($"The {MostGaps} longest of {figures.Gaps.Count}.");
    }

    /// <summary>What the figures rest on.</summary>
    public static void Write(Html page, FlightRecord record, FlightFigures figures)
    {
        page.Raw("<section>").Heading("Data quality");
        page.List(record.Notes.Concat(Remarks(record, figures)));
        IReadOnlyList<string>[] rejected = [.. record.Last.Receivers.SelectMany(r => r.Rejected)
            .Where(p => p.Value > 0).GroupBy(p => p.Key).OrderBy(g => g.Key)
            .Select(g => (IReadOnlyList<string>)[Words(g.Key), Html.Whole(g.Sum(p => p.Value))])];
        if (rejected.Length > 0)
            page.Element("h3", "Lines rejected").Table(["because", "lines"], rejected);
        IReadOnlyList<string>[] refused = [.. Enum.GetValues<RefusalReasons>().Where(r => r != RefusalReasons.None)
            .Select(reason => (reason, Count: record.Epochs.Count(e => e.Fix.Refused.HasFlag(reason))))
            .Where(r => r.Count > 0)
            .Select(r => (IReadOnlyList<string>)[Words(r.reason), Html.Whole(r.Count)])];
        if (refused.Length > 0)
        {
            page.Element("h3", "Fixes refused").Table(["because (several can apply)", "fixes"], refused);
        }

        page.Raw("</section>");
    }

    private static IEnumerable<string> Remarks(FlightRecord record, FlightFigures figures)
    {
        if (record.Epochs.Length == 0)
            yield break;
        yield return $"{Html.Whole(record.Epochs.Length)} epochs, "
            + $"{Html.Number(100.0 * record.Epochs.Count(e => e.Fix.Believed) / record.Epochs.Length, 1)} % believed"
            + (figures.IntervalS is { } s ? $", usually {Html.Number(s, 1)} s apart." : ".");
        int undated = record.Epochs.Count(e => e.Fix.DateFrom == DateOrigin.NearestToArrival);
        if (undated > 0)
        {
            yield return $"{Html.Whole(undated)} epochs came without a usable date; theirs is the day nearest to their "
                + "arrival.";
        }

        if (record.Epochs.Any(e => e.Fix.DateFrom == DateOrigin.ReceiverRolledOver))
            yield return "The receiver's date lay whole week rollovers (1024 weeks) back; they were added.";
        if (record.Epochs.Any(e => e.Fix is { Believed: true, HeightFrom: HeightOrigin.ReceiverWithoutSeparation }))
            yield return "Heights came without their geoid separation and were taken as above mean sea level.";
        if (record.Payload.Length == 0)
            yield return "The payload sent no measurements of its own (XDR): no temperature, no pressure.";
        foreach (ReceiverHealth receiver in record.Last.Receivers.Where(r => r.LineFault.Length > 0))
            yield return $"{receiver.Source.Name}: {receiver.LineFault}";
    }

    private static string Words<T>(T value) where T : struct, Enum =>
        Folders.Cells.Word(value).Replace('-', ' ');
}
