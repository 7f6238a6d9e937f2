using System.Globalization;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Xunit;

namespace Groundstation.Published.Nmea;

/// <summary>
/// GGA, RMC and GLL of all 24 recordings against reference.tsv, to the last digit printed there. The reference holds
/// exactly the sentences of these types whose checksum is good, so both a sentence refused and one too many show.
/// </summary>
public sealed class ReferenceTests
{
    public static TheoryData<string> Logs => [.. NmeaData.Logs];

    [Fact]
    public void There_are_24_recordings() => Assert.Equal(24, NmeaData.Logs.Count);

    [Theory]
    [MemberData(nameof(Logs))]
    public void Position_sentences_read_as_the_reference_says(string log)
    {
        var expected = NmeaData.Rows("reference.tsv").Where(r => r[0] == log).ToList();
        var sink = new Readings();
        var stream = new SentenceStream(new SourceId("radio1"), allowNoChecksum: false);
        stream.Push(new Instant(0), NmeaData.Bytes(log), ref sink);
        stream.Flush(new Instant(0), ref sink);

        Assert.Equal(expected.Select(r => r[2]), sink.Rows.Select(r => r.Type));
        Assert.All(expected.Zip(sink.Rows), pair => Compare(pair.First, pair.Second));
    }

    private static void Compare(string[] row, Reading read)
    {
        string at = $"{row[0]} byte {row[1]} {row[2]}";
        Assert.Equal((at, row[3]), (at, TimeText(read.Time)));
        // The reference passes on the date "2208-1" of april6_2019.log unread; hostile.tsv, year-minus-1: no date.
        Assert.Equal((at, row[4] == "2208-1" ? "" : row[4]),
            (at, read.Date?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? ""));
        // A GGA with its quality blank is "unknown" here (hostile.tsv, quality-blank); the reference has two values
        // only.
        if (read.Valid is { } valid) Assert.Equal((at, row[5]), (at, valid ? "1" : "0"));
        Same(at, row[6], read.Latitude);
        Same(at, row[7], read.Longitude);
        Same(at, row[8], read.Altitude);
        Same(at, row[9], read.Satellites);
        Same(at, row[10], read.Mps * 3600 / 1852);
        Same(at, row[11], read.Course);
    }

    private static void Same(string at, string printed, double? value)
    {
        if (printed.Length == 0)
        {
            Assert.Equal((at, (double?)null), (at, value));
            return;
        }

        Assert.True(value.HasValue, $"{at}: {printed} expected, nothing read");
        int point = printed.IndexOf('.', StringComparison.Ordinal);
        int decimals = point < 0 ? 0 : printed.Length - point - 1;
        string text = value.Value.ToString($"F{decimals}", CultureInfo.InvariantCulture);
        string wanted = decimal.Parse(printed, CultureInfo.InvariantCulture)
            .ToString($"F{decimals}", CultureInfo.InvariantCulture);
        Assert.Equal((at, wanted), (at, text));
    }

    private static string TimeText(TimeSpan? time) => time is not { } t ? ""
        : t.Ticks % TimeSpan.TicksPerSecond == 0 ? t.ToString(@"hh\:mm\:ss", CultureInfo.InvariantCulture) + "+00:00"
        : t.ToString(@"hh\:mm\:ss\.ffffff", CultureInfo.InvariantCulture) + "+00:00";

    private sealed record Reading(string Type, TimeSpan? Time, DateOnly? Date, bool? Valid, double? Latitude,
        double? Longitude, double? Altitude, double? Satellites, double? Mps, double? Course);

    private sealed class Readings : ISentenceSink
    {
        public List<Reading> Rows { get; } = [];

        public void Gga(in Sentence sentence, in Gga m) => Rows.Add(new Reading(Type(sentence), m.Time, null,
            m.Quality is { } q ? q != FixQuality.Invalid : null, m.LatitudeDeg, m.LongitudeDeg, m.AltitudeMslM,
            m.SatellitesUsed, null, null));

        public void Rmc(in Sentence sentence, in Rmc m) => Rows.Add(new Reading(Type(sentence), m.Time, m.Date,
            m.Status == 'A', m.LatitudeDeg, m.LongitudeDeg, null, null, m.SpeedMps, m.CourseDeg));

        public void Gll(in Sentence sentence, in Gll m) => Rows.Add(new Reading(Type(sentence), m.Time, null,
            m.Status == 'A', m.LatitudeDeg, m.LongitudeDeg, null, null, null, null));

        public void Rejected(in Rejection rejection) { }

        public void Other(in Sentence sentence) { }

        public void Gns(in Sentence sentence, in Gns message) { }

        public void Gsa(in Sentence sentence, in Gsa message) { }

        public void Gsv(in Sentence sentence, in Gsv message) { }

        public void Vtg(in Sentence sentence, in Vtg message) { }

        public void Zda(in Sentence sentence, in Zda message) { }

        public void Gst(in Sentence sentence, in Gst message) { }

        public void Xdr(in Sentence sentence, in XdrMeasurement measurement) { }

        private static string Type(in Sentence sentence) => System.Text.Encoding.ASCII.GetString(sentence.Address);
    }
}
