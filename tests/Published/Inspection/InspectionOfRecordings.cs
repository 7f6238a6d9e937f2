using System.Globalization;
using System.Text;
using Groundstation.Io.Inspection;
using Groundstation.Published.Nmea;
using Xunit;

namespace Groundstation.Published.Inspection;

/// <summary>
/// What inspect says of recordings whose contents are known from elsewhere: the labelled faults of
/// <c>flight_oun_faults.nmea</c>, an independent parser's reading of the receivers' logs (<c>reference.tsv</c>), and
/// the notes at the head of those logs.
/// </summary>
public class InspectionOfRecordings
{
    public static TheoryData<string> Logs => [.. NmeaData.Logs];

    private static InspectionReport Log(string name) =>
        RecordingInspection.Inspect(Path.Combine(NmeaData.Folder, name));

    private static SourceReport Flight(string name) =>
        Assert.Single(RecordingInspection.Inspect(Path.Combine(AppContext.BaseDirectory, "data", name)).Sources);

    [Theory]
    [InlineData("reject:checksum", "checksum")]
    [InlineData("reject:truncated", "truncated")]
    [InlineData("reject:no_checksum", "no-checksum")]
    [InlineData("reject:garbage", "not-a-sentence")]
    [InlineData("reject:jump", "horizontal-jump")]
    [InlineData("reject:duplicate", "duplicate")]
    [InlineData("reject:time_backwards", "time-backwards")]
    [InlineData("reject:null_island", "null-island")]
    [InlineData("suspect:frozen_alt", "frozen-altitude")]
    public void Faults_are_named_with_their_lines(string label, string reason)
    {
        SourceReport flight = Flight("flight_oun_faults.nmea");
        long[] labelled = [.. PublishedTable.Read("flight_oun_faults_labels.csv").Rows
            .Where(row => row["label"] == label).Select(row => (long)row.Number("line"))];
        Assert.NotEmpty(labelled);
        ReasonCount found = Assert.Single(flight.Rejected.Concat(flight.Refused), r => r.Reason == reason);
        Assert.True(found.Count >= labelled.Length);
        Assert.Subset(found.FirstLines.ToHashSet(), labelled.Take(5).ToHashSet());
    }

    [Fact]
    public void A_receiver_without_a_fix_is_seen_at_its_line()
    {
        SourceReport flight = Flight("flight_oun_faults.nmea");
        Assert.Equal([161], Assert.Single(flight.Refused, r => r.Reason == "no-fix").FirstLines);
        Assert.Equal("backwards", Assert.Single(flight.Dates.Problems).Kind);
        Assert.Equal(402, flight.Dates.Problems[0].FirstLine);
    }

    [Theory]
    [InlineData("flight_oun.nmea")]
    [InlineData("flight_boi_jet.nmea")]
    public void A_clean_flight_is_fit_and_its_range_is_that_of_its_GGA(string name)
    {
        double[] heightsM = [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "data", name))
            .Where(line => line.StartsWith("$GPGGA", StringComparison.Ordinal))
            .Select(line => double.Parse(line.Split(',')[9], CultureInfo.InvariantCulture))];
        SourceReport flight = Flight(name);
        Assert.Equal(Fitness.Fit, flight.Fitness.Verdict);
        Assert.Empty(flight.Rejected);
        Assert.Equal(flight.Epochs, flight.Believed);
        Assert.Equal(0.2, flight.EpochsPerSecond);
        Assert.Equal((heightsM.Min(), heightsM.Max()), (flight.Altitude!.MinM, flight.Altitude.MaxM));
        Assert.Equal(heightsM.Length, flight.Epochs);
    }

    [Theory]
    [MemberData(nameof(Logs))]
    public void Counts_are_those_of_an_independent_parser(string name)
    {
        InspectionReport report = Log(name);
        Dictionary<string, int> expected = NmeaData.Rows("reference.tsv").Where(r => r[0] == name)
            .GroupBy(r => r[2].TrimStart('$')).ToDictionary(g => g.Key, g => g.Count());
        Dictionary<string, long> counted = report.Sources.SelectMany(s => s.Sentences)
            .Where(s => s.Address.Length == 5 && s.Address[2..] is "GGA" or "RMC" or "GLL")
            .ToDictionary(s => s.Address, s => s.Count);
        Assert.Equal(expected.OrderBy(e => e.Key, StringComparer.Ordinal).Select(e => $"{e.Key} {e.Value}"),
            counted.OrderBy(e => e.Key, StringComparer.Ordinal).Select(e => $"{e.Key} {e.Value}"));
        string[] lines = Encoding.Latin1.GetString(NmeaData.Bytes(name)).ReplaceLineEndings("\n").Split('\n');
        Assert.Equal(lines.Length - (lines[^1].Length == 0 ? 1 : 0), report.Lines);
    }

    [Theory]
    [MemberData(nameof(Logs))]
    public void A_report_is_short_and_printable(string name)
    {
        using StringWriter text = new();
        RecordingInspection.Run(Path.Combine(NmeaData.Folder, name), json: false, text);
        string[] lines = text.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.InRange(lines.Length, 6, 24);
        Assert.All(lines, line => Assert.DoesNotContain(line, char.IsControl));
    }

    // What the notes at the heads of the logs say.
    [Fact]
    public void Time_going_backward_is_told() => // "Time goes backward 194124 to 194111"
        Assert.Contains(Assert.Single(Log("humminbird-M37.log").Sources).Dates.Problems, p => p.Kind == "backwards");

    [Fact]
    public void A_week_rollover_is_told() // "Bad year just after 6 Apr 2019 GPS week rollover"
    {
        SourceReport source = Assert.Single(Log("april6_2019.log").Sources);
        Assert.Equal(16, Assert.Single(source.Dates.Problems, p => p.Kind == "rollover").FirstLine);
        Assert.Equal(15, Assert.Single(source.Dates.Problems, p => p.Kind == "no_date").FirstLine);
    }

    [Fact]
    public void A_default_date_is_told() // 1980-01-05 until the fix of 2008-08-23
    {
        DateProblem problem = Assert.Single(Assert.Single(Log("mtk-3301.log").Sources).Dates.Problems);
        Assert.Equal(("default_date", 25L), (problem.Kind, problem.FirstLine));
        Assert.Contains("1980-01-05", problem.Text);
    }

    [Fact]
    public void A_bad_checksum_is_told() // "One $GPGSV with bad checksum"
    {
        ReasonCount rejected = Assert.Single(Assert.Single(Log("st-teseo-liv4f.log").Sources).Rejected);
        Assert.Equal(("checksum", 1L, 329L), (rejected.Reason, rejected.Count, Assert.Single(rejected.FirstLines)));
    }

    [Fact]
    public void The_receivers_own_words_are_told()
    {
        SourceReport source = Assert.Single(Log("st-teseo-liv4f.log").Sources);
        Assert.Contains("DEFAULT PVT CONFIGURATION", source.Identification);
        Assert.Contains(source.Identification, i => i.StartsWith("PSTMVER,BINIMG", StringComparison.Ordinal));
        Assert.Equal(["BeiDou", "GPS", "Galileo"], source.Systems);
    }

    [Theory]
    [InlineData("mt3339.log", Fitness.Fit, "GGA+RMC+GSA at 1 Hz")]
    [InlineData("magellan-ec10.log", Fitness.NotFit, "no altitude (no valid GGA or GNS)")]
    [InlineData("pypilot.log", Fitness.NotFit, "no position sentence (GGA, RMC, GNS or GLL)")]
    [InlineData("skytraq-err.log", Fitness.NotFit, "no valid sentence")]
    public void The_verdict_says_why(string name, Fitness verdict, string reason)
    {
        FitnessReport fitness = Assert.Single(Log(name).Sources).Fitness;
        Assert.Equal(verdict, fitness.Verdict);
        Assert.Contains(reason, fitness.Reasons);
    }
}
