using Groundstation.Core.Quantities;

namespace Groundstation.Io.Report;

/// <summary>What was alarmed, said and done.</summary>
internal static class LogSections
{
    // A log on the ground for hours can raise and clear the same alarm thousands of times; the file has them all.
    private const int Most = 200;

    /// <summary>Writes alarms, callouts and the operator's acts.</summary>
    public static void Write(Html page, FlightRecord record)
    {
        DisplayUnits units = ReportUnits.Of(record).Units;
        page.Raw("<section>").Heading("Alarms");
        if (record.Alarms.Length == 0)
            page.Paragraph("None was raised.");
        else
        {
            page.Table(["time", "severity", "alarm", "change", "cause"], record.Alarms.Take(Most)
                .Select(a => (IReadOnlyList<string>)[Html.Clock(a.Utc), a.Alarm.Severity.ToString().ToUpperInvariant(),
                    a.Alarm.Id, a.Change, a.Alarm.Cause.In(units)]));
            Rest(page, record.Alarms.Length, "alarms.csv");
        }

        page.Raw("</section><section>").Heading("Callouts");
        if (record.Callouts.Length == 0)
            page.Paragraph("None was given.");
        else
        {
            page.Table(["no.", "time", "occasion", "to be read", "read back"], record.Callouts.Take(Most)
                .Select(c => (IReadOnlyList<string>)[$"{c.Number}", Html.Clock(c.Utc), c.Occasion, c.Text,
                    c.ReadBack.Length > 0 ? c.ReadBack : "not marked"]));
            Rest(page, record.Callouts.Length, "callouts.csv");
        }

        page.Raw("</section>");
        if (record.Acts.Length == 0)
            return;
        page.Raw("<section>").Heading("Operator's notes and acts");
        page.Table(["heard", "what", ""], record.Acts.Take(Most).Select(a =>
            (IReadOnlyList<string>)[Html.Clock(a.Heard), a.Act.Verb, a.Act.Argument]));
        Rest(page, record.Acts.Length, "received.nmea");
        page.Raw("</section>");
    }

    private static void Rest(Html page, int count, string file)
    {
        if (count > Most)
            page.Remark($"The first {Most} of {Html.Whole(count)}; all of them stand in {file} of the flight folder.");
    }
}
