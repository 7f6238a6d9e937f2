using System.Collections.Concurrent;
using System.Globalization;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using Groundstation.Io.Folders;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;
using Groundstation.Io.Storage;
using Microsoft.Win32.SafeHandles;

namespace Groundstation.Io.Sharing;

/// <summary>
/// Shares a flight while it is recorded. Topics under TOPIC: <c>recording</c> (stretches of <c>received.nmea</c>),
/// <c>plan</c>, <c>file/NUMBER</c> (wind and map files that it names) and <c>landing</c> (the newest row of
/// <c>landing.csv</c> under its header; all retained), <c>received/SOURCE</c> (each received line, for other programs).
/// Who has missed something asks on <c>want</c> with <c>NAME OFFSET</c> and gets it from the recording on
/// <c>catch-up/NAME</c>. It follows the files, so that sharing can never hold up the station.
/// </summary>
public sealed class FlightShare : IDisposable
{
    private const int MostWants = 64;

    private static readonly TimeSpan _every = TimeSpan.FromMilliseconds(100), _longestStop = TimeSpan.FromSeconds(1);

    private readonly string _folder;
    private readonly string _topic;
    private readonly OwnBroker? _broker;
    private readonly MqttLink _link;
    private readonly CancellationTokenSource _stop = new();
    private readonly ConcurrentQueue<(string Name, long Offset)> _wants = new();
    private readonly Task _running;
    private string? _flight;
    private long _sent;
    private long _landing;
    private volatile bool _anew;

    /// <summary>Begins to share.</summary>
    /// <param name="target">Where.</param>
    /// <param name="folder">The flight folder.</param>
    /// <param name="tell">Told in words what becomes of it, from any thread.</param>
    /// <exception cref="UserErrorException">The own broker cannot be started.</exception>
    public FlightShare(ShareTarget target, string folder, Action<string> tell)
    {
        _folder = folder;
        _topic = target.Broker.Topic;
        // What was recorded before is there for the asking.
        FileInfo before = new(Path.Combine(folder, FlightFolder.RecordingName));
        _sent = before.Exists ? before.Length : 0;
        string station = "station-" + Guid.NewGuid().ToString("N");
        X509Certificate2? own = target is { Listen: not null, Broker.Tls: true } ? BrokerTrust.OwnCertificate() : null;
        BrokerTrust trust = target.Listen is null ? new BrokerTrust(target.Broker) : new BrokerTrust(own);
        _broker = target.Listen is null ? null : new OwnBroker(target, station, MqttAddress.Password, own);
        _link = new MqttLink(target.Broker, station, trust, _topic + "/want")
        {
            Heard = (_, message) => Want(message),
            State = why =>
            {
                _anew = true;
                tell(why.Length == 0 ? $"shared as {target.Broker}" : $"not shared: {why}");
            },
        };
        _running = Task.WhenAll(_link.RunAsync(_stop.Token), Task.Run(() => Share(_stop.Token)));
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        // What was recorded last goes out before the end.
        Task.Delay(2 * _every).Wait();
        _stop.Cancel();
        _running.ContinueWith(static _ => { }, TaskScheduler.Default).Wait(_longestStop);
        _link.Dispose();
        _broker?.Dispose();
    }

    private async Task Share(CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            if (_link.IsUp)
            {
                try
                {
                    await Round(stop).ConfigureAwait(false);
                }
                catch (Exception e) when (FileTrouble.Is(e))
                {
                    // The recording is out of reach just now: what it has is sent when it is back.
                }
                catch (OperationCanceledException)
                {
                    return;
                }
            }

            await Task.Delay(_every, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    private async Task Round(CancellationToken stop)
    {
        _flight ??= SharedBytes.FlightOf(Read(FlightFolder.RecordingName, 0));
        if (_flight is null)
            return;
        if (_anew)
        {
            _anew = false;
            _landing = 0;
            if (!await Plan(stop).ConfigureAwait(false))
                _anew = true;
        }

        _sent = await Send(_topic + "/recording", _sent, true, stop).ConfigureAwait(false);
        while (_wants.TryDequeue(out (string Name, long Offset) want))
            await Send($"{_topic}/catch-up/{want.Name}", want.Offset, false, stop).ConfigureAwait(false);
        await Landing(stop).ConfigureAwait(false);
    }

    /// <summary>Publishes the plan and the files that it names; false when the broker did not take all.</summary>
    private async Task<bool> Plan(CancellationToken stop)
    {
        byte[] text = File.ReadAllBytes(Path.Combine(_folder, FlightFolder.PlanName));
        bool taken = await _link.PublishAsync(_topic + "/plan", text, true, stop).ConfigureAwait(false);
        string[] named = [.. Named(text).Where(name => File.Exists(Path.Combine(_folder, name)))];
        for (int i = 0; i < named.Length && taken; i++)
        {
            byte[] message = SharedFiles.Message(named[i], File.ReadAllBytes(Path.Combine(_folder, named[i])));
            taken = await _link.PublishAsync(FormattableString.Invariant($"{_topic}/file/{i + 1}"), message, true, stop)
                .ConfigureAwait(false);
        }

        return taken;
    }

    /// <summary>
    /// What the plan names. An operator may have edited it since, with an error, or taken a file away: sharing goes on,
    /// and who follows is told what is wrong.
    /// </summary>
    private static IReadOnlyList<string> Named(byte[] plan)
    {
        try
        {
            return SharedFiles.Of(PlanReader.Parse(Encoding.UTF8.GetString(plan), FlightFolder.PlanName));
        }
        catch (UserErrorException)
        {
            return [];
        }
    }

    /// <summary>Sends the recording from a byte on, as far as it goes; gives the byte behind.</summary>
    private async Task<long> Send(string topic, long from, bool lines, CancellationToken stop)
    {
        while (true)
        {
            byte[] bytes = Read(FlightFolder.RecordingName, from);
            int whole = bytes.AsSpan().LastIndexOf((byte)'\n') + 1;
            if (whole == 0)
                return from;
            byte[] message = new SharedBytes(_flight!, from, bytes.AsMemory(0, whole)).Message();
            if (!await _link.PublishAsync(topic, message, false, stop).ConfigureAwait(false))
                return from;
            from += whole;
            if (lines)
                await Lines(bytes.AsMemory(0, whole), stop).ConfigureAwait(false);
        }
    }

    private async Task Lines(ReadOnlyMemory<byte> bytes, CancellationToken stop)
    {
        while (!bytes.IsEmpty)
        {
            int end = bytes.Span.IndexOf((byte)'\n');
            if (Received(bytes.Span[..end].TrimEnd((byte)'\r'), out string source, out byte[] content))
            {
                // Not acknowledged: ten lines a second over a slow line would make the recording late.
                await _link.PublishAsync($"{_topic}/received/{source}", content, false, stop, acknowledged: false)
                    .ConfigureAwait(false);
            }

            bytes = bytes[(end + 1)..];
        }
    }

    private static bool Received(ReadOnlySpan<byte> line, out string source, out byte[] content)
    {
        (source, content) = ("", []);
        if (!LineTag.TryRead(line, out ReadOnlySpan<byte> name, out _, out ReadOnlySpan<byte> text)
            || !LineTag.IsName(name) || name.SequenceEqual("station"u8))
            return false;
        (source, content) = (Encoding.ASCII.GetString(name), text.ToArray());
        return true;
    }

    private async Task Landing(CancellationToken stop)
    {
        const string Name = "landing.csv";
        long length = new FileInfo(Path.Combine(_folder, Name)).Length;
        if (length == _landing)
            return;
        string header = FirstLine(Read(Name, 0));
        // A row has about 300 bytes.
        string[] rows = Encoding.UTF8.GetString(Read(Name, Math.Max(0, length - 4000))).Split("\r\n");
        _landing = length;
        if (rows.Length < 2 || rows[^2] == header)
            return;
        await _link.PublishAsync(_topic + "/landing", Encoding.UTF8.GetBytes($"{header}\r\n{rows[^2]}\r\n"), true, stop)
            .ConfigureAwait(false);
    }

    private static string FirstLine(byte[] bytes) => Encoding.UTF8.GetString(bytes).Split("\r\n")[0];

    private byte[] Read(string name, long from)
    {
        using SafeFileHandle file = File.OpenHandle(Path.Combine(_folder, name), FileMode.Open, FileAccess.Read,
            FileShare.ReadWrite | FileShare.Delete);
        byte[] bytes = new byte[Math.Clamp(RandomAccess.GetLength(file) - from, 0, SharedBytes.Most)];
        int n = RandomAccess.Read(file, bytes, from);
        return n == bytes.Length ? bytes : bytes[..n];
    }

    private void Want(byte[] message)
    {
        string[] words = Encoding.ASCII.GetString(message.AsSpan(0, Math.Min(message.Length, 100))).Split(' ');
        if (_wants.Count < MostWants && words.Length == 2 && words[0].Length is > 0 and <= 40
            && words[0].All(c => char.IsAsciiLetterOrDigit(c) || c == '-')
            && long.TryParse(words[1], NumberStyles.None, CultureInfo.InvariantCulture, out long offset))
            _wants.Enqueue((words[0], offset));
    }
}
