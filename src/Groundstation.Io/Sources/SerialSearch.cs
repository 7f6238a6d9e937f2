using System.IO.Ports;
using Groundstation.Core.Sentences;

namespace Groundstation.Io.Sources;

/// <summary>
/// <c>serial:auto</c>: listens on each serial port at each usual baud rate until sentences with a good checksum come,
/// and says what it tried. A port found once is tried first when it has to be opened again.
/// </summary>
/// <param name="time">For the listening times.</param>
/// <param name="ports">The ports there are; null: those the system names.</param>
/// <param name="open">Opens a port at a rate; null: as the system does.</param>
internal sealed class SerialSearch(TimeProvider time, Func<IReadOnlyList<string>>? ports = null,
    Func<string, int, CancellationToken, Task<TunedSource>>? open = null)
{
    /// <summary>
    /// Rates in the order of how usual they are: NMEA's common setting and its standard one come first.
    /// </summary>
    public static readonly int[] Rates = [9600, 4800, 115200, 38400, 57600, 19200];

    /// <summary>Listening time for one rate: a receiver with one epoch a second is heard at least once.</summary>
    private static readonly TimeSpan _listen = TimeSpan.FromSeconds(2);

    // One good checksum can be luck once in 256; three need not be waited out.
    private const int Enough = 3;

    private static readonly TimeSpan _longestOpen = TimeSpan.FromSeconds(3);

    private (string Device, int Baud)? _found;
    private HashSet<string> _seen = [];

    /// <summary>Searches once through all ports and rates.</summary>
    /// <param name="tell">Takes what is being tried.</param>
    /// <param name="stop">Ends it.</param>
    /// <exception cref="SourceTroubleException">Nothing was heard; the message says where.</exception>
    public async Task<OpenedSource> Open(Action<string> tell, CancellationToken stop)
    {
        IReadOnlyList<string> there = (ports ?? Ports)();
        // A receiver plugged in again may come back under another name: what was not there before goes before the rest.
        string[] devices = [.. there.OrderBy(d => d == _found?.Device ? 0 : _seen.Contains(d) ? 2 : 1)];
        _seen = [.. there];
        if (devices.Length == 0)
            throw new SourceTroubleException("no serial port on this computer; plug the receiver in");
        List<string> tried = [];
        foreach (string device in devices)
        {
            try
            {
                if (await Listen(device, tell, stop).ConfigureAwait(false) is { } source)
                    return source;
                tried.Add(device);
            }
            catch (Exception e) when (SourceTrouble.Is(e))
            {
                tried.Add($"{device}: {SourceTrouble.Words(e)}");
            }
        }

        throw new SourceTroubleException(
            $"no sentence with a good checksum heard on {string.Join(", ", tried)} at {string.Join(", ", Rates)} Bd");
    }

    private async Task<OpenedSource?> Listen(string device, Action<string> tell, CancellationToken stop)
    {
        IEnumerable<int> rates = _found is { } before
            ? Rates.Where(rate => rate != before.Baud).Prepend(before.Baud) : Rates;
        Action<int>? tune = null;
        OpenedSource? source = null;
        try
        {
            foreach (int rate in rates)
            {
                tell(FormattableString.Invariant($"listening on {device} at {rate} Bd"));
                if (tune is null)
                {
                    using CancellationTokenSource limit = CancellationTokenSource.CreateLinkedTokenSource(stop);
                    limit.CancelAfter(_longestOpen);
                    (source, tune) = await (open ?? Port)(device, rate, limit.Token).ConfigureAwait(false);
                }
                else
                {
                    tune(rate);
                }

                byte[] heard = await Hear(source!, stop).ConfigureAwait(false);
                if (GoodSentences(heard) == 0)
                    continue;
                _found = (device, rate);
                OpenedSource found = source!;
                found.Detail = FormattableString.Invariant($"{device} at {rate} Bd");
                found.PutBack(heard);
                source = null;
                return found;
            }

            return null;
        }
        catch (OperationCanceledException) when (!stop.IsCancellationRequested)
        {
            throw new SourceTroubleException("does not open within 3 s");
        }
        finally
        {
            source?.Dispose();
        }
    }

    private static async Task<TunedSource> Port(string device, int rate, CancellationToken stop)
    {
        SerialPort port = await Openers.Port(device, rate, stop).ConfigureAwait(false);
        return new(Openers.Opened(device, port), baud => port.BaudRate = baud);
    }

    private async Task<byte[]> Hear(OpenedSource source, CancellationToken stop)
    {
        using MemoryStream heard = new();
        long start = time.GetTimestamp();
        while (_listen - time.GetElapsedTime(start) is { Ticks: > 0 } left)
        {
            ReadOnlyMemory<byte>? bytes = await source.ReadAsync(left, time, stop).ConfigureAwait(false);
            if (bytes is { IsEmpty: true })
                throw new SourceTroubleException("unplugged (end of data)");
            if (bytes is not { } some)
                break;
            heard.Write(some.Span);
            if (GoodSentences(heard.GetBuffer().AsSpan(0, (int)heard.Length)) >= Enough)
                break;
        }

        return heard.ToArray();
    }

    /// <summary>Counts <c>$…*hh</c> and <c>!…*hh</c> with the right checksum.</summary>
    internal static int GoodSentences(ReadOnlySpan<byte> bytes)
    {
        int good = 0;
        for (int start; (start = bytes.IndexOfAny((byte)'$', (byte)'!')) >= 0;)
        {
            bytes = bytes[(start + 1)..];
            int end = bytes.IndexOfAnyExceptInRange((byte)0x20, (byte)0x7E);
            ReadOnlySpan<byte> line = end < 0 ? bytes : bytes[..end];
            int star = line.IndexOf((byte)'*');
            if (star >= 5 && line.Length >= star + 3
                && Checksum.Read(line[(star + 1)..(star + 3)]) == Checksum.Of(line[..star]))
                good++;
        }

        return good;
    }

    /// <summary>Plugged-in adapters before built-in ports, which often lead nowhere.</summary>
    private static string[] Ports() => [.. SerialPort.GetPortNames()
        .OrderBy(name => name.Contains("ttyS", StringComparison.Ordinal)).ThenBy(name => name, StringComparer.Ordinal)];
}

/// <summary>An open port whose rate can be changed.</summary>
/// <param name="Source">The port.</param>
/// <param name="Tune">Sets another baud rate.</param>
internal sealed record TunedSource(OpenedSource Source, Action<int> Tune);
