using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Groundstation.Core.Receive;
using Groundstation.Io.Sources;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace Groundstation.Io.Tests.Sources;

/// <summary>TCP sources: servers that are not there yet, hang up, swallow a visitor or fall silent.</summary>
public sealed class TcpPumpTests : PumpTests
{
    [Fact]
    public async Task A_TCP_source_waits_for_its_server_and_comes_back_after_a_hang_up()
    {
        using TcpFeeder server = new();
        Task pump = Start(server.Address);
        using (TcpClient visitor = await server.Visitor(Limit))
        {
            await visitor.GetStream().WriteAsync(Bytes.Of("one\r\n"), Limit);
            await Heard.Text("one\r\n", Limit);
        }

        await Heard.Said("Lost the other end hung up", Limit);
        using TcpClient again = await server.Visitor(Limit);
        await again.GetStream().WriteAsync(Bytes.Of("two\r\n"), Limit);
        await Heard.Text("one\r\ntwo\r\n", Limit);
        await Ends(pump);
    }

    [Fact]
    public async Task A_TCP_source_without_a_server_says_refused()
    {
        string address;
        using (TcpFeeder server = new())
            address = server.Address;
        Task pump = Start(address);
        await Heard.Said("Opening refused (nothing listens there)", Limit);
        await Ends(pump);
    }

    [Fact]
    public async Task A_server_that_swallows_calls_is_told_tried_again_and_holds_up_no_end()
    {
        using Socket busy = new(SocketType.Stream, ProtocolType.Tcp);
        busy.Bind(new IPEndPoint(IPAddress.Loopback, 0));
        busy.Listen(0);
        List<TcpClient> waiting = await Filled(((IPEndPoint)busy.LocalEndPoint!).Port);
        Task pump = Start($"tcp:127.0.0.1:{((IPEndPoint)busy.LocalEndPoint!).Port}");
        await Heard.Said("Opening no answer within 3 s", Limit);
        List<Socket> accepted = [];
        Task accepting = Task.Run(async () =>
        {
            while (!Limit.IsCancellationRequested)
                accepted.Add(await busy.AcceptAsync(Limit));
        }, Limit);
        await Heard.State(LinkState.Up, Limit);

        // And once more, to be stopped in the middle of a call.
        busy.Dispose();
        await Assert.ThrowsAnyAsync<SocketException>(() => accepting);
        foreach (IDisposable end in waiting.Cast<IDisposable>().Concat(accepted))
            end.Dispose();
        await Heard.Said("Lost the other end hung up", Limit);
        await Ends(pump);
    }

    [Fact]
    public async Task A_pump_ends_at_once_in_the_middle_of_a_call_that_nobody_answers()
    {
        using Socket busy = new(SocketType.Stream, ProtocolType.Tcp);
        busy.Bind(new IPEndPoint(IPAddress.Loopback, 0));
        busy.Listen(0);
        int port = ((IPEndPoint)busy.LocalEndPoint!).Port;
        List<TcpClient> waiting = await Filled(port);
        Task pump = Start($"tcp:127.0.0.1:{port}");
        await Task.Delay(200, Limit);
        Assert.Equal(["Opening "], Heard.Links);
        await Ends(pump);
        waiting.ForEach(visitor => visitor.Dispose());
    }

    // A server process that hangs, or a proxy whose own link is dead: the connection stays up and nothing comes.
    [Fact]
    public async Task A_server_that_fell_silent_is_called_anew_after_a_minute_then_after_two()
    {
        FakeTimeProvider time = new();
        using TcpFeeder server = new();
        Task pump = Start(new SourcePump(Radio, SourceAddress.Parse(server.Address), time), Heard);
        using TcpClient first = await server.Visitor(Limit);
        await first.GetStream().WriteAsync(Bytes.Of("one\r\n"), Limit);
        await Heard.Text("one\r\n", Limit);
        Task<TcpClient> visit = server.Visitor(Limit);
        Assert.Equal(60, await Passed(time, visit), 3);
        using TcpClient second = await visit;
        Assert.Contains("Lost no byte for 1 min: connecting anew", Heard.Links);

        visit = server.Visitor(Limit);
        Assert.Equal(120, await Passed(time, visit), 3);
        using TcpClient third = await visit;
        await third.GetStream().WriteAsync(Bytes.Of("two\r\n"), Limit);
        await Heard.Text("one\r\ntwo\r\n", Limit);
        visit = server.Visitor(Limit);
        Assert.Equal(60, await Passed(time, visit), 3);
        (await visit).Dispose();
        await Ends(pump);
    }

    [Fact]
    public async Task A_peer_that_vanishes_without_a_word_is_noticed_and_found_again()
    {
        using FarHost far = new();
        Task pump = Start($"tcp:{FarHost.Address}:2000");
        await far.Say("one\r\n");
        await Heard.Text("one\r\n", Limit);
        far.Vanish();
        // 10 s of silence and three probes, 2 s apart.
        await Heard.Said("Lost no longer answers (half-open connection)", Limit);
        far.Return();
        await Heard.State(LinkState.Up, Limit);
        await Ends(pump);
    }

    /// <summary>Calls a server that accepts nobody until its queue is full and further calls are swallowed.</summary>
    private async Task<List<TcpClient>> Filled(int port)
    {
        if (!OperatingSystem.IsLinux())
            Assert.Skip("needs Linux: elsewhere a full queue refuses");
        List<TcpClient> waiting = [];
        for (bool taken = true; taken;)
        {
            TcpClient visitor = new();
            waiting.Add(visitor);
            Task call = visitor.ConnectAsync(IPAddress.Loopback, port, Limit).AsTask();
            taken = await Task.WhenAny(call, Task.Delay(500, Limit)) == call;
            Assert.InRange(waiting.Count, 1, 20);
        }

        return waiting;
    }

    /// <summary>Lets time pass until something has happened; gives the seconds.</summary>
    private async Task<double> Passed(FakeTimeProvider time, Task what)
    {
        DateTimeOffset from = time.GetUtcNow();
        while (!what.IsCompleted)
        {
            Assert.True(time.GetUtcNow() - from < TimeSpan.FromMinutes(5), string.Join(" | ", Heard.Links));
            time.Advance(TimeSpan.FromMilliseconds(250));
            await Task.Delay(5, Limit);
        }

        return Math.Floor((time.GetUtcNow() - from).TotalSeconds);
    }
}
