namespace Groundstation.Core.Simulation;

/// <summary>A byte as a serial port reads it.</summary>
/// <param name="Value">Its eight data bits as they were sampled.</param>
/// <param name="Framed">
/// Its stop bit was high. Where it was low, Linux keeps the byte all the same unless told otherwise; other drivers give
/// a zero for it, or nothing.
/// </param>
public readonly record struct UartByte(byte Value, bool Framed);

/// <summary>
/// A serial line (a start bit that is low, eight data bits lowest first, a stop bit that is high; high when idle), read
/// at a rate that need not be the one it is sent at: each bit is sampled in its middle by the reader's own clock.
/// </summary>
public static class UartLine
{
    private const int BitsPerByte = 10;

    // A UART looks for the edge of a start bit sixteen times a bit.
    private const int LooksPerBit = 16;

    /// <summary>What is read of bytes sent one behind the other, with an idle line before and after.</summary>
    /// <param name="sent">The bytes.</param>
    /// <param name="sentBaud">Bits a second at which they are sent.</param>
    /// <param name="readBaud">Bits a second at which they are read.</param>
    public static IReadOnlyList<UartByte> Read(ReadOnlySpan<byte> sent, int sentBaud, int readBaud)
    {
        List<UartByte> read = [];
        double bit = (double)sentBaud / readBaud, look = bit / LooksPerBit, end = sent.Length * BitsPerByte;
        bool before = true;
        for (double at = 0; at < end;)
        {
            bool now = IsHigh(sent, at);
            if (now || !before || IsHigh(sent, at + 0.5 * bit))
            {
                before = now;
                at += look;
                continue;
            }

            int value = 0;
            for (int i = 0; i < 8; i++)
                value |= IsHigh(sent, at + (1.5 + i) * bit) ? 1 << i : 0;
            at += 9.5 * bit;
            before = IsHigh(sent, at);
            read.Add(new((byte)value, before));
        }

        return read;
    }

    private static bool IsHigh(ReadOnlySpan<byte> sent, double at)
    {
        int bit = (int)at % BitsPerByte, index = (int)at / BitsPerByte;
        return index >= sent.Length || bit == BitsPerByte - 1 || (bit > 0 && (sent[index] >> (bit - 1) & 1) == 1);
    }
}
