using System.Text;
using Groundstation.Core.Fixes;
using Groundstation.Core.Simulation;
using Xunit;
using static Groundstation.Core.Tests.Fixes.Wire;

namespace Groundstation.Core.Tests.Fixes;

/// <summary>What a serial port gives at the wrong rate, whatever its driver does with bytes that it doubts.</summary>
public class LineFaultTests
{
    private static readonly int[] _rates = [4800, 9600, 19200, 38400, 57600, 115200];

    public static TheoryData<int, int> Wrong =>
        [.. _rates.SelectMany(sent => _rates.Where(read => read != sent).Select(read => (sent, read)))];

    private static byte[] Epoch(int s)
    {
        string time = (TimeSpan.FromHours(9) + TimeSpan.FromSeconds(s)).ToString("hhmmss", null);
        return Encoding.Latin1.GetBytes(string.Concat(((string[])[Gga(time), Rmc(time),
            "GPGSA,A,3,15,17,30,28,01,19,24,11,,,,,1.8,0.9,1.5"]).Select(l => Closed(l) + "\r\n")));
    }

    [Fact]
    public void At_the_right_rate_a_line_gives_what_was_sent() =>
        Assert.Equal(Epoch(0).Select(b => new UartByte(b, true)), UartLine.Read(Epoch(0), 9600, 9600));

    [Fact]
    public void A_byte_at_half_and_at_twice_its_rate_is_what_the_bits_say()
    {
        // 0x00 sent at 4800: nine low bits are eighteen at 9600, a zero with a bad stop bit, then high.
        Assert.Equal([new UartByte(0, false)], UartLine.Read([0], 4800, 9600));
        // 0xFF sent at 4800: the start bit is two low bits at 9600, the lowest data bit is lost in it.
        Assert.Equal([new UartByte(0xFE, true)], UartLine.Read([0xFF], 4800, 9600));
    }

    [Theory]
    [MemberData(nameof(Wrong))]
    public void A_wrong_rate_is_named_whether_doubtful_bytes_are_kept_zero_or_dropped(int sent, int read)
    {
        foreach (Func<UartByte, byte?> driver in (Func<UartByte, byte?>[])[
            static b => b.Value, static b => b.Framed ? b.Value : (byte)0, static b => b.Framed ? b.Value : null])
        {
            Wire wire = new();
            int bytes = 0;
            for (int s = 0; s < 50; s++)
            {
                byte[] heard = [.. UartLine.Read(Epoch(s), sent, read).Select(driver).OfType<byte>()];
                bytes += heard.Length;
                wire.HearBytes(heard).Wait(1);
            }

            ReceiverHealth health = wire.Source.Health(wire.Now);
            Assert.Empty(wire.Fixes);
            Assert.Equal(0, health.Accepted);
            // Nothing at all may come where every byte is dropped: then the alarm for silence stands. One comma an
            // epoch (115200 read at 4800) could be anything.
            if (bytes > 0)
                Assert.StartsWith(bytes > 50 ? "wrong baud rate?" : "another protocol or baud rate?", health.LineFault,
                    StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Text_without_sentences_is_no_wrong_rate()
    {
        Wire wire = new();
        for (int s = 0; s < 20; s++)
            wire.HearBytes("LAT 47.1234 LON 3.4567 ALT 12345\r\n"u8).Wait(1);
        Assert.StartsWith("another protocol or baud rate?", wire.Source.Health(wire.Now).LineFault,
            StringComparison.Ordinal);
    }
}
