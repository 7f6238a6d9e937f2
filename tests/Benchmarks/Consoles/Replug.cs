using System.Diagnostics;
using System.Globalization;
using System.Text;
using Groundstation.Core.Receive;
using Groundstation.Io.Sources;

namespace Groundstation.Benchmarks.Consoles;

/// <summary>
/// <c>replug [COUNT]</c>: a serial source over pseudo-terminals, plugged and unplugged; how soon it is back, and whether
/// a byte was lost while it was up.
/// </summary>
internal static class Replug
{
    public static int Run(string[] args)
    {
        int count = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 100;
        string folder = Directory.CreateTempSubdirectory("groundstation-replug-").FullName;
        string near = Path.Combine(folder, "near"), far = Path.Combine(folder, "far");
        Heard heard = new();
        using CancellationTokenSource stop = new();
        SourcePump pump = new(new SourceId("radio1"), SourceAddress.Parse("serial:" + near), TimeProvider.System);
        Task running = Task.Run(() => pump.RunAsync(heard, stop.Token));
        List<double> back = [];
        StringBuilder sent = new();
        Random moments = new(1);
        for (int i = 0; i < count; i++)
        {
            using Process cable = Process.Start("socat", [$"pty,raw,echo=0,link={near}", $"pty,raw,echo=0,link={far}"]);
            while (!File.Exists(near) || !File.Exists(far)) Thread.Sleep(1);
            long plugged = Stopwatch.GetTimestamp();
            while (!heard.Up) Thread.Sleep(1);
            back.Add(Stopwatch.GetElapsedTime(plugged).TotalSeconds);
            using (FileStream to = new(far, FileMode.Open, FileAccess.Write, FileShare.ReadWrite, 0))
            {
                for (int n = 0; n < 20; n++)
                {
                    string lines = Feeder.Epoch(i * 20 + n, 500);
                    sent.Append(lines);
                    to.Write(Encoding.ASCII.GetBytes(lines));
                }

                long written = Stopwatch.GetTimestamp();
                while (heard.Count < sent.Length && Stopwatch.GetElapsedTime(written).TotalSeconds < 5) Thread.Sleep(1);
            }

            cable.Kill();
            cable.WaitForExit();
            File.Delete(near);
            File.Delete(far);
            while (heard.Up) Thread.Sleep(1);
            Thread.Sleep(moments.Next(1500));
        }

        long asked = Stopwatch.GetTimestamp();
        stop.Cancel();
        bool ended = running.Wait(TimeSpan.FromSeconds(5));
        Directory.Delete(folder, true);
        back.Sort();
        Console.WriteLine($"{count} cycles: back after {back[count / 2]:F2} s in the middle, {back[^1]:F2} s at most; "
            + $"{sent.Length - heard.Count} of {sent.Length} bytes lost while up; "
            + $"{(ended ? $"ended {Stopwatch.GetElapsedTime(asked).TotalSeconds:F2} s after it was asked to" : "HANGS")}");
        return ended && heard.Text == sent.ToString() && back[^1] < 2 ? 0 : 1;
    }

    private sealed class Heard : ISourceSink
    {
        private readonly StringBuilder _text = new();
        private volatile bool _up;

        public bool Up => _up;

        public int Count
        {
            get
            {
                lock (_text) return _text.Length;
            }
        }

        public string Text
        {
            get
            {
                lock (_text) return _text.ToString();
            }
        }

        public void Bytes(SourceId source, ReadOnlySpan<byte> bytes)
        {
            lock (_text) _text.Append(Encoding.Latin1.GetString(bytes));
        }

        public void Link(SourceId source, LinkState state, string why) => _up = state == LinkState.Up;
    }
}
