using System.Text;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Recordings;
using Xunit;
using static Groundstation.Io.Tests.Recordings.ForeignLogTests;

namespace Groundstation.Io.Tests.Recordings;

/// <summary>Lines that a damaged recording, an editor or a stranger's program puts into a log.</summary>
public sealed class OddLineTests : IDisposable
{
    private static readonly Instant _start = Instant.FromUnixMilliseconds(1_782_000_000_000);
    private static readonly SourceId _radio = new("radio1");
    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_stamp_more_than_a_year_ahead_is_a_damaged_one_and_moves_no_time()
    {
        byte[] recording = Lines(RecordedEvent.Opened(_start, 1), Received(1, "a"), Received(400 * 86_400, "b"),
            Received(2, "c"), Received(365 * 86_400, "d"));
        Instant[] expected = [_start, _start.PlusSeconds(1), _start.PlusSeconds(1), _start.PlusSeconds(2),
            _start.PlusSeconds(365 * 86_400)];
        Assert.Equal(expected, Read(recording).Select(e => e.At));

        // Line by line, as a follower takes them, it is the same.
        List<Instant> followed = [];
        OwnLines lines = new();
        foreach (string line in Encoding.ASCII.GetString(recording).Split("\r\n"))
            lines.Take(Encoding.ASCII.GetBytes(line), e => followed.Add(e.At));
        Assert.Equal(expected, followed);
    }

    [Fact]
    public void The_mark_that_an_editor_puts_in_front_is_no_part_of_the_first_sentence()
    {
        byte[] log = [.. "\uFEFF"u8, .. Bytes.Of(Gga("120000")), .. Bytes.Of(Gga("120001"))];
        RecordedEvent[] events = [.. Read(log).Where(e => e.Kind == RecordedKind.Received)];
        Assert.Equal(Gga("120000"), Encoding.Latin1.GetString(events[0].Bytes.Span));
    }

    [Fact]
    public void A_recording_that_an_editor_has_saved_with_its_mark_is_still_the_stations_own()
    {
        RecordedEvent[] events = [.. Read([.. "\uFEFF"u8, .. Lines(RecordedEvent.Opened(_start, 1), Received(1, "a"))])];
        Assert.Equal([RecordedKind.Opened, RecordedKind.Received], events.Select(e => e.Kind));
        Assert.Equal(_start.PlusSeconds(1), events[1].At);
    }

    [Fact]
    public void The_first_stamp_of_a_log_whose_first_line_is_torn_is_believed()
    {
        RecordedEvent[] events = [.. Read(Bytes.Of(Gga("120000")[20..] + Tag("s:r1,c:1782000000") + Gga("120001")
            + Tag("s:r1,c:1782000001") + Gga("120002"))).Where(e => e.Kind == RecordedKind.Received)];
        Assert.Equal([_start, _start.PlusSeconds(1)], events[1..].Select(e => e.At));
    }

    [Fact]
    public void A_log_of_a_hundred_sources_makes_no_hundred_receivers()
    {
        string log = string.Concat(Enumerable.Range(0, 100).Select(i => Tag($"s:r{i},c:{1_782_000_000 + i}") + "x\r\n"));
        RecordedEvent[] events = [.. Read(Bytes.Of(log)).Where(e => e.Kind == RecordedKind.Received)];
        Assert.Equal(100, events.Length);
        Assert.Equal(65, events.Select(e => e.Source).Distinct().Count());
        Assert.Equal("radio1", events[^1].Source.Name);
    }

    [Fact]
    public void A_recording_of_a_hundred_links_makes_no_hundred_receivers() => Assert.Equal(65, Read(Lines([
        RecordedEvent.Opened(_start, 1), .. Enumerable.Range(0, 100).Select(i =>
            RecordedEvent.Linked(new SourceId($"r{i}"), _start, LinkState.Up, "")),
    ])).Where(e => e.Kind == RecordedKind.Link).Select(e => e.Source).Distinct().Count());

    // What another program calls "station" is a receiver's line, not the station's own event.
    [Fact]
    public void A_stranger_s_source_named_station_is_the_first_receiver()
    {
        RecordedEvent[] events = [.. Read(Bytes.Of(Tag("s:station,c:1782000000") + "$GPGLL*00\r\n"))
            .Where(e => e.Kind == RecordedKind.Received)];
        Assert.Equal("radio1", Assert.Single(events).Source.Name);
    }

    [Theory]
    [InlineData("100009", "10:00:09")] // ten seconds on is a gap like any other
    [InlineData("100050", "10:00:01")] // one lone sentence of fifty seconds on is not believed
    public void A_lone_step_of_more_than_ten_seconds_is_not_believed(string lone, string second) =>
        Assert.Equal($"2000-01-01T{second}", Read(Bytes.Of(Gga("100000") + Gga(lone) + Gga("100001")))
            .Where(e => e.Kind == RecordedKind.Received).Last().At.ToString()[..19]);

    // Of a step on, the next must not be ten times as far on again.
    [Fact]
    public void Two_steps_that_do_not_go_on_from_each_other_are_not_believed() => Assert.Equal("2000-01-01T10:00:02",
        Read(Bytes.Of(Gga("100000") + Gga("100050") + Gga("100550") + Gga("100001") + Gga("100002")))
            .Where(e => e.Kind == RecordedKind.Received).Last().At.ToString()[..19]);

    [Theory]
    [InlineData("220626", 86_400)] // a day later
    [InlineData("260626", 0)] // five days later: no flight, but a receiver that has changed its mind
    public void A_gap_of_two_days_is_kept_and_a_longer_one_is_not(string date, double seconds)
    {
        RecordedEvent[] events = [.. Read(Bytes.Of(Rmc("100000", "210626") + Rmc("100001", "210626")
            + Rmc("100101", date) + Rmc("100102", date))).Where(e => e.Kind == RecordedKind.Received)];
        Assert.Equal(seconds + 62, events[^1].At.SecondsSince(events[0].At), 0.5);
    }

    private static RecordedEvent Received(double s, string text) =>
        RecordedEvent.Received(_radio, _start.PlusSeconds(s), Bytes.Of(text + "\r\n"));

    private static byte[] Lines(params RecordedEvent[] events)
    {
        List<byte> all = [];
        byte[] line = new byte[4096];
        foreach (RecordedEvent e in events) all.AddRange(line[..RecordingWriter.Format(e, line)]);
        return [.. all];
    }

    private static string Rmc(string time, string date) =>
        Line($"GPRMC,{time},A,4815.00000,N,03030.00000,W,2.9,60.0,{date},,,A");

    private static string Tag(string fields) => $@"\{fields}*{fields.Aggregate(0, (sum, c) => sum ^ c):X2}\";

    private List<RecordedEvent> Read(byte[] log)
    {
        File.WriteAllBytes(_folder["log"], log);
        using RecordingReader reader = RecordingReader.Open(_folder["log"]);
        List<RecordedEvent> events = [];
        while (reader.Read(out RecordedEvent e)) events.Add(e with { Bytes = e.Bytes.ToArray() });
        return events;
    }
}
