using Groundstation.Io.Report.Plots;

namespace Groundstation.Io.Report;

/// <summary>The page: one file, no script, no network, drawings inside.</summary>
internal static class ReportPage
{
    /// <summary>Composes it.</summary>
    public static string Compose(FlightRecord record, FlightFigures figures, IReadOnlyList<LandingScore> scores,
        IReadOnlyDictionary<string, Plot> plots, IEnumerable<(string File, string What)> files)
    {
        Html page = new();
        // The policy holds even if a text should ever get through as markup: nothing loads, nothing runs.
        page.Raw("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
            + "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src data:; "
            + "style-src 'unsafe-inline'\">\n"
            + "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
            + "<meta name=\"generator\" content=\"groundstation\">\n<link rel=\"icon\" href=\"data:,\">\n"
            + $"<title>{Html.Escape(record.Title)} – flight report</title>\n<style>\n{Style}</style>\n</head>\n"
            + "<body>\n<main>");
        SummarySection.Write(page, record, figures);
        Drawing("plan-view", "Where it went", !figures.Flew ? null
            : "Estimates made during the flight are drawn one after another: how they wander shows how "
            + "much was still unknown. Half of all landings are expected in the inner area, 95 of 100 "
            + "in the outer one.", "landing-area");
        Drawing("altitude", "Altitude and rates", null, "rates");
        LandingSection.Write(page, record, figures, scores, plots.GetValueOrDefault("landing-error"));
        PlanSection.Write(page, record, figures);
        Drawing("winds", "Wind column", "The payload drifts with the wind; the band is two standard deviations to "
            + "either side.");
        Drawing("air", "Air", "The payload's own sensors (XDR), as sent. A sensor in the sun reads too warm, "
            + "most of all high up, where the air is thin.");
        page.Raw("<section>").Heading("Receiver health");
        if (plots.TryGetValue("receiver", out Plot? receiver))
            page.Raw($"<figure>{receiver.Svg}</figure>");
        QualitySection.Receivers(page, record, figures);
        page.Raw("</section>");
        LogSections.Write(page, record);
        QualitySection.Write(page, record, figures);
        Cautions(page);
        page.Raw("<section class=\"files\">").Heading("Files beside this page");
        page.Table(["file", "what it holds"], files.Select(f => (IReadOnlyList<string>)[f.File, f.What]));
        page.Remark("In CSV files a text that a spreadsheet would take for a formula has an apostrophe in front.");
        page.Raw("</section>\n</main>\n</body>\n</html>");
        return page.ToString();

        void Drawing(string name, string heading, string? remark, string? second = null)
        {
            if (!plots.TryGetValue(name, out Plot? plot))
                return;
            page.Raw("<section>").Heading(heading).Raw($"<figure>{plot.Svg}</figure>");
            if (second is not null && plots.TryGetValue(second, out Plot? more))
                page.Raw($"<figure>{more.Svg}</figure>");
            if (remark is not null)
                page.Remark(remark);
            page.Raw("</section>");
        }
    }

    private static void Cautions(Html page)
    {
        page.Raw("<section>").Heading("Cautions, and who decides");
        page.List(
        [
            "A landing estimate is an estimate. The area says how sure the station was, not where people may be "
                + "put at risk.",
            "Aircraft: local rules and air traffic services decide whether and when anybody may launch. No separation "
                + "from aircraft may be derived from this page; nothing on it has been filed with anybody.",
            "Compressed gas: secure the cylinder, use a regulator, ventilate. Hydrogen burns. Handling is for people "
                + "trained in it.",
            "Driving: the driver drives; a passenger takes the callouts.",
            "Recovery: no trespass; power lines, water, climbing, bad weather and darkness are for those equipped for "
                + "them. The owner of the land decides.",
            "Where local law or a licensed practitioner says otherwise than this page, they are right.",
        ]);
        page.Raw("</section>");
    }

    private static string Style { get; } = ReadStyle();

    private static string ReadStyle()
    {
        using Stream css = typeof(ReportPage).Assembly.GetManifestResourceStream("report.css")
            ?? throw new InvalidOperationException("The report's style is missing from the program: build it again.");
        using StreamReader reader = new(css);
        return reader.ReadToEnd();
    }
}
