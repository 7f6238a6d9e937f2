using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.RegularExpressions;
using Groundstation.Core.Plan;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;
using Xunit;

namespace Groundstation.Console.Tests.Commands;

/// <summary>The real program, killed without warning under ten fixes a second and started again.</summary>
public sealed partial class KilledWatchTests : IDisposable
{
    private const int Kills = 3;

    // Written within milliseconds; the rest is room for a busy machine.
    private static readonly TimeSpan Margin = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(60);

    private readonly string _folder = Directory.CreateTempSubdirectory("groundstation-kill-").FullName;
    private readonly CancellationToken _limit = TestContext.Current.CancellationToken;

    private string Flight => Path.Combine(_folder, "flight");

    public void Dispose() => Directory.Delete(_folder, true);

    [Fact]
    public async Task Killed_at_random_moments_it_goes_on_without_gap_or_duplicate_and_ends_cleanly_on_SIGTERM()
    {
        if (OperatingSystem.IsWindows()) Assert.Skip("needs signals");
        using CancellationTokenSource end = CancellationTokenSource.CreateLinkedTokenSource(_limit);
        using Feeder feeder = new();
        Task feeding = feeder.Run(end.Token);
        Random moments = new(7);
        for (int i = 0; i < Kills; i++)
        {
            using Process watch = Start(feeder.Port);
            await MoreIsRecorded();
            await Task.Delay(moments.Next(1500), _limit);
            long killed = Stopwatch.GetTimestamp();
            watch.Kill();
            await watch.WaitForExitAsync(_limit);
            string[] kept = Recorded();
            foreach ((string line, long sent) in feeder.Sent)
            {
                if (Stopwatch.GetElapsedTime(sent, killed) > Margin && feeder.CameAcross(line, i + 1))
                    Assert.Contains(line, kept);
            }
        }

        using Process last = Start(feeder.Port);
        await MoreIsRecorded();
        using (Process term = Process.Start("kill", ["-TERM", last.Id.ToString(CultureInfo.InvariantCulture)]))
            await term.WaitForExitAsync(_limit);
        string said = await last.StandardOutput.ReadToEndAsync(_limit);
        await last.WaitForExitAsync(_limit);
        await end.CancelAsync();
        await feeding;

        Assert.Equal(0, last.ExitCode);
        Assert.Contains("the flight goes on", said, StringComparison.Ordinal);
        Assert.Matches(@"(?m)^\S+Z radio1 up: 127\.0\.0\.1:\d+", said);
        Assert.Matches(@"(?m)^fixes: \d+ believed, 0 refused", said);
        string[] all = Recorded();
        Assert.Equal(all.Distinct(), all);
        Assert.Equal(all.Order(StringComparer.Ordinal), all);
        ReplayGivesTheSameLogs();
    }

    private static Process Start(int port, string flight) => Process.Start(new ProcessStartInfo("dotnet",
    [
        Path.Combine(AppContext.BaseDirectory, "groundstation.dll"), "watch", "--from", $"tcp:127.0.0.1:{port}",
        "--headless", "--flight", flight,
    ])
    { RedirectStandardOutput = true })!;

    [GeneratedRegex(@"\$GPGGA,[^\r\n$]*(?=\r\n)")]
    private static partial Regex Sentence();

    private Process Start(int port) => Start(port, Flight);

    /// <summary>All whole sentences in the recording, in its order.</summary>
    private string[] Recorded()
    {
        string file = Path.Combine(Flight, FlightFolder.RecordingName);
        if (!File.Exists(file) || new FileInfo(file).Length == 0) return [];
        StringBuilder text = new();
        using RecordingReader reader = RecordingReader.Open(file);
        while (reader.Read(out RecordedEvent e))
            if (e.Kind == RecordedKind.Received) text.Append(Encoding.ASCII.GetString(e.Bytes.Span));
        return [.. Sentence().Matches(text.ToString()).Select(m => m.Value)];
    }

    private async Task MoreIsRecorded()
    {
        int before = Recorded().Length;
        Stopwatch waited = Stopwatch.StartNew();
        while (Recorded().Length < before + 10)
        {
            Assert.True(waited.Elapsed < Longest, "nothing more was recorded");
            await Task.Delay(50, _limit);
        }
    }

    private void ReplayGivesTheSameLogs()
    {
        string again = Path.Combine(_folder, "again");
        using (ReplaySession replay = new(RecordingReader.Open(Path.Combine(Flight, FlightFolder.RecordingName)),
            FlightPlan.Default, FlightFolder.Open(again, FolderUse.Replay), null, TimeProvider.System))
        {
            replay.Run(_limit);
        }

        foreach (string log in (string[])["fixes.csv", "winds.csv", "landing.csv", "alarms.csv", "callouts.csv"])
            Assert.Equal(File.ReadAllText(Path.Combine(again, log)), File.ReadAllText(Path.Combine(Flight, log)));
    }

    /// <summary>Sends a climb with ten fixes a second to whoever is connected, one visitor at a time.</summary>
    private sealed class Feeder : IDisposable
    {
        private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
        private readonly List<(string Line, long At, int Visitor)> _sent = [];

        public Feeder() => _listener.Start();

        public int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;

        public (string Line, long At)[] Sent
        {
            get
            {
                lock (_sent) return [.. _sent.Select(s => (s.Line, s.At))];
            }
        }

        /// <summary>True for a line that went to that visitor; one sent after a kill finds nobody.</summary>
        public bool CameAcross(string line, int visitor)
        {
            lock (_sent) return _sent.Any(s => s.Line == line && s.Visitor == visitor);
        }

        public async Task Run(CancellationToken stop)
        {
            try
            {
                for (int visitor = 1; ; visitor++)
                {
                    using TcpClient client = await _listener.AcceptTcpClientAsync(stop);
                    client.NoDelay = true;
                    await Serve(client.GetStream(), visitor, stop);
                }
            }
            catch (OperationCanceledException)
            {
                // The test is over.
            }
        }

        public void Dispose() => _listener.Dispose();

        private async Task Serve(NetworkStream stream, int visitor, CancellationToken stop)
        {
            try
            {
                while (true)
                {
                    string line;
                    lock (_sent)
                    {
                        line = Line(_sent.Count);
                        _sent.Add((line, Stopwatch.GetTimestamp(), visitor));
                    }

                    await stream.WriteAsync(Encoding.ASCII.GetBytes(line + "\r\n"), stop);
                    await Task.Delay(100, stop);
                }
            }
            catch (IOException)
            {
                // Killed: the next visitor gets the next line.
            }
        }

        private static string Line(int i)
        {
            double t = i / 10.0, height = 200 + t * 5;
            string body = string.Create(CultureInfo.InvariantCulture,
                $"GPGGA,12{(int)t / 60:00}{t % 60:00.00},4815.00000,N,03030.00000,W,1,10,0.9,{height:F1},M,50.0,M,,");
            return $"${body}*{body.Aggregate(0, (sum, c) => sum ^ c):X2}";
        }
    }
}
