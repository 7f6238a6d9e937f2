using Groundstation.Core.Receive;
using Groundstation.Core.Simulation;
using Groundstation.Io.Sources;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace Groundstation.Io.Tests.Sources;

/// <summary><c>serial:auto</c>: the port and the baud rate at which sentences come.</summary>
public sealed class SerialSearchTests : PumpTests
{
    [Fact]
    public async Task A_search_finds_the_port_on_which_sentences_come_and_gives_what_it_heard_meanwhile()
    {
        using PtyPair pty = new(Temp);
        await using Stream far = pty.Plug();
        SerialSearch search = new(TimeProvider.System, () => [Temp["absent"], pty.Device]);
        Task pump = Start(
            new SourcePump(Radio, new SerialAutoAddress(), TimeProvider.System, search.Open, true), Heard);
        await Heard.Said($"Opening listening on {pty.Device} at 9600 Bd", Limit);
        string sent = Recordings.ForeignLogTests.Gga("120000") + Recordings.ForeignLogTests.Gga("120001")
            + Recordings.ForeignLogTests.Gga("120002");
        await far.WriteAsync(Bytes.Of(sent), Limit);
        await Heard.Text(sent, Limit);
        await far.WriteAsync(Bytes.Of("more"), Limit);
        await Heard.Text(sent + "more", Limit);
        await Ends(pump);
        Assert.Contains($"Up {pty.Device} at 9600 Bd", Heard.Links);
    }

    [Fact]
    public async Task A_receiver_that_comes_back_under_another_name_is_found_there_before_the_other_ports()
    {
        using PtyPair first = new(Temp), silent = new(Temp, "silent"), second = new(Temp, "renamed");
        await using Stream nothing = silent.Plug();
        Stream far = first.Plug();
        SerialSearch search = new(TimeProvider.System,
            () => [.. new[] { first.Device, silent.Device, second.Device }.Where(File.Exists)]);
        string sent = Recordings.ForeignLogTests.Gga("120000") + Recordings.ForeignLogTests.Gga("120001")
            + Recordings.ForeignLogTests.Gga("120002");
        Task pump = Start(
            new SourcePump(Radio, new SerialAutoAddress(), TimeProvider.System, search.Open, true), Heard);
        await Heard.Said($"Opening listening on {first.Device} at 9600 Bd", Limit);
        await far.WriteAsync(Bytes.Of(sent), Limit);
        await Heard.Text(sent, Limit);

        await far.DisposeAsync();
        first.Unplug();
        await Heard.State(LinkState.Lost, Limit);
        far = second.Plug();
        await Heard.Said($"Lost listening on {second.Device} at 9600 Bd", Limit);
        Assert.DoesNotContain($"Lost listening on {silent.Device} at 9600 Bd", Heard.Links);
        await far.WriteAsync(Bytes.Of(sent), Limit);
        await Heard.Text(sent + sent, Limit);
        await Ends(pump);
        await far.DisposeAsync();
    }

    [Fact]
    public async Task A_search_that_finds_nothing_says_where_it_listened()
    {
        SerialSearch search = new(TimeProvider.System, () => [Temp["absent"]]);
        SourceTroubleException none = await Assert.ThrowsAsync<SourceTroubleException>(
            () => search.Open(_ => { }, Limit));
        Assert.Contains($"{Temp["absent"]}: absent", none.Message, StringComparison.Ordinal);
        Assert.Contains("9600, 4800, 115200, 38400, 57600, 19200", none.Message, StringComparison.Ordinal);
    }

    // Bytes as a UART reads them at the wrong rate: a pseudo-terminal knows no rates.
    [Theory]
    [InlineData(4800)]
    [InlineData(9600)]
    [InlineData(19200)]
    [InlineData(38400)]
    [InlineData(57600)]
    [InlineData(115200)]
    public async Task The_rate_at_which_a_receiver_sends_is_found_and_a_silent_port_is_passed_over(int sent)
    {
        FakeTimeProvider time = new();
        SerialSearch search = new(time, () => ["silent", "receiver"], (device, rate, _) =>
            Task.FromResult(device == "silent" ? Silent() : Receiver(time, sent, rate)));
        Task pump = Start(new SourcePump(Radio, new SerialAutoAddress(), time, search.Open, true), Heard);
        while (!Heard.Links.Any(l => l.StartsWith("Up", StringComparison.Ordinal)))
        {
            // Two seconds at each of six rates of both ports.
            Assert.True(time.GetUtcNow() - time.Start < TimeSpan.FromSeconds(26), string.Join(" | ", Heard.Links));
            time.Advance(TimeSpan.FromMilliseconds(50));
            await Task.Delay(1, Limit);
        }

        Assert.Equal($"Up receiver at {sent} Bd", Heard.Links[^1]);
        await Ends(pump);
    }

    private static TunedSource Silent() =>
        new(new OpenedSource(_ => new TaskCompletionSource<int>().Task, static () => { }), static _ => { });

    /// <summary>An epoch a second, read at the rate that the port is set to.</summary>
    private static TunedSource Receiver(TimeProvider time, int sent, int rate)
    {
        int read = rate;
        byte[] epoch = Bytes.Of(Recordings.ForeignLogTests.Gga("120000") + Recordings.ForeignLogTests.Gga("120000"));
        return new(new OpenedSource(async buffer =>
        {
            await Task.Delay(TimeSpan.FromSeconds(1), time);
            byte[] bytes = [.. UartLine.Read(epoch, sent, read).Select(b => b.Value)];
            bytes.CopyTo(buffer);
            return bytes.Length;
        }, static () => { }), baud => read = baud);
    }
}
