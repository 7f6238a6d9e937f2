namespace Groundstation.Core.Sentences;

/// <summary>The checksum of NMEA 0183: exclusive or of the bytes between <c>$</c> or <c>!</c> and <c>*</c>.</summary>
public static class Checksum
{
    /// <summary>XOR of all bytes.</summary>
    public static byte Of(ReadOnlySpan<byte> bytes)
    {
        byte x = 0;
        foreach (byte b in bytes) x ^= b;
        return x;
    }

    /// <summary>
    /// Two hexadecimal digits, either case, as a value; −1 for anything else. A single digit is never padded: it is
    /// what a cut-off line leaves.
    /// </summary>
    public static int Read(ReadOnlySpan<byte> digits)
    {
        if (digits.Length != 2) return -1;
        int high = HexDigit(digits[0]);
        int low = HexDigit(digits[1]);
        return (high | low) < 0 ? -1 : (high << 4) | low;
    }

    /// <summary>A hexadecimal digit's value, either case; −1 for anything else.</summary>
    public static int HexDigit(byte b) => b switch
    {
        >= (byte)'0' and <= (byte)'9' => b - '0',
        >= (byte)'A' and <= (byte)'F' => b - 'A' + 10,
        >= (byte)'a' and <= (byte)'f' => b - 'a' + 10,
        _ => -1,
    };

    /// <summary>A value's two digits in upper case, as the standard writes them.</summary>
    public static void Write(byte value, Span<byte> digits)
    {
        digits[0] = "0123456789ABCDEF"u8[value >> 4];
        digits[1] = "0123456789ABCDEF"u8[value & 15];
    }
}
