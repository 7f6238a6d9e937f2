using System.Diagnostics;
using System.Globalization;
using System.Text;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Folders;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;
using Groundstation.Io.Sources;
using Xunit;

namespace Groundstation.Io.Tests.Sessions;

/// <summary>
/// Twenty minutes around the burst of the bundled flight over a pseudo-terminal, with the link cut in the middle: what
/// the live session wrote and what a replay of its recording writes are the same bytes.
/// </summary>
public sealed class LiveEqualsReplayTests : IDisposable
{
    private const double Rate = 200;
    private static readonly TimeSpan _from = TimeSpan.FromMinutes(81), _length = TimeSpan.FromMinutes(20);
    private static readonly TimeSpan _longest = TimeSpan.FromSeconds(90);
    private static readonly string[] _files =
        ["fixes.csv", "winds.csv", "landing.csv", "alarms.csv", "callouts.csv", FlightFolder.RecordingName];

    private readonly TempFolder _temp = new();
    private readonly CancellationToken _limit = TestContext.Current.CancellationToken;

    public void Dispose() => _temp.Dispose();

    [Fact]
    public async Task A_flight_over_a_serial_line_that_was_cut_replays_to_the_same_bytes_at_every_rate()
    {
        (Instant At, byte[] Bytes)[] flight = [.. Feeding.Of(Bundled.Path("clean", "flight.nmea"))];
        Instant begin = flight[0].At + _from;
        flight = [.. flight.Where(p => p.At >= begin && p.At < begin + _length)];
        await Live(flight);

        string recording = _temp["live/received.nmea"];
        Assert.Equal(Text(flight.Select(p => p.Bytes)), Text(Feeding.Of(recording).Select(p => p.Bytes)));
        string[] lines = File.ReadAllLines(recording);
        Assert.Equal(2, lines.Count(line => line.Contains("$PGSE,LINK,radio1,UP,", StringComparison.Ordinal)));
        Assert.Contains(lines, line => line.Contains("$PGSE,LINK,radio1,LOST,", StringComparison.Ordinal));
        Assert.InRange(Rows("fixes.csv"), 1190, 1201);
        Assert.InRange(Rows("landing.csv"), 501, 2000);
        Assert.InRange(Rows("winds.csv"), 6, 500);
        Assert.InRange(Rows("alarms.csv"), 1, 100);
        AssertStampsNeverGoBack(recording);

        Replay(recording, "max", null);
        Replay(recording, "ten", 10);
        AssertSame("live", "max");
        AssertSame("live", "ten");

        // A first part of it as slowly as it was.
        string part = _temp.Write("part.nmea", string.Join("\r\n", lines.Take(400)) + "\r\n");
        Replay(part, "part1", 1);
        Replay(part, "partmax", null);
        AssertSame("part1", "partmax");
    }

    private static string Text(IEnumerable<byte[]> pieces) =>
        string.Concat(pieces.Select(Encoding.Latin1.GetString));

    private static void AssertStampsNeverGoBack(string recording)
    {
        long before = long.MinValue;
        foreach (string line in File.ReadLines(recording))
        {
            int c = line.IndexOf("c:", StringComparison.Ordinal) + 2;
            long stamp = long.Parse(line[c..line.IndexOf('*', c)], CultureInfo.InvariantCulture);
            Assert.True(stamp >= before, line);
            before = stamp;
        }
    }

    private async Task Live((Instant At, byte[] Bytes)[] flight)
    {
        using PtyPair pty = new(_temp);
        Stream far = pty.Plug();
        using CancellationTokenSource stop = new();
        SourcePump pump = new(new SourceId("radio1"), SourceAddress.Parse("serial:" + pty.Device), TimeProvider.System);
        using LiveSession live = new(Plan(), FlightFolder.Open(_temp["live"], FolderUse.Live), [pump],
            TimeProvider.System, TimeSpan.FromMilliseconds(100));
        Task session = Task.Factory.StartNew(() => live.Run(stop.Token), _limit, TaskCreationOptions.LongRunning,
            TaskScheduler.Default);

        int middle = flight.Length / 2;
        await Recorded("LINK,radio1,UP,", 1);
        await Feeding.To(far, flight[..middle], Rate, _limit);
        await Recorded(Text([flight[middle - 1].Bytes]).TrimEnd(), 1);
        await far.DisposeAsync();
        pty.Unplug();
        await Recorded("LINK,radio1,LOST,", 1);
        far = pty.Plug();
        await Recorded("LINK,radio1,UP,", 2);
        await Feeding.To(far, flight[middle..], Rate, _limit);
        await Recorded(Text([flight[^1].Bytes]).TrimEnd(), 1);
        await stop.CancelAsync();
        await session.WaitAsync(TimeSpan.FromSeconds(10), _limit);
        await far.DisposeAsync();
    }

    private async Task Recorded(string text, int times)
    {
        Stopwatch waited = Stopwatch.StartNew();
        while (true)
        {
            string path = _temp["live/received.nmea"];
            if (File.Exists(path))
            {
                using StreamReader reader = new(new FileStream(path, FileMode.Open, FileAccess.Read,
                    FileShare.ReadWrite | FileShare.Delete));
                if ((await reader.ReadToEndAsync(_limit)).Split(text).Length > times)
                    return;
            }

            Assert.True(waited.Elapsed < _longest, $"waited for '{text}' in the recording");
            await Task.Delay(20, _limit);
        }
    }

    private static FlightPlan Plan() => PlanReader.Read(Bundled.Path("clean", "plan.toml"));

    private void Replay(string recording, string folder, double? rate)
    {
        using ReplaySession replay = new(RecordingReader.Open(recording), Plan(),
            FlightFolder.Open(_temp[folder], FolderUse.Replay), rate, TimeProvider.System);
        replay.Run(_limit);
    }

    private int Rows(string log) => File.ReadAllLines(_temp["live/" + log]).Length - 1;

    private void AssertSame(string a, string b)
    {
        foreach (string file in _files)
        {
            Assert.True(File.ReadAllBytes(_temp[$"{a}/{file}"]).AsSpan()
                .SequenceEqual(File.ReadAllBytes(_temp[$"{b}/{file}"])), $"{file} of {a} and {b} differ");
        }
    }
}
