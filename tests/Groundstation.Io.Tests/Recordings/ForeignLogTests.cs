using System.Text;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Recordings;
using Xunit;

namespace Groundstation.Io.Tests.Recordings;

/// <summary>
/// Logs of other programs and receivers. The 24 receiver logs are those of <c>tests/Published/data/nmea</c>
/// (BSD-2-Clause, see the licence beside them).
/// </summary>
public sealed class ForeignLogTests : IDisposable
{
    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    public static TheoryData<string> Logs =>
        [.. Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "data", "nmea"), "*.log")
            .Select(path => Path.GetFileName(path)!).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Logs))]
    public void Every_byte_of_a_receiver_log_but_its_comments_is_handed_over_and_time_never_goes_back(string name)
    {
        string path = Path.Combine(AppContext.BaseDirectory, "data", "nmea", name);
        using RecordingReader reader = RecordingReader.Open(path);
        StringBuilder given = new();
        Instant last = default;
        double span = 0;
        while (reader.Read(out RecordedEvent e))
        {
            Assert.True(e.At >= last);
            span += last == default ? 0 : e.At.SecondsSince(last);
            last = e.At;
            given.Append(Encoding.Latin1.GetString(e.Bytes.Span));
        }

        string[] lines = Encoding.Latin1.GetString(File.ReadAllBytes(path)).Split(['\r', '\n'],
            StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(lines.Count(line => line[0] == '#'), reader.Comments);
        Assert.Equal(string.Concat(lines.Where(line => line[0] != '#').Select(line => line + "\r\n")),
            given.ToString());
        // From the files' own heads: the longest runs from a cold start without a fix to the next day's first fix.
        Assert.True(span < 25 * 3600, $"spans {span} s");
    }

    [Theory]
    [InlineData("april6_2019.log", "1999-08-22T00:02:31", 1)]       // year wrong as the receiver sent it
    [InlineData("bu353s4.log", "2014-12-31T03:07:19", 24)]
    [InlineData("firefly-II.log", "2010-07-08T00:59:47", 22)]       // no checksum in it is right
    [InlineData("humminbird-M37.log", "2006-09-16T19:41:01", 31)]   // goes back from :24 to :11 once: 23 s and 8 s
    [InlineData("neo-m8n.log", "2015-03-18T17:19:25", 23)]
    [InlineData("ublox-neo-m9n-nmea.log", "2020-07-11T22:37:45", 60)]
    public void A_log_is_placed_in_time_by_its_own_UTC(string name, string start, int seconds)
    {
        string path = Path.Combine(AppContext.BaseDirectory, "data", "nmea", name);
        using RecordingReader reader = RecordingReader.Open(path);
        Assert.True(reader.Read(out RecordedEvent first));
        RecordedEvent last = first;
        while (reader.Read(out RecordedEvent e))
            last = e;
        Assert.StartsWith(start, first.At.ToString(), StringComparison.Ordinal);
        Assert.Equal(seconds, last.At.SecondsSince(first.At), 1.0);
    }

    [Fact]
    public void A_log_without_any_time_runs_at_ten_lines_a_second()
    {
        List<RecordedEvent> events = Read("a\nb\nc\n");
        Assert.Equal(["00:00:00.100", "00:00:00.200", "00:00:00.300"], TimesOfDay(events));
    }

    [Fact]
    public void Lines_before_and_between_times_take_the_running_time()
    {
        List<RecordedEvent> events = Read("first\n" + Gga("120000") + "x\n" + Gga("120001") + "y\n");
        Assert.Equal(["12:00:00.000", "12:00:00.000", "12:00:00.000", "12:00:01.000", "12:00:01.000"],
            TimesOfDay(events));
        Assert.Equal(new DateOnly(2000, 1, 1), events[0].At.Date);
    }

    [Fact]
    public void Midnight_is_passed_and_a_later_date_names_the_first_day()
    {
        List<RecordedEvent> events = Read(Gga("235959") + Gga("000000") + Rmc("000001", "010326"));
        Assert.Equal(["2026-02-28T23:59:59.000Z", "2026-03-01T00:00:00.000Z", "2026-03-01T00:00:01.000Z"],
            events.Select(e => e.At.ToString()));
    }

    [Fact]
    public void Gaps_are_kept_even_over_a_day_when_dates_say_so()
    {
        List<RecordedEvent> events = Read(Rmc("100000", "210626") + Gga("101500") + Rmc("101501", "210626")
            + Rmc("090000", "220626") + Rmc("090001", "220626"));
        Assert.Equal(["2026-06-21T10:00:00.000Z", "2026-06-21T10:15:00.000Z", "2026-06-21T10:15:01.000Z",
            "2026-06-22T09:00:00.000Z", "2026-06-22T09:00:01.000Z"], events.Select(e => e.At.ToString()));
    }

    [Fact]
    public void One_wrong_epoch_does_not_move_the_clock_and_a_wobbling_date_moves_it_by_no_year()
    {
        List<RecordedEvent> events = Read(Rmc("100000", "161206") + Gga("170000") + Rmc("170000", "161206")
            + Gga("100001") + Rmc("100002", "300910") + Rmc("100003", "220899") + Rmc("100004", "220899"));
        Assert.Equal(["10:00:00.000", "10:00:00.000", "10:00:00.000", "10:00:01.000", "10:00:02.000", "10:00:03.000",
            "10:00:04.000"], TimesOfDay(events));
        Assert.All(events, e => Assert.Equal(2006, e.At.Date.Year));
    }

    [Fact]
    public void A_slow_logger_with_a_fix_a_minute_keeps_its_pace()
    {
        List<RecordedEvent> events = Read(string.Concat(Enumerable.Range(10, 20).Select(m => Gga($"10{m}00"))));
        Assert.Equal(18 * 60, events[^2].At.SecondsSince(events[0].At));
    }

    [Theory]
    [InlineData("1782000000", "1782000001")]
    [InlineData("1782000000000", "1782000001000")]
    public void Another_programs_TAG_blocks_place_its_lines_in_seconds_or_milliseconds(string first, string second)
    {
        List<RecordedEvent> events = Read(Tag($"s:r3,c:{first}") + "a\r\n" + Tag($"g:1-2-33,s:r4,c:{second}") + "b\r\n"
            + Tag("s:../../etc,c:1782000002") + "c\r\n" + Tag("c:99999999999999999") + "d\r\n\\s:r3,c:1*00\\e\r\n");
        Assert.Equal([1_782_000_000_000, 1_782_000_001_000, 1_782_000_002_000, 1_782_000_002_000, 1_782_000_002_000],
            events.Select(e => e.At.UnixMilliseconds));
        Assert.Equal(["r3", "r4", "radio1", "radio1", "radio1"], events.Select(e => e.Source.Name));
        // The one with the impossible time and the one with the wrong checksum go to the decoder as they are.
        Assert.Equal("a|b|c", string.Join('|', events[..3].Select(Content)));
        Assert.StartsWith(@"\c:999", Content(events[3]), StringComparison.Ordinal);
        Assert.StartsWith(@"\s:r3", Content(events[4]), StringComparison.Ordinal);
    }

    [Fact]
    public void A_log_is_framed_by_a_link_that_comes_up_and_ends()
    {
        using RecordingReader reader = RecordingReader.Open(_folder.Write("log", "a\n"));
        List<string> told = [];
        while (reader.Read(out RecordedEvent e))
            told.Add($"{e.Kind} {e.State} {e.Why}");
        Assert.Equal(["Link Up ", "Received Opening ", "Link Ended end of the recording"], told);
    }

    [Fact]
    public void Lines_of_any_length_pass_with_flat_memory_and_lose_no_byte()
    {
        string path = _folder["long"];
        using (StreamWriter text = new(path))
        {
            for (int i = 0; i < 40; i++)
                text.Write(new string((char)('a' + i % 26), 100_000));
        }

        using RecordingReader reader = RecordingReader.Open(path);
        long bytes = 0;
        while (reader.Read(out RecordedEvent e))
        {
            Assert.True(e.Bytes.Length <= LineAssembler.LineCap + 2);
            bytes += e.Bytes.Length;
        }

        Assert.Equal(4_000_000, bytes - 2, 2.0);
        Assert.True(reader.TornEnd);
    }

    [Fact]
    public void A_missing_an_empty_and_an_unreadable_recording_give_one_line()
    {
        Assert.Equal($"{_folder["no"]}: no such file; a recording (NMEA text) or a flight folder is needed",
            Assert.Throws<UserErrorException>(() => RecordingPath.Find(_folder["no"])).Message);
        Assert.Equal($"{_folder.Path}: no flight.nmea or received.nmea in this folder; name the recording itself",
            Assert.Throws<UserErrorException>(() => RecordingPath.Find(_folder.Path)).Message);
        Assert.Equal($"{_folder["empty"]}: holds no line; nothing to replay",
            Assert.Throws<UserErrorException>(() => RecordingReader.Open(_folder.Write("empty", "\r\n"))).Message);
        Assert.Contains("cannot be read",
            Assert.Throws<UserErrorException>(() => RecordingReader.Open(_folder.Path)).Message,
            StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_stands_for_the_recording_in_it_and_names_its_plan()
    {
        _folder.Write("received.nmea", "x\n");
        Assert.Equal(new RecordingPath(_folder["received.nmea"], null), RecordingPath.Find(_folder.Path));
        _folder.Write("flight.nmea", "x\n");
        _folder.Write("plan.toml", "");
        Assert.Equal(new RecordingPath(_folder["flight.nmea"], _folder["plan.toml"]), RecordingPath.Find(_folder.Path));
    }

    internal static string Line(string body) => $"${body}*{body.Aggregate(0, (sum, c) => sum ^ c):X2}\r\n";

    internal static string Gga(string time) =>
        Line($"GPGGA,{time},4815.00000,N,03030.00000,W,1,10,0.9,872.5,M,50.0,M,,");

    private static string Rmc(string time, string date) =>
        Line($"GPRMC,{time},A,4815.00000,N,03030.00000,W,2.9,60.0,{date},,,A");

    private static string Tag(string fields) => $@"\{fields}*{fields.Aggregate(0, (sum, c) => sum ^ c):X2}\";

    private static string Content(RecordedEvent e) => Encoding.ASCII.GetString(e.Bytes.Span).TrimEnd();

    private static IEnumerable<string> TimesOfDay(IEnumerable<RecordedEvent> events) =>
        events.Select(e => e.At.ToString()[11..23]);

    private List<RecordedEvent> Read(string text)
    {
        using RecordingReader reader = RecordingReader.Open(_folder.Write("log", text));
        List<RecordedEvent> events = [];
        while (reader.Read(out RecordedEvent e))
        {
            if (e.Kind != RecordedKind.Link)
                events.Add(e with { Bytes = e.Bytes.ToArray() });
        }

        return events;
    }
}
