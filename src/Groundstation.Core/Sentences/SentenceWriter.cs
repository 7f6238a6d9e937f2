using System.Text;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Core.Sentences;

/// <summary>Writes sentences and TAG blocks as the standard wants them: checksum in upper-case hexadecimal.</summary>
public static class SentenceWriter
{
    /// <summary>A whole sentence without line end: <c>GPGGA,…</c> becomes <c>$GPGGA,…*hh</c>.</summary>
    /// <param name="body">Address and fields, printable ASCII, without <c>$</c>, <c>!</c> and CR or LF.</param>
    /// <exception cref="ArgumentException">The body could not be read back as one sentence.</exception>
    public static string Seal(string body)
    {
        if (body.AsSpan().ContainsAnyExceptInRange(' ', '~') || body.AsSpan().ContainsAny('$', '!'))
            throw new ArgumentException($"not the body of one sentence: {body}", nameof(body));
        return $"${body}*{Sum(body):X2}";
    }

    /// <summary>The same into a buffer, without allocation.</summary>
    /// <returns>The number of bytes written: four more than the body has.</returns>
    /// <exception cref="ArgumentException">The body is not as it must be, or the buffer is too short.</exception>
    public static int Seal(ReadOnlySpan<byte> body, Span<byte> destination)
    {
        if (body.ContainsAnyExceptInRange((byte)' ', (byte)'~') || body.ContainsAny((byte)'$', (byte)'!'))
            throw new ArgumentException("not the body of one sentence", nameof(body));
        int length = body.Length + 4;
        if (destination.Length < length)
            throw new ArgumentException($"{length} bytes needed", nameof(destination));
        body.CopyTo(destination[1..]);
        destination[0] = (byte)'$';
        destination[length - 3] = (byte)'*';
        Checksum.Write(Checksum.Of(body), destination[(length - 2)..]);
        return length;
    }

    /// <summary>
    /// A TAG block with source and arrival time, UNIX milliseconds: <c>\s:radio1,c:1782000000123*hh\</c>.
    /// </summary>
    public static string Tag(SourceId source, Instant heard)
    {
        string body = $"s:{source.Name},c:{heard.UnixMilliseconds}";
        return $"\\{body}*{Sum(body):X2}\\";
    }

    private static byte Sum(string body) => Checksum.Of(Encoding.ASCII.GetBytes(body));
}
