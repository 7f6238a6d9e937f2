using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Groundstation.Core.Sentences;

/// <summary>
/// What one pass over a sentence finds: its end, its commas, its last <c>*</c>, the XOR of its bytes and whether all
/// of them are printable ASCII. One pass, 32 bytes at a time, because the decoder would otherwise read each byte four
/// times; the rest shorter than a vector is done byte by byte.
/// </summary>
internal struct SentenceScan
{
    /// <summary>Room that the table of commas must have: a vector can run past the cap by its own width.</summary>
    public const int CommaRoom = SentenceStream.LineCap + 64;

    /// <summary>Bytes from the start delimiter up to the next delimiter or the end of what there is.</summary>
    public int Length;

    /// <summary>Whether a delimiter (CR, LF, <c>$</c>, <c>!</c>) stands behind.</summary>
    public bool Ended;

    /// <summary>Index of the last <c>*</c>; −1 without.</summary>
    public int Star;

    /// <summary>XOR of all bytes behind the start delimiter.</summary>
    public byte Xor;

    /// <summary>Whether any byte lies outside 0x20–0x7E.</summary>
    public bool BadByte;

    /// <summary>How many commas the table holds.</summary>
    public int Commas;

    /// <summary>
    /// Scans a sentence whose start delimiter is the first byte; stops early, not ended, past the line cap.
    /// </summary>
    public static SentenceScan Over(ReadOnlySpan<byte> bytes, Span<ushort> commas)
    {
        int at = 1;
        int lastStar = -1;
        int count = 0;
        bool ended = false;
        uint anyBad = 0;
        ref byte start = ref MemoryMarshal.GetReference(bytes);
        var xor = Vector256<byte>.Zero;
        while (at + Vector256<byte>.Count <= bytes.Length && at <= SentenceStream.LineCap)
        {
            var v = Vector256.LoadUnsafe(ref start, (nuint)at);
            uint ends = (Vector256.Equals(v, Vector256.Create((byte)'\r'))
                | Vector256.Equals(v, Vector256.Create((byte)'\n'))
                | Vector256.Equals(v, Vector256.Create((byte)'$'))
                | Vector256.Equals(v, Vector256.Create((byte)'!'))).ExtractMostSignificantBits();
            // As signed bytes, 0x80–0xFF are negative, so one comparison finds them and the control bytes.
            uint bad = (Vector256.LessThan(v.AsSByte(), Vector256.Create((sbyte)0x20)).AsByte()
                | Vector256.Equals(v, Vector256.Create((byte)0x7F))).ExtractMostSignificantBits();
            uint comma = Vector256.Equals(v, Vector256.Create((byte)',')).ExtractMostSignificantBits();
            uint star = Vector256.Equals(v, Vector256.Create((byte)'*')).ExtractMostSignificantBits();
            int used = Vector256<byte>.Count;
            if (ends != 0)
            {
                used = BitOperations.TrailingZeroCount(ends);
                uint below = (1u << used) - 1;
                bad &= below;
                comma &= below;
                star &= below;
                v &= Vector256.LessThan(Vector256<byte>.Indices, Vector256.Create((byte)used));
                ended = true;
            }

            xor ^= v;
            anyBad |= bad;
            if (star != 0) lastStar = at + BitOperations.Log2(star);
            for (; comma != 0; comma &= comma - 1)
                commas[count++] = (ushort)(at + BitOperations.TrailingZeroCount(comma));
            at += used;
            if (ended) break;
        }

        byte sum = Fold(xor);
        for (; !ended && at < bytes.Length && at <= SentenceStream.LineCap; at++)
        {
            byte b = bytes[at];
            if (b is (byte)'\r' or (byte)'\n' or (byte)'$' or (byte)'!')
            {
                ended = true;
                break;
            }

            sum ^= b;
            if (b is < 0x20 or > 0x7E) anyBad = 1;
            if (b == (byte)'*') lastStar = at;
            else if (b == (byte)',') commas[count++] = (ushort)at;
        }

        return new SentenceScan
        {
            Length = at,
            Ended = ended,
            Star = lastStar,
            Xor = sum,
            BadByte = anyBad != 0,
            Commas = count,
        };
    }

    private static byte Fold(Vector256<byte> xor)
    {
        var half = (xor.GetLower() ^ xor.GetUpper()).AsUInt64();
        ulong x = half[0] ^ half[1];
        x ^= x >> 32;
        x ^= x >> 16;
        x ^= x >> 8;
        return (byte)x;
    }
}
