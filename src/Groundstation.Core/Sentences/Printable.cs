using System.Globalization;
using System.Text;

namespace Groundstation.Core.Sentences;

/// <summary>Makes received bytes safe and readable on a screen or in a log.</summary>
public static class Printable
{
    /// <summary>
    /// Printable ASCII as it is; every other byte, and <c>^</c> itself, as <c>^HH</c>, the way the standard escapes
    /// bytes. No control character and no invalid encoding can come out of it.
    /// </summary>
    /// <param name="bytes">Bytes from outside.</param>
    /// <param name="max">Most characters to give; what is longer is cut, never inside an escape, and ends in
    /// <c>…</c>.</param>
    public static string Text(ReadOnlySpan<byte> bytes, int max)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(max, 1);
        var text = new StringBuilder(Math.Min(bytes.Length, max));
        int fits = 0; // length up to which one more character, the ellipsis, would still fit
        foreach (byte b in bytes)
        {
            if (b is >= 0x20 and <= 0x7E and not (byte)'^') text.Append((char)b);
            else text.Append('^').Append(b.ToString("X2", CultureInfo.InvariantCulture));
            if (text.Length > max) return text.ToString(0, fits) + "…";
            if (text.Length < max) fits = text.Length;
        }

        return text.ToString();
    }
}
