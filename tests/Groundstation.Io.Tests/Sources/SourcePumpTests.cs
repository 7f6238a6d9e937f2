using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Groundstation.Core.Receive;
using Groundstation.Io.Sources;
using Xunit;

namespace Groundstation.Io.Tests.Sources;

/// <summary>
/// Sources on real pseudo-terminals and sockets: nothing lost while up, back by themselves, never a hang.
/// </summary>
public sealed class SourcePumpTests : IDisposable
{
    private static readonly SourceId _radio = new("radio1");
    private readonly TempFolder _folder = new();
    private readonly CancellationTokenSource _stop = new();
    private readonly Heard _heard = new();
    private readonly CancellationToken _limit = TestContext.Current.CancellationToken;

    public void Dispose()
    {
        _stop.Dispose();
        _folder.Dispose();
    }

    [Fact]
    public async Task A_serial_source_survives_unplugging_and_loses_no_byte_while_up()
    {
        using PtyPair pty = new(_folder);
        Stream far = pty.Plug();
        Task pump = Start("serial:" + pty.Device);
        await _heard.State(LinkState.Up, _limit);
        string first = await Write(far, 0);
        await _heard.Text(first, _limit);

        await far.DisposeAsync();
        pty.Unplug();
        await _heard.State(LinkState.Lost, _limit);
        far = pty.Plug();
        Stopwatch back = Stopwatch.StartNew();
        await _heard.State(LinkState.Up, _limit);
        Assert.True(back.Elapsed < TimeSpan.FromSeconds(3), $"back after {back.Elapsed}");
        string second = await Write(far, 1000);
        await _heard.Text(first + second, _limit);

        await Ends(pump);
        await far.DisposeAsync();
        Assert.Equal(["Opening ", $"Up {pty.Device} at 9600 Bd", "Lost"],
            _heard.Links.Take(2).Append(_heard.Links[2].Split(' ')[0]));
    }

    [Fact]
    public async Task Silence_is_no_loss()
    {
        using PtyPair pty = new(_folder);
        await using Stream far = pty.Plug();
        Task pump = Start("serial:" + pty.Device);
        await _heard.State(LinkState.Up, _limit);
        await Task.Delay(2500, _limit);
        await far.WriteAsync(Bytes.Of("after\r\n"), _limit);
        await _heard.Text("after\r\n", _limit);
        await Ends(pump);
        Assert.Equal(2, _heard.Links.Count);
    }

    [Theory]
    [InlineData("absent", "absent (no such device)")]
    [InlineData("file", "not a serial port")]
    public async Task Why_a_port_does_not_open_is_said_once_in_plain_words(string name, string why)
    {
        _folder.Write("file", "");
        Task pump = Start("serial:" + _folder[name]);
        await _heard.Said("Opening " + why, _limit);
        await Task.Delay(1500, _limit);
        await Ends(pump);
        Assert.Equal(["Opening ", "Opening " + why], _heard.Links);
    }

    [Fact]
    public async Task A_port_that_another_program_holds_is_called_busy()
    {
        if (Environment.IsPrivilegedProcess)
            Assert.Skip("needs a user without privileges: exclusive use does not bind root");
        using PtyPair pty = new(_folder);
        await using Stream far = pty.Plug();
        Task first = Start("serial:" + pty.Device);
        await _heard.State(LinkState.Up, _limit);
        Heard other = new();
        Task second = new SourcePump(_radio, SourceAddress.Parse("serial:" + pty.Device), TimeProvider.System)
            .RunAsync(other, _stop.Token);
        await other.Said("Opening busy (another program has it open)", _limit);
        await Ends(Task.WhenAll(first, second));
    }

    [Fact]
    public async Task A_search_finds_the_port_on_which_sentences_come_and_gives_what_it_heard_meanwhile()
    {
        using PtyPair pty = new(_folder);
        await using Stream far = pty.Plug();
        SerialSearch search = new(TimeProvider.System, () => [_folder["absent"], pty.Device]);
        Task pump = new SourcePump(_radio, new SerialAutoAddress(), TimeProvider.System, search.Open, true)
            .RunAsync(_heard, _stop.Token);
        await _heard.Said($"Opening listening on {pty.Device} at 9600 Bd", _limit);
        string sent = Recordings.ForeignLogTests.Gga("120000") + Recordings.ForeignLogTests.Gga("120001")
            + Recordings.ForeignLogTests.Gga("120002");
        await far.WriteAsync(Bytes.Of(sent), _limit);
        await _heard.Text(sent, _limit);
        await far.WriteAsync(Bytes.Of("more"), _limit);
        await _heard.Text(sent + "more", _limit);
        await Ends(pump);
        Assert.Contains($"Up {pty.Device} at 9600 Bd", _heard.Links);
    }

    [Fact]
    public async Task A_receiver_that_comes_back_under_another_name_is_found_there_before_the_other_ports()
    {
        using PtyPair first = new(_folder), silent = new(_folder, "silent"), second = new(_folder, "renamed");
        await using Stream nothing = silent.Plug();
        Stream far = first.Plug();
        SerialSearch search = new(TimeProvider.System,
            () => [.. new[] { first.Device, silent.Device, second.Device }.Where(File.Exists)]);
        string sent = Recordings.ForeignLogTests.Gga("120000") + Recordings.ForeignLogTests.Gga("120001")
            + Recordings.ForeignLogTests.Gga("120002");
        Task pump = new SourcePump(_radio, new SerialAutoAddress(), TimeProvider.System, search.Open, true)
            .RunAsync(_heard, _stop.Token);
        await _heard.Said($"Opening listening on {first.Device} at 9600 Bd", _limit);
        await far.WriteAsync(Bytes.Of(sent), _limit);
        await _heard.Text(sent, _limit);

        await far.DisposeAsync();
        first.Unplug();
        await _heard.State(LinkState.Lost, _limit);
        far = second.Plug();
        await _heard.Said($"Lost listening on {second.Device} at 9600 Bd", _limit);
        await far.WriteAsync(Bytes.Of(sent), _limit);
        await _heard.Text(sent + sent, _limit);
        await Ends(pump);
        await far.DisposeAsync();
    }

    [Fact]
    public async Task A_port_that_this_user_may_not_open_says_so()
    {
        if (Environment.IsPrivilegedProcess)
            Assert.Skip("needs a user without privileges: none bind root");
        using PtyPair pty = new(_folder);
        await using Stream far = pty.Plug();
        if (!OperatingSystem.IsWindows())
            File.SetUnixFileMode(pty.Device, UnixFileMode.None);
        Task pump = Start("serial:" + pty.Device);
        await _heard.Said("Opening permission denied (is this user in the group that may use serial ports?)", _limit);
        await Ends(pump);
    }

    [Fact]
    public async Task A_search_that_finds_nothing_says_where_it_listened()
    {
        SerialSearch search = new(TimeProvider.System, () => [_folder["absent"]]);
        SourceTroubleException none = await Assert.ThrowsAsync<SourceTroubleException>(
            () => search.Open(_ => { }, _limit));
        Assert.Contains($"{_folder["absent"]}: absent", none.Message, StringComparison.Ordinal);
        Assert.Contains("9600, 4800, 115200, 38400, 57600, 19200", none.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_TCP_source_waits_for_its_server_and_comes_back_after_a_hang_up()
    {
        using TcpFeeder server = new();
        Task pump = Start(server.Address);
        using (TcpClient visitor = await server.Visitor(_limit))
        {
            await visitor.GetStream().WriteAsync(Bytes.Of("one\r\n"), _limit);
            await _heard.Text("one\r\n", _limit);
        }

        await _heard.Said("Lost the other end hung up", _limit);
        using TcpClient again = await server.Visitor(_limit);
        await again.GetStream().WriteAsync(Bytes.Of("two\r\n"), _limit);
        await _heard.Text("one\r\ntwo\r\n", _limit);
        await Ends(pump);
    }

    [Fact]
    public async Task A_TCP_source_without_a_server_says_refused()
    {
        string address;
        using (TcpFeeder server = new())
            address = server.Address;
        Task pump = Start(address);
        await _heard.Said("Opening refused (nothing listens there)", _limit);
        await Ends(pump);
    }

    [Fact]
    public async Task UDP_datagrams_come_on_this_computer_and_an_empty_one_is_no_end()
    {
        int port = FreeUdpPort();
        Task pump = Start($"udp:{port}");
        await _heard.State(LinkState.Up, _limit);
        using UdpClient sender = new();
        IPEndPoint to = new(IPAddress.Loopback, port);
        await sender.SendAsync(Bytes.Of("a\r\n"), to, _limit);
        await sender.SendAsync(Array.Empty<byte>(), to, _limit);
        await sender.SendAsync(Bytes.Of(new string('b', 20_000)), to, _limit);
        await _heard.Text("a\r\n" + new string('b', 20_000), _limit);
        await Ends(pump);
    }

    [Fact]
    public async Task A_UDP_port_in_use_is_called_busy()
    {
        using UdpClient holder = new(new IPEndPoint(IPAddress.Loopback, 0));
        Task pump = Start($"udp:{((IPEndPoint)holder.Client.LocalEndPoint!).Port}");
        await _heard.Said("Opening busy (another program listens on that port)", _limit);
        await Ends(pump);
    }

    [Fact]
    public async Task Standard_input_ends_for_good()
    {
        MemoryStream input = new(Bytes.Of("x\r\ny"));
        await new SourcePump(_radio, new StandardInputAddress(), TimeProvider.System,
            (_, _) => Task.FromResult(Openers.Standard(input))).RunAsync(_heard, _stop.Token);
        Assert.Equal("x\r\ny", _heard.AllText);
        Assert.Equal(["Opening ", "Up ", "Ended end of input"], _heard.Links);
    }

    private static async Task<string> Write(Stream far, int from)
    {
        StringBuilder all = new();
        for (int i = from; i < from + 500; i++)
        {
            string line = $"$GPXXX,{i},abcdefghijklmnopqrstuvwxyz*00\r\n";
            all.Append(line);
            await far.WriteAsync(Bytes.Of(line));
        }

        return all.ToString();
    }

    private static int FreeUdpPort()
    {
        using UdpClient probe = new(new IPEndPoint(IPAddress.Loopback, 0));
        return ((IPEndPoint)probe.Client.LocalEndPoint!).Port;
    }

    private Task Start(string address) =>
        new SourcePump(_radio, SourceAddress.Parse(address), TimeProvider.System).RunAsync(_heard, _stop.Token);

    private async Task Ends(Task pump)
    {
        await _stop.CancelAsync();
        await pump.WaitAsync(TimeSpan.FromSeconds(2), _limit);
    }

    /// <summary>Remembers what came, and waits for what should.</summary>
    private sealed class Heard : ISourceSink
    {
        private static readonly TimeSpan _longest = TimeSpan.FromSeconds(15);
        private readonly StringBuilder _text = new();
        private readonly List<string> _links = [];
        private LinkState? _state;

        public IReadOnlyList<string> Links
        {
            get
            {
                lock (_links)
                    return [.. _links];
            }
        }

        public string AllText
        {
            get
            {
                lock (_links)
                    return _text.ToString();
            }
        }

        public void Bytes(SourceId source, ReadOnlySpan<byte> bytes)
        {
            lock (_links)
                _text.Append(Encoding.Latin1.GetString(bytes));
        }

        public void Link(SourceId source, LinkState state, string why)
        {
            lock (_links)
            {
                _state = state;
                _links.Add($"{state} {why}");
            }
        }

        public Task State(LinkState state, CancellationToken limit) => Until(() => _state == state, $"{state}", limit);

        public Task Said(string link, CancellationToken limit) => Until(() => _links.Contains(link), link, limit);

        public async Task Text(string text, CancellationToken limit)
        {
            await Until(() => _text.Length >= text.Length, $"{text.Length} bytes", limit);
            Assert.Equal(text, AllText);
        }

        private async Task Until(Func<bool> holds, string what, CancellationToken limit)
        {
            Stopwatch waited = Stopwatch.StartNew();
            while (true)
            {
                lock (_links)
                {
                    if (holds())
                        return;
                }

                Assert.True(waited.Elapsed < _longest,
                    $"waited for {what}; came {_text.Length} bytes and {string.Join(" | ", Links)}");
                await Task.Delay(5, limit);
            }
        }
    }
}
