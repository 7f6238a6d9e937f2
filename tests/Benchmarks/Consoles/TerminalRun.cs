using System.Diagnostics;
using System.Globalization;

namespace Groundstation.Benchmarks.Consoles;

/// <summary>The program on a pseudo-terminal of 80×24 that socat holds, with its picture and its processor time.</summary>
internal sealed class TerminalRun : IDisposable
{
    private readonly Process _holder;
    private readonly string _pidFile = Path.GetTempFileName();
    private readonly Thread _reading;
    private long _received;

    /// <summary>Starts <paramref name="program"/>, a program or a .dll, with arguments free of blanks.</summary>
    public TerminalRun(string program, params ReadOnlySpan<string> arguments)
    {
        string runs = program.EndsWith(".dll", StringComparison.Ordinal) ? "dotnet " + program : program;
        string script = Path.ChangeExtension(_pidFile, ".sh");
        File.WriteAllText(script, $"stty rows {ScreenGrid.Height} cols {ScreenGrid.Width}; echo $$ > {_pidFile}; "
            + $"export TERM=xterm-256color LANG=C.UTF-8; exec {runs} {string.Join(' ', arguments!)}\n");
        Started = Stopwatch.GetTimestamp();
        _holder = Process.Start(new ProcessStartInfo("socat", ["-", $"EXEC:sh {script},pty,setsid,ctty,stderr,rawer"])
        { RedirectStandardInput = true, RedirectStandardOutput = true })!;
        Screen.Answer = Type;
        _reading = new Thread(Read) { IsBackground = true };
        _reading.Start();
    }

    /// <summary>When it was started, a <see cref="Stopwatch"/> timestamp; the shell and the terminal count in.</summary>
    public long Started { get; }

    public ScreenGrid Screen { get; } = new();

    /// <summary>Bytes that the program has sent to the terminal.</summary>
    public long Received => Volatile.Read(ref _received);

    /// <summary>The program itself.</summary>
    public int Id => int.Parse(File.ReadAllText(_pidFile), CultureInfo.InvariantCulture);

    /// <summary>Processor time used so far.</summary>
    public TimeSpan Cpu
    {
        get
        {
            using Process p = Process.GetProcessById(Id);
            return p.TotalProcessorTime;
        }
    }

    /// <summary>A figure of /proc/PID/status in MB: VmRSS now, VmHWM the most so far.</summary>
    public double Memory(string name) => double.Parse(
        File.ReadLines($"/proc/{Id}/status").First(l => l.StartsWith(name + ":", StringComparison.Ordinal))
            .Split(' ', '\t').First(w => w.Length > 0 && char.IsDigit(w[0])), CultureInfo.InvariantCulture) / 1024;

    /// <summary>Open files.</summary>
    public int Handles => Directory.GetFileSystemEntries($"/proc/{Id}/fd").Length;

    /// <summary>Waits until the screen shows a text; gives the time since <paramref name="from"/>.</summary>
    public TimeSpan? Until(string text, long from, TimeSpan longest)
    {
        while (!Screen.Shows(text))
        {
            if (Stopwatch.GetElapsedTime(from) > longest) return null;
            Thread.Sleep(1);
        }

        return Stopwatch.GetElapsedTime(from);
    }

    public void Type(string keys)
    {
        lock (_holder)
        {
            _holder.StandardInput.Write(keys);
            _holder.StandardInput.Flush();
        }
    }

    public void Dispose()
    {
        // The folder that holds the flight can go only after the program: that ends it before its time.
        if (!File.Exists(_pidFile)) return;
        using (Process? p = Running())
            p?.Kill();
        if (!_holder.WaitForExit(3000)) _holder.Kill();
        _holder.Dispose();
        File.Delete(Path.ChangeExtension(_pidFile, ".sh"));
        File.Delete(_pidFile);
    }

    private Process? Running()
    {
        try
        {
            return Process.GetProcessById(Id);
        }
        catch (Exception e) when (e is ArgumentException or FormatException)
        {
            return null;
        }
    }

    private void Read()
    {
        byte[] buffer = new byte[65536];
        Stream from = _holder.StandardOutput.BaseStream;
        try
        {
            while (from.Read(buffer) is > 0 and var n)
            {
                Volatile.Write(ref _received, _received + n);
                Screen.Feed(buffer.AsSpan(0, n));
            }
        }
        catch (Exception e) when (e is IOException or ObjectDisposedException)
        {
            // The program has ended.
        }
    }
}
