using System.Net;
using Groundstation.Core.Quantities;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sharing;
using Groundstation.Io.Sources;
using MQTTnet;
using Xunit;

namespace Groundstation.Io.Tests.Sharing;

/// <summary>A flight shared over the station's own broker: who follows gets the same files, also after a gap.</summary>
public sealed class SharingTests : SharedFlights
{
    [Fact]
    public async Task A_follower_has_the_same_recording_and_logs_to_the_byte_also_when_it_comes_late_and_after_a_gap()
    {
        using Publisher publisher = new(Temp["shared"], $"listen:{Port}", Limit);
        await publisher.Send(0, 120);

        using (FollowSession late = Follow("copy"))
        {
            await Followed(late, "copy", "GPGGA,120159.00");
            await publisher.Send(120, 140);
            await Followed(late, "copy", "GPGGA,120219.00");
        }

        // Cut off, and killed in the middle of a line, at a line's end, at half of it, in its first line.
        await publisher.Send(140, 160);
        byte[] copy = File.ReadAllBytes(Temp["copy/received.nmea"]);
        foreach (int kept in new[] { copy.Length - 1, copy.Length, copy.Length / 2, 30 })
        {
            Directory.CreateDirectory(Temp[$"cut{kept}"]);
            File.WriteAllBytes(Temp[$"cut{kept}/received.nmea"], copy[..kept]);
            using FollowSession cut = Follow($"cut{kept}");
            await Followed(cut, $"cut{kept}", "GPGGA,120239.00");
            Assert.StartsWith(Read($"cut{kept}"), Read("shared"), StringComparison.Ordinal);
        }

        File.WriteAllBytes(Temp["copy/received.nmea"], copy[..^7]);
        using (FollowSession again = Follow("copy"))
        {
            await Followed(again, "copy", "GPGGA,120239.00");
            await publisher.Stop();
            await Followed(again, "copy", "$PGSE,END");
        }

        AssertSame("shared", "copy");
        Assert.True(File.ReadAllLines(Temp["copy/fixes.csv"]).Length > 150);
    }

    [Fact]
    public async Task Winds_and_maps_of_the_plan_are_shared_so_that_the_follower_estimates_the_same()
    {
        Temp.Write("night.csv", "height_m,from_deg,speed_mps\n200,240,5\n12000,260,30\n32000,90,12\n");
        Temp.Write("lake.geojson", """
            {"type":"Polygon","coordinates":[[[-36,44],[-24,44],[-24,52],[-36,52],[-36,44]]]}
            """);
        string plan = Temp.Write("plan.toml",
            "winds = [\"night.csv\"]\n[landing]\nkeep_out = [\"lake.geojson\"]\n");
        using Publisher publisher = new(Temp["shared"], $"listen:{Port}", Limit, plan);
        await publisher.Send(0, 120);
        using (FollowSession follower = Follow("copy"))
        {
            await Followed(follower, "copy", "GPGGA,120159.00");
            await publisher.Stop();
            await Followed(follower, "copy", "$PGSE,END");
            Assert.Equal(3, Assert.Single(follower.Plan.Winds).Levels.Length);
            Assert.Equal("area 1", Assert.Single(follower.Plan.Overlays.KeepOuts).Name);
        }

        AssertSame("shared", "copy");
        Assert.Equal(File.ReadAllText(Temp["shared/plan.toml"]), File.ReadAllText(Temp["copy/plan.toml"]));
    }

    [Fact]
    public async Task A_follower_that_takes_nothing_holds_up_neither_the_station_nor_another_and_has_all_later()
    {
        using Publisher publisher = new(Temp["shared"], $"listen:{Port}", Limit);
        await publisher.Send(0, 10);
        using FollowSession stuck = Follow("stuck"), quick = Follow("quick");
        Task running = Followed(quick, "quick", "$PGSE,END");
        for (int i = 10; i < 900; i += 5)
        {
            await publisher.Send(i, i + 5);
            await Task.Delay(15, Limit);
        }

        await Until(() => Read("quick").Contains("GPGGA,121459.00", StringComparison.Ordinal));
        Task late = Followed(stuck, "stuck", "$PGSE,END");
        await publisher.Stop();
        await Task.WhenAll(running, late);
        AssertSame("shared", "quick");
        AssertSame("shared", "stuck");
    }

    [Theory]
    [InlineData("winds/1-night.csv", true)]
    [InlineData("keep-out-1.geojson", true)]
    [InlineData("winds/../plan.toml", false)]
    [InlineData("winds/..", false)]
    [InlineData("winds/a/b", false)]
    [InlineData("winds\\x", false)]
    [InlineData("winds/C:x", false)]
    [InlineData("winds/COM3", false)]
    [InlineData("winds/1", false)]
    [InlineData("winds/1-C:x", false)]
    [InlineData("winds/1-../x", false)]
    [InlineData("winds/1-..\\..\\x", false)]
    [InlineData("/etc/passwd", false)]
    [InlineData("../x", false)]
    [InlineData("received.nmea", false)]
    [InlineData("keep-out-1/../../x", false)]
    public void Files_from_outside_stay_in_the_flight_folder(string name, bool ours)
    {
        Assert.Equal(ours, SharedFiles.IsOurs(name));
        Assert.Equal(ours, SharedFiles.Read(SharedFiles.Message(name, [1, 2])) is not null);
    }

    [Fact]
    public async Task Other_programs_get_each_line_and_the_newest_landing_estimate_and_may_not_publish()
    {
        using Publisher publisher = new(Temp["shared"], $"listen:{Port}", Limit);
        using IMqttClient other = new MqttClientFactory().CreateMqttClient();
        List<(string Topic, string Text)> heard = [];
        other.ApplicationMessageReceivedAsync += m =>
        {
            lock (heard)
                heard.Add((m.ApplicationMessage.Topic, m.ApplicationMessage.ConvertPayloadToString()));
            return Task.CompletedTask;
        };
        await other.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", Port).Build(), Limit);
        await other.SubscribeAsync("flight/received/radio1", cancellationToken: Limit);
        await other.SubscribeAsync("flight/landing", cancellationToken: Limit);
        await publisher.Send(0, 100);
        await Until(() => Any("flight/received/radio1", "$GPGGA,120139.00") && Any("flight/landing", ",ascent,"));
        await other.PublishStringAsync("flight/received/radio1", "forged", cancellationToken: Limit);
        await Task.Delay(300, Limit);
        Assert.False(Any("flight/received/radio1", "forged"));

        bool Any(string topic, string text)
        {
            lock (heard)
                return heard.Any(m => m.Topic == topic && m.Text.Contains(text, StringComparison.Ordinal));
        }
    }

    [Fact]
    public async Task A_plan_that_was_edited_with_an_error_or_a_map_that_is_gone_does_not_end_the_sharing()
    {
        string plan = Temp.Write("own.toml", "");
        using (FlightFolder shared = FlightFolder.Open(Temp["shared"], FolderUse.Live))
        {
            shared.Record(RecordedEvent.Opened(Instant.FromUnixMilliseconds(1_782_000_000_000), 7));
            shared.Record(RecordedEvent.OfTime(RecordedKind.Ended, Instant.FromUnixMilliseconds(1_782_000_001_000)));
        }

        foreach (string text in (string[])["nonsense", "[landing]\nkeep_out = [\"keep-out-1.geojson\"]\n"])
        {
            Temp.Write("shared/plan.toml", text);
            using FlightShare share = new(ShareTarget.Parse($"listen:{Port}"), Temp["shared"], _ => { });
            string copy = $"copy{text.Length}";
            using FollowSession follower = Follow(copy, planFile: plan);
            await Followed(follower, copy, "$PGSE,END");
        }
    }

    [Fact]
    public void A_strangers_log_in_the_folder_is_refused_and_left_as_it_is()
    {
        Directory.CreateDirectory(Temp["copy"]);
        Temp.Write("copy/received.nmea", "a log without a line end");
        Assert.Contains("no recording of this program",
            Assert.Throws<UserErrorException>(() => Follow("copy")).Message, StringComparison.Ordinal);
        Assert.Equal("a log without a line end", Read("copy"));
    }

    [Fact]
    public void Where_nothing_is_shared_it_says_so()
    {
        UserErrorException none = Assert.Throws<UserErrorException>(() => Follow("none"));
        Assert.Contains("cannot be followed: refused (nothing listens there)", none.Message,
            StringComparison.Ordinal);
        Assert.False(Directory.Exists(Temp["none"]));
    }

    [Theory]
    [InlineData("mqtt:radio.local/flight", "mqtt:radio.local:1883/flight")]
    [InlineData("mqtts:team@[::1]:9000/a/b-1", "mqtts:team@[::1]:9000/a/b-1")]
    public void Addresses_are_read(string typed, string meant) =>
        Assert.Equal(meant, SourceAddress.Parse(typed).ToString());

    [Theory]
    [InlineData("mqtt:host")]
    [InlineData("mqtt:host/")]
    [InlineData("mqtt:host/a/#")]
    [InlineData("mqtt:host/../x")]
    [InlineData("mqtt:/flight")]
    [InlineData("listens:1883/#")]
    [InlineData("listen:70000/x")]
    [InlineData("listen:1883/+")]
    public void Addresses_that_cannot_be_meant_are_refused(string typed) =>
        Assert.Throws<UserErrorException>(() => ShareTarget.Parse(typed));

    [Fact]
    public void A_password_in_an_address_is_refused_and_not_shown()
    {
        string message = Assert.Throws<UserErrorException>(
            () => SourceAddress.Parse("mqtts:team:geheim@radio.local/flight")).Message;
        Assert.Contains("GROUNDSTATION_MQTT_PASSWORD", message, StringComparison.Ordinal);
        Assert.DoesNotContain("geheim", message, StringComparison.Ordinal);
    }

    [Fact]
    public void Sharing_keeps_to_this_computer_unless_told_otherwise()
    {
        Assert.Equal(IPAddress.Loopback, ShareTarget.Parse("").Listen);
        Assert.Equal(IPAddress.Loopback, ShareTarget.Parse("listen:9000/x").Listen);
        Assert.Equal(IPAddress.Any, ShareTarget.Parse("listen:0.0.0.0:9000/x").Listen);
    }
}
