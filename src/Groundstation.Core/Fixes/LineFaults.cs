using Groundstation.Core.Sentences;

namespace Groundstation.Core.Fixes;

/// <summary>Faults of the serial line that show in the bytes.</summary>
internal static class LineFaults
{
    /// <summary>
    /// True for a rejected stretch that would be a good sentence if the eighth bit of its bytes were cleared, or whose
    /// checksum is off by exactly that bit: seven data bits and parity read as eight data bits, or a level fault.
    /// </summary>
    public static bool IsEighthBit(ReadOnlySpan<byte> bytes)
    {
        Span<byte> seven = stackalloc byte[128];
        int length = Math.Min(bytes.Length, seven.Length);
        bool high = false;
        for (int i = 0; i < length; i++)
        {
            high |= bytes[i] > 0x7F;
            seven[i] = (byte)(bytes[i] & 0x7F);
        }

        ReadOnlySpan<byte> text = seven[..length];
        int start = text.LastIndexOf((byte)'$');
        int star = text.LastIndexOf((byte)'*');
        if (start < 0 || star < start || star + 3 > length)
            return false;
        int said = Checksum.Read(text.Slice(star + 1, 2));
        byte over7 = Checksum.Of(text[(start + 1)..star]);
        byte over8 = Checksum.Of(bytes[(start + 1)..star]);
        return said >= 0 && (high ? said == over7 || (said ^ over8) == 0x80 : (said ^ over7) == 0x80);
    }

    /// <summary>The fault in words, or empty.</summary>
    /// <param name="bytes">Bytes in the window.</param>
    /// <param name="seconds">Seconds of the window in which bytes came.</param>
    /// <param name="oddBytes">NUL bytes and bytes above 0x7E among them.</param>
    /// <param name="accepted">Accepted sentences.</param>
    /// <param name="rejected">Rejected stretches.</param>
    /// <param name="eighthBit">Rejected stretches for which <see cref="IsEighthBit"/> holds.</param>
    public static string Name(int bytes, int seconds, int oddBytes, int accepted, int rejected, int eighthBit)
    {
        if (eighthBit >= 3 && eighthBit * 10 >= rejected)
            return "parity or 8th bit? (sentences are good once the eighth bit is cleared)";
        // A healthy receiver gives a sentence every 60 bytes or so; the partial line at the start is no fault.
        if (accepted * 1000 >= bytes)
            return "";
        // Of sentences read at another of the usual rates a quarter are such bytes at least (LineFaultTests).
        // A driver that drops what it doubts leaves a byte or two a second.
        bool slowly = seconds >= 20;
        if ((bytes >= 100 || slowly) && oddBytes * 5 >= bytes)
            return "wrong baud rate? (bytes arrive, but they are no sentences)";
        return bytes >= 200 || slowly ? "another protocol or baud rate? (text arrives, but no good sentence)" : "";
    }
}
