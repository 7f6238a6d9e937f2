using System.Diagnostics;
using System.Text;
using Groundstation.Core.Receive;
using Groundstation.Io.Sources;
using Xunit;

namespace Groundstation.Io.Tests.Sources;

/// <summary>Serial sources on real pseudo-terminals: nothing lost while up, back by themselves, never a hang.</summary>
public sealed class SerialPumpTests : PumpTests
{
    [Fact]
    public async Task A_serial_source_survives_unplugging_and_loses_no_byte_while_up()
    {
        using PtyPair pty = new(Temp);
        Stream far = pty.Plug();
        Task pump = Start("serial:" + pty.Device);
        await Heard.State(LinkState.Up, Limit);
        string first = await Write(far, 0);
        await Heard.Text(first, Limit);

        await far.DisposeAsync();
        pty.Unplug();
        await Heard.State(LinkState.Lost, Limit);
        far = pty.Plug();
        Stopwatch back = Stopwatch.StartNew();
        await Heard.State(LinkState.Up, Limit);
        Assert.True(back.Elapsed < TimeSpan.FromSeconds(3), $"back after {back.Elapsed}");
        string second = await Write(far, 1000);
        await Heard.Text(first + second, Limit);

        await Ends(pump);
        await far.DisposeAsync();
        Assert.Equal(["Opening ", $"Up {pty.Device} at 9600 Bd", "Lost"],
            Heard.Links.Take(2).Append(Heard.Links[2].Split(' ')[0]));
    }

    [Fact]
    public async Task Silence_is_no_loss()
    {
        using PtyPair pty = new(Temp);
        await using Stream far = pty.Plug();
        Task pump = Start("serial:" + pty.Device);
        await Heard.State(LinkState.Up, Limit);
        await Task.Delay(2500, Limit);
        await far.WriteAsync(Bytes.Of("after\r\n"), Limit);
        await Heard.Text("after\r\n", Limit);
        await Ends(pump);
        Assert.Equal(2, Heard.Links.Count);
    }

    [Theory]
    [InlineData("absent", "absent (no such device)")]
    [InlineData("file", "not a serial port")]
    public async Task Why_a_port_does_not_open_is_said_once_in_plain_words(string name, string why)
    {
        Temp.Write("file", "");
        Task pump = Start("serial:" + Temp[name]);
        await Heard.Said("Opening " + why, Limit);
        await Task.Delay(1500, Limit);
        await Ends(pump);
        Assert.Equal(["Opening ", "Opening " + why], Heard.Links);
    }

    [Fact]
    public async Task A_port_that_another_program_holds_is_called_busy()
    {
        if (Environment.IsPrivilegedProcess)
            Assert.Skip("needs a user without privileges: exclusive use does not bind root");
        using PtyPair pty = new(Temp);
        await using Stream far = pty.Plug();
        Task first = Start("serial:" + pty.Device);
        await Heard.State(LinkState.Up, Limit);
        Heard other = new();
        Task second = Start(new SourcePump(Radio, SourceAddress.Parse("serial:" + pty.Device), TimeProvider.System),
            other);
        await other.Said("Opening busy (another program has it open)", Limit);
        await Ends(Task.WhenAll(first, second));
    }

    [Fact]
    public async Task A_port_that_this_user_may_not_open_says_so()
    {
        if (Environment.IsPrivilegedProcess)
            Assert.Skip("needs a user without privileges: none bind root");
        using PtyPair pty = new(Temp);
        await using Stream far = pty.Plug();
        if (!OperatingSystem.IsWindows())
            File.SetUnixFileMode(pty.Device, UnixFileMode.None);
        Task pump = Start("serial:" + pty.Device);
        await Heard.Said("Opening permission denied (is this user in the group that may use serial ports?)", Limit);
        await Ends(pump);
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
}
