using System.Globalization;
using System.Text;
using Groundstation.Io.Recordings;

namespace Groundstation.Io.Sharing;

/// <summary>
/// A stretch of a flight's recording as it goes over the broker: a line <c>FLIGHT OFFSET</c>, then whole lines of
/// <c>received.nmea</c> from that byte on. FLIGHT is the stamp and the seed in the recording's first line.
/// </summary>
/// <param name="Flight">Which flight.</param>
/// <param name="Offset">Byte of the recording at which they begin.</param>
/// <param name="Lines">Whole lines.</param>
internal readonly record struct SharedBytes(string Flight, long Offset, ReadOnlyMemory<byte> Lines)
{
    /// <summary>Most bytes of one message.</summary>
    public const int Most = 64 << 10;

    private const int LongestHead = 80;

    /// <summary>The message.</summary>
    public byte[] Message() =>
    [
        .. Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{Flight} {Offset}\n")), .. Lines.Span,
    ];

    /// <summary>Reads a message; null when it is none.</summary>
    public static SharedBytes? Read(byte[] message)
    {
        int head = message.AsSpan(0, Math.Min(message.Length, LongestHead)).IndexOf((byte)'\n');
        if (head < 0 || message.Length > Most + LongestHead || message[^1] != '\n')
            return null;
        string[] words = Encoding.ASCII.GetString(message, 0, head).Split(' ');
        return words.Length == 2
            && long.TryParse(words[1], NumberStyles.None, CultureInfo.InvariantCulture, out long at)
            ? new SharedBytes(words[0], at, message.AsMemory(head + 1)) : null;
    }

    /// <summary>The name of the flight whose recording begins with these bytes; null when its first line is not there.
    /// </summary>
    public static string? FlightOf(ReadOnlySpan<byte> beginning)
    {
        int end = beginning.IndexOf((byte)'\n');
        return end > 0 && LineTag.TryRead(beginning[..end].TrimEnd((byte)'\r'), out _, out long? ms, out var content)
            && StationLine.Read(content, default, new SourceNames()) is { Kind: RecordedKind.Opened } opened
            ? string.Create(CultureInfo.InvariantCulture, $"{ms}-{opened.Seed}") : null;
    }

    /// <summary>The seed in a flight's name.</summary>
    public static ulong? SeedOf(string flight) =>
        ulong.TryParse(flight.AsSpan(flight.LastIndexOf('-') + 1), NumberStyles.None, CultureInfo.InvariantCulture,
            out ulong seed) ? seed : null;
}
