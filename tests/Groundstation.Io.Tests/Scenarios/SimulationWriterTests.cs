using System.Text;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Simulation;
using Groundstation.Io.Recordings;
using Groundstation.Io.Scenarios;
using Xunit;

namespace Groundstation.Io.Tests.Scenarios;

public class SimulationWriterTests
{
    private static Scenario Short => new()
    {
        LaunchUtc = Instant.FromUtc(new(2027, 5, 8), TimeSpan.FromHours(9)),
        LaunchSite = new(46.5, 7.9),
        Balloon = new() { BurstHeight = new(1500) },
        PadS = 10,
        AfterLandingS = 30,
    };

    private static List<(RecordedKind Kind, Instant At, LinkState State, string Text)> Read(Scenario scenario,
        TempFolder folder)
    {
        using RecordingReader reader = RecordingReader.Open(SimulationWriter.Write(scenario, folder.Path).Recording);
        Assert.True(reader.IsOwn);
        List<(RecordedKind, Instant, LinkState, string)> events = [];
        while (reader.Read(out RecordedEvent e))
            events.Add((e.Kind, e.At, e.State, Encoding.Latin1.GetString(e.Bytes.Span)));
        Assert.Equal(0, reader.Damaged);
        return events;
    }

    [Fact]
    public void Every_second_of_arrival_time_has_something_and_times_never_go_back()
    {
        using TempFolder folder = new();
        var events = Read(Short with
        {
            Radio = new()
            {
                Baud = 4800,
                Silences = [new(FromS: 60, ForS: 40), new(DescentBelowM: 500)],
                LinkGaps = [new(150, 20)],
            },
        }, folder);
        Assert.Equal(RecordedKind.Opened, events[0].Kind);
        Assert.Equal(RecordedKind.Ended, events[^1].Kind);
        Assert.All(events.Zip(events.Skip(1)), pair => Assert.True(pair.Second.At >= pair.First.At));
        long[] seconds = [.. events.Select(e => e.At.UnixMilliseconds / 1000).Distinct()];
        Assert.Equal(seconds[^1] - seconds[0] + 1, seconds.Length);

        // A tick stands alone in its second.
        foreach (var tick in events.Where(e => e.Kind == RecordedKind.Tick))
            Assert.Single(events, e => e.At.UnixMilliseconds / 1000 == tick.At.UnixMilliseconds / 1000);
        Assert.InRange(events.Count(e => e.Kind == RecordedKind.Tick), 55 + 30, 55 + 30 + 150);
    }

    [Fact]
    public void A_link_gap_is_a_link_lost_and_up_again_with_nothing_between()
    {
        using TempFolder folder = new();
        var events = Read(Short with { Radio = new() { LinkGaps = [new(100, 20)] } }, folder);
        int lost = events.FindIndex(e => e.Kind == RecordedKind.Link && e.State == LinkState.Lost);
        int up = events.FindIndex(lost, e => e.Kind == RecordedKind.Link && e.State == LinkState.Up);
        Assert.Equal(20, events[up].At.SecondsSince(events[lost].At), 1.0);
        Assert.All(events[(lost + 1)..up], e => Assert.Equal(RecordedKind.Tick, e.Kind));
    }

    [Fact]
    public void Damaged_bytes_are_kept_and_come_back_as_they_were()
    {
        using TempFolder folder = new();
        Scenario scenario = Short with { Radio = new() { DamagedShare = 0.2 } };
        string back = string.Concat(Read(scenario, folder).Select(e => e.Text));
        Transmission way = new(scenario);
        List<ArrivedBytes> sent = [];
        foreach (SimulatedEpoch epoch in FlightSimulator.Run(scenario))
            way.Carry(epoch, sent);
        string expected = string.Concat(sent.Select(s => Encoding.Latin1.GetString(s.Bytes)));
        // Line ends are made alike and empty lines vanish; nothing else changes.
        Assert.Equal(Joined(expected), Joined(back));

        static string Joined(string text) =>
            string.Join('\n', text.Split(['\r', '\n'], StringSplitOptions.RemoveEmptyEntries));
    }

    [Fact]
    public void Truth_has_a_row_for_each_second_from_pad_to_landed()
    {
        using TempFolder folder = new();
        SimulationResult result = SimulationWriter.Write(Short with { Receiver = new() { RateHz = 5 } }, folder.Path);
        string[] lines = File.ReadAllText(result.Truth).Split("\r\n");
        Assert.Equal("t_s,utc,latitude_deg,longitude_deg,height_msl_m,vertical_rate_mps,wind_east_mps,wind_north_mps,"
            + "phase", lines[0]);
        Assert.Equal("-10,2027-05-08T08:59:50.000Z,46.500000,7.900000,0.0,0.00,0.00,0.00,pad", lines[1]);
        Assert.EndsWith(",landed", lines[^2], StringComparison.Ordinal);
        Assert.Equal(Math.Ceiling(result.Landing!.Value.TimeS + 30) + 10, lines.Length - 2, 2.0);
    }

    [Fact]
    public void A_folder_that_cannot_be_made_is_named()
    {
        using TempFolder folder = new();
        string blocked = Path.Combine(folder.Write("file", ""), "sub");
        UserErrorException e = Assert.Throws<UserErrorException>(() => SimulationWriter.Write(Short, blocked));
        Assert.StartsWith($"{blocked}: cannot be made (", e.Message, StringComparison.Ordinal);
    }
}
