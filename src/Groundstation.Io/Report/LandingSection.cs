using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;
using Groundstation.Io.Report.Plots;
using static Groundstation.Core.Quantities.Measure;

namespace Groundstation.Io.Report;

/// <summary>How good the landing estimates were.</summary>
internal static class LandingSection
{
    /// <summary>Writes it, where there was a flight.</summary>
    public static void Write(Html page, FlightRecord record, FlightFigures figures, IReadOnlyList<LandingScore> scores,
        Plot? plot)
    {
        if (!figures.Flew)
            return;
        ReportUnits units = ReportUnits.Of(record);
        page.Raw("<section>").Heading("How good the landing estimates were");
        if (figures.Truth is null)
        {
            page.Raw("<p>Where it came down is not known from the recording, so the estimates cannot be judged. When "
                + "the payload is found, run the report again with <code>--found LATITUDE,LONGITUDE</code>.</p>");
            Last(page, record, units);
        }
        else if (scores.Count == 0)
            page.Paragraph("No estimate was made in flight.");
        else
        {
            page.Paragraph(record.Found is null ? "Held against the place where it was heard standing after the flight."
                : "Held against the place where the team found it.");
            if (plot is not null)
                page.Raw($"<figure>{plot.Svg}</figure>");
            page.Table(["made", "when", "height", "landing estimate off by", "plain estimate off by", "95 % area",
                "landing in 50 % area", "landing in 95 % area"], Moments(record, figures, scores, units)
                .Select(moment => Row(moment, units)));
            page.Element("h3", "Did the areas hold?");
            page.Table(["while", "estimates", "middle error", "in the 50 % area", "in the 95 % area"],
                Shares(scores, units));
            page.Remark("One flight has one landing: its estimates stand or fall together, so these shares say little "
                + "about how sure the station is in general. The plain estimate goes down with the live rate through "
                + "the last wind alone.");
        }

        page.Raw("</section>");
    }

    private static void Last(Html page, FlightRecord record, ReportUnits units)
    {
        if (record.Landings.Length == 0)
            return;
        LandingEstimate last = record.Landings[^1];
        page.Table(["last estimate", ""],
        [
            ["place", last.Position.ToString()],
            ["expected landing", $"{Html.Moment(last.LandingUtc)} ± {Html.Duration(2 * last.LandingSigmaS)}"],
            ["half of all landings within", Area(last.Area50, units)],
            ["95 of 100 within", Area(last.Area95, units)],
            ["rests on", $"{(last.Method == LandingMethod.Silent ? "the model, nothing heard"
                : "the flight as heard")}; newest believed fix {Html.Duration(last.HeardAgeS)} old"],
            ["because", last.Causes.In(units.Units)],
        ]);
    }

    private static string Area(SearchArea area, ReportUnits units) =>
        $"{units.Axes(area)}, long axis along {Html.Number(area.AzimuthDeg, 0)}° "
        + $"true ({units.Area(area.AreaM2)})";

    private static IEnumerable<(string When, LandingScore Score)> Moments(FlightRecord record, FlightFigures figures,
        IReadOnlyList<LandingScore> scores, ReportUnits units)
    {
        HashSet<LandingScore> told = [];
        if (First(s => s.Estimate.Utc.SecondsSince(figures.Zero) >= 600) is { } ten)
            yield return ("10 min after launch", ten);
        if (figures.Burst is { } burst)
        {
            if (record.Last.Flight.BurstHeard
                && First(s => s.Estimate.Utc.SecondsSince(figures.Zero)
                    >= burst.Utc.SecondsSince(figures.Zero) / 2) is { } half)
                yield return ("half way to burst", half);
            if (First(s => s.Estimate.Utc.SecondsSince(burst.Utc) >= 60) is { } first)
                yield return ("1 min after burst", first);
            foreach (double km in new[] { 20.0, 15, 10, 5, 2, 1 })
            {
                if (burst.Height.Metres > km * 1000
                    && First(s => s.Estimate.Utc > burst.Utc && s.Estimate.Altitude.Metres <= km * 1000) is { } falling)
                    yield return ("falling through " + HeightAloft(km * 1000).Written("G").In(units.Units), falling);
            }
        }

        if (told.Add(scores[^1]))
            yield return ("last", scores[^1]);

        LandingScore? First(Func<LandingScore, bool> when) =>
            scores.FirstOrDefault(when) is { } s && told.Add(s) ? s : null;
    }

    private static IReadOnlyList<string> Row((string When, LandingScore Score) moment, ReportUnits units)
    {
        (string when, LandingScore s) = moment;
        return
        [
            when + (s.Estimate.Method == LandingMethod.Silent ? ", not heard" : ""), Html.Clock(s.Estimate.Utc),
            units.Height(s.Estimate.Altitude.Metres), units.Distance(s.ErrorM),
            s.LastWindErrorM is { } plain ? units.Distance(plain) : "none",
            units.Axes(s.Estimate.Area95),
            s.In50 ? "yes" : "no", s.In95 ? "yes" : "NO",
        ];
    }

    private static IEnumerable<IReadOnlyList<string>> Shares(IReadOnlyList<LandingScore> scores,
        ReportUnits units)
    {
        foreach ((string name, Func<LandingScore, bool> which) in new (string, Func<LandingScore, bool>)[]
        {
            ("climbing", s => s.Estimate is { Phase: Phase.Ascent, Method: not LandingMethod.Silent }),
            ("floating", s => s.Estimate is { Phase: Phase.Float, Method: not LandingMethod.Silent }),
            ("falling", s => s.Estimate is { Phase: Phase.Descent, Method: not LandingMethod.Silent }),
            ("not heard", s => s.Estimate.Method == LandingMethod.Silent),
        })
        {
            LandingScore[] some = [.. scores.Where(which)];
            if (some.Length == 0)
                continue;
            double[] errors = [.. some.Select(s => s.ErrorM).Order()];
            yield return
            [
                name, Html.Whole(some.Length), units.Distance(errors[errors.Length / 2]), Percent(some, s => s.In50),
                Percent(some, s => s.In95),
            ];
        }
    }

    private static string Percent(LandingScore[] scores, Func<LandingScore, bool> which) =>
        $"{Html.Number(100.0 * scores.Count(which) / scores.Length, 0)} %";
}
