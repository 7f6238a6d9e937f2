using System.Text;
using System.Text.Json;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Inspection;
using Groundstation.Io.Recordings;
using Xunit;

namespace Groundstation.Io.Tests.Inspection;

public sealed class RecordingInspectionTests : IDisposable
{
    private static readonly Instant Start = Instant.FromUtc(new DateOnly(2026, 6, 21), new TimeSpan(9, 0, 0));
    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private InspectionReport Inspect(MadeRecording recording) =>
        RecordingInspection.Inspect(_folder.Write("log.nmea", recording.ToString()));

    private SourceReport InspectOne(MadeRecording recording) => Assert.Single(Inspect(recording).Sources);

    private static MadeRecording Climb(int seconds, Instant? from = null, MadeRecording? to = null, double fromM = 300)
    {
        to ??= new();
        for (int s = 0; s < seconds; s++)
            to.Epoch((from ?? Start).PlusSeconds(s), fromM + 3 * s);
        return to;
    }

    [Fact]
    public void A_good_recording_is_fit_and_its_figures_are_those_put_in()
    {
        SourceReport source = InspectOne(Climb(600));
        Assert.Equal(Fitness.Fit, source.Fitness.Verdict);
        Assert.Equal(["GGA+RMC at 1 Hz", "altitude", "dates good"], source.Fitness.Reasons);
        Assert.Empty(source.Fitness.Cautions);
        Assert.Equal((1200L, 600L, 600L), (source.Accepted, source.Epochs, source.Believed));
        Assert.Equal(1, source.EpochsPerSecond);
        Assert.Equal(2, source.SentencesPerSecond!.Value, 0.01);
        Assert.Equal((300, 300 + 3 * 599), (source.Altitude!.MinM, source.Altitude.MaxM));
        Assert.Equal(("2026-06-21T09:00:00.000Z", "2026-06-21T09:09:59.000Z"), (source.FirstUtc, source.LastUtc));
        Assert.Equal(0, source.Gaps.Count);
    }

    [Fact]
    public void Line_numbers_are_those_of_an_editor()
    {
        MadeRecording made = new();
        made.Line("# a note", "\n").Line("", "\n").Line("", "\r\n");
        made.Line(MadeRecording.Sentence("GPZDA,090000,21,06,2026,00,00"), "\r\r\n");
        made.Line("$GPGGA,1*00", "\r\n").Line("noise", "\n");
        SourceReport source = InspectOne(Climb(60, to: made));
        Assert.Equal([5], Assert.Single(source.Rejected, r => r.Reason == "checksum").FirstLines);
        Assert.Equal([6], Assert.Single(source.Rejected, r => r.Reason == "not-a-sentence").FirstLines);
        Assert.Equal(made.Lines, Inspect(made).Lines);
    }

    [Fact]
    public void Only_the_first_few_lines_are_named_but_all_are_counted()
    {
        MadeRecording made = Climb(60);
        for (int i = 0; i < 9; i++)
            made.Line("$GPGGA,1*00");
        ReasonCount rejected = Assert.Single(InspectOne(made).Rejected);
        Assert.Equal(9, rejected.Count);
        Assert.Equal([121, 122, 123, 124, 125], rejected.FirstLines);
    }

    [Fact]
    public void Gaps_are_told_with_begin_length_and_line()
    {
        MadeRecording made = Climb(100);
        Climb(100, Start.PlusSeconds(99 + 62), made, 300 + 3 * 161);
        Climb(100, Start.PlusSeconds(99 + 62 + 99 + 3), made, 300 + 3 * 263);
        GapReport gaps = InspectOne(made).Gaps;
        Assert.Equal((2L, 65.0), (gaps.Count, gaps.TotalS));
        Assert.Equal([new("2026-06-21T09:01:39.000Z", 62, 201), new("2026-06-21T09:04:20.000Z", 3, 401)], gaps.Longest);
    }

    [Fact]
    public void No_altitude_is_not_fit()
    {
        MadeRecording made = new();
        for (int s = 0; s < 60; s++)
            made.Epoch(Start.PlusSeconds(s), null);
        SourceReport source = InspectOne(made);
        Assert.Equal(Fitness.NotFit, source.Fitness.Verdict);
        Assert.Contains("no altitude (GGA or GNS there, their altitude blank)", source.Fitness.Reasons);
        Assert.Null(source.Altitude);
    }

    [Fact]
    public void A_log_without_dates_is_told_and_will_do()
    {
        MadeRecording made = new();
        for (int s = 0; s < 60; s++)
            made.Epoch(Start.PlusSeconds(s), 300 + 3 * s, date: "");
        SourceReport source = InspectOne(made);
        Assert.Equal("no_date", Assert.Single(source.Dates.Problems).Kind);
        Assert.Equal(Fitness.FitWithCautions, source.Fitness.Verdict);
    }

    [Fact]
    public void A_default_date_before_the_fix_is_told()
    {
        MadeRecording made = new();
        for (int s = 0; s < 5; s++)
            made.Epoch(Start.PlusSeconds(s), null, date: "060180", valid: false);
        SourceReport source = InspectOne(Climb(60, Start.PlusSeconds(5), made));
        DateProblem problem = Assert.Single(source.Dates.Problems);
        Assert.Equal(("default_date", 5L, 2L), (problem.Kind, problem.Count, problem.FirstLine));
        Assert.Equal(("2026-06-21", "2026-06-21"), (source.Dates.First, source.Dates.Last));
    }

    [Fact]
    public void A_date_that_wobbles_is_told_but_midnight_is_not()
    {
        MadeRecording made = Climb(120, Start.PlusSeconds(15 * 3600 - 60));
        SourceReport midnight = InspectOne(made);
        Assert.Empty(midnight.Dates.Problems);
        Assert.Equal(1, midnight.Dates.Midnights);
        Assert.Equal(("2026-06-21", "2026-06-22"), (midnight.Dates.First, midnight.Dates.Last));

        made = Climb(60);
        made.Epoch(Start.PlusSeconds(60), 480, date: "250626");
        DateProblem problem = Assert.Single(InspectOne(Climb(60, Start.PlusSeconds(61), made, 483)).Dates.Problems);
        Assert.Equal(("wobble", 2L, 122L), (problem.Kind, problem.Count, problem.FirstLine));
        Assert.Contains("2026-06-21 to 2026-06-25", problem.Text);
    }

    [Fact]
    public void A_date_that_jumps_by_1024_weeks_is_a_rollover()
    {
        MadeRecording made = new();
        for (int s = 0; s < 10; s++)
            made.Epoch(Start.PlusSeconds(s), 300 + 3 * s, date: "051106");
        DateProblem problem = Assert.Single(InspectOne(Climb(60, Start.PlusSeconds(10), made, 330)).Dates.Problems);
        Assert.Equal(("rollover", 22L), (problem.Kind, problem.FirstLine));
    }

    [Fact]
    public void A_receivers_altitude_limit_is_told()
    {
        MadeRecording made = Climb(120, fromM: 17_650);
        for (int s = 120; s < 240; s++)
            made.Epoch(Start.PlusSeconds(s), null, valid: false);
        SourceReport source = InspectOne(made);
        Assert.Equal(18_000, source.Altitude!.LimitM);
        Assert.Contains(source.Fitness.Cautions, c => c.StartsWith("no fix near 18000 m", StringComparison.Ordinal));
    }

    [Fact]
    public void Sources_are_told_apart_and_each_is_judged()
    {
        MadeRecording made = new();
        for (int s = 0; s < 60; s++)
        {
            made.Epoch(Start.PlusSeconds(s), 300 + 3 * s, prefix: Tag("radio1", s));
            if (s % 2 == 0)
                made.Line(Tag("radio2", s) + MadeRecording.Sentence("GPTXT,01,01,02,Firmware ^1B[2J 1.0"));
        }

        InspectionReport report = Inspect(made);
        Assert.Equal(["radio1", "radio2"], report.Sources.Select(s => s.Source));
        Assert.Equal([Fitness.Fit, Fitness.NotFit], report.Sources.Select(s => s.Fitness.Verdict));
        Assert.Equal("times from its TAG blocks", report.TimesFrom);
        Assert.Equal(["Firmware ^1B[2J 1.0"], report.Sources[1].Identification); // an escape code stays harmless

        static string Tag(string source, int second)
        {
            string tag = $"s:{source},c:{Start.PlusSeconds(second).UnixMilliseconds}";
            return $"\\{MadeRecording.Sentence(tag)[1..]}\\";
        }
    }

    [Fact]
    public void A_tracker_that_falls_silent_before_the_recording_ends_is_told()
    {
        byte[] line = new byte[RecordingWriter.MaxLine];
        MadeRecording made = new();
        void Record(RecordedEvent e) =>
            made.Line(Encoding.ASCII.GetString(line.AsSpan(0, RecordingWriter.Format(e, line))), "");

        SourceId radio = new("radio1");
        Record(RecordedEvent.Opened(Start, 1));
        foreach (string sentence in Climb(60).ToString().Split("\r\n", StringSplitOptions.RemoveEmptyEntries))
        {
            Instant at = Start.PlusSeconds(made.Lines / 2);
            Record(RecordedEvent.Received(radio, at, Encoding.ASCII.GetBytes(sentence + "\r\n")));
        }

        Record(RecordedEvent.Linked(radio, Start.PlusSeconds(90), LinkState.Lost, "cable out"));
        Record(RecordedEvent.OfTime(RecordedKind.Ended, Start.PlusSeconds(659)));
        InspectionReport report = Inspect(made);
        SourceReport source = Assert.Single(report.Sources);
        Assert.Equal(600, source.SilentAtEndS!.Value, 1.0);
        Assert.Contains("silent for the last 10 min", source.Fitness.Cautions);
        Assert.Equal(60, source.Believed);
        Assert.Equal(["radio1 at 09:01:30: cable out (line 122)"], report.LinksLost);
    }

    [Fact]
    public void Json_holds_what_the_text_holds()
    {
        string path = _folder.Write("log.nmea", Climb(60).Line("$GPGGA,1*00").ToString());
        using StringWriter json = new(), text = new();
        RecordingInspection.Run(path, json: true, json);
        RecordingInspection.Run(path, json: false, text);
        using JsonDocument document = JsonDocument.Parse(json.ToString());
        JsonElement source = document.RootElement.GetProperty("sources")[0];
        Assert.Equal(120, source.GetProperty("accepted").GetInt64());
        Assert.Equal(121, source.GetProperty("rejected")[0].GetProperty("first_lines")[0].GetInt64());
        Assert.Equal("fit", source.GetProperty("fitness").GetProperty("verdict").GetString());
        Assert.Contains("Fit        GGA+RMC at 1 Hz; altitude; dates good\n", text.ToString());
        Assert.Contains("checksum 1 (line 121)", text.ToString());
        Assert.DoesNotContain('\r', text.ToString() + json);
    }

    [Fact]
    public void A_missing_recording_is_one_line()
    {
        string path = _folder["none.nmea"];
        UserErrorException error = Assert.Throws<UserErrorException>(() => RecordingInspection.Inspect(path));
        Assert.StartsWith(path + ": ", error.Message);
    }
}
