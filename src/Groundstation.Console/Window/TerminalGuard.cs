using System.Runtime.InteropServices;
using System.Text;
using Terminal.Gui.App;

namespace Groundstation.Console.Window;

/// <summary>
/// Puts the terminal back whatever happens: signals, an exception on any thread, a library that hangs while it closes.
/// The runtime has no handlers of its own for SIGTERM and SIGHUP that would let the library restore the screen.
/// </summary>
internal sealed partial class TerminalGuard : IDisposable
{
    /// <summary>Keypad, mouse and paste reporting off, attributes off, back to the main screen, cursor shown.</summary>
    private const string Reset = "\e[?1l\e>\e[?1003l\e[?1006l\e[?1015l\e[?2004l\e[0m\e[?1049l\e[?25h";

    /// <summary>Longest time the library gets to close.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(3);

    private readonly List<IDisposable> _handlers = [];
    private readonly byte[]? _modes;
    private readonly int _terminal = -1;
    private IApplication? _app;
    private int _closed, _reset;
    private bool _restored;

    /// <summary>Takes the signals over and remembers the terminal's modes.</summary>
    public TerminalGuard()
    {
        if (!OperatingSystem.IsWindows())
        {
            // A descriptor of its own, of the output: descriptor 0 may carry the tracker's data, and is a pipe after a
            // hang-up.
            _terminal = Copy(1);
            _modes = Modes();
        }

        foreach (PosixSignal signal in (PosixSignal[])[PosixSignal.SIGTERM, PosixSignal.SIGINT, PosixSignal.SIGHUP,
            PosixSignal.SIGQUIT])
            _handlers.Add(PosixSignalRegistration.Create(signal, On));
        AppDomain.CurrentDomain.UnhandledException += OnUnhandled;
        AppDomain.CurrentDomain.ProcessExit += OnExit;
    }

    /// <summary>The signal that ended the console; null when it ended by itself.</summary>
    public PosixSignal? Ended { get; private set; }

    /// <summary>The application to stop when a signal comes.</summary>
    public void Attach(IApplication app) => _app = app;

    /// <summary>
    /// Strikes the terminal's bell. Only from the library's own loop: there it cannot fall into the middle of a sequence
    /// that the library writes.
    /// </summary>
    public void Ring()
    {
        if (Volatile.Read(ref _closed) == 0) Send("\a");
    }

    /// <summary>Closes the library, with a limit, then makes sure. May be called more than once.</summary>
    public void Close()
    {
        if (Interlocked.Exchange(ref _closed, 1) == 0 && _app is { } app)
        {
            // Blank before leaving: tmux 3.3a otherwise leaves the last picture behind once it has been resized.
            Send("\e[0m\e[2J\e[H");
            try
            {
                _restored = Task.Run(app.Dispose).Wait(Patience / 2);
            }
            catch (AggregateException)
            {
                // The library failed while closing: the raw reset below is all that is left to do.
            }
        }

        RawReset();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Close();
        foreach (IDisposable handler in _handlers) handler.Dispose();
        AppDomain.CurrentDomain.UnhandledException -= OnUnhandled;
        AppDomain.CurrentDomain.ProcessExit -= OnExit;
    }

    private void On(PosixSignalContext context)
    {
        context.Cancel = true;
        Ended ??= context.Signal;
        if (context.Signal == PosixSignal.SIGHUP && !OperatingSystem.IsWindows())
        {
            // The terminal is gone: reading it gives end-of-file for ever, and the library spins on that and never
            // closes. A pipe that nobody writes to keeps it quiet.
            Span<int> ends = stackalloc int[2];
            if (MakePipe(ends) == 0) _ = Duplicate(ends[0], 0);
        }

        try
        {
            _app?.Invoke(() => _app.RequestStop());
        }
        catch (Exception e) when (e is InvalidOperationException or ObjectDisposedException)
        {
            // Not yet begun, or already over.
        }

        new Thread(() =>
        {
            Thread.Sleep(Patience);
            RawReset();
            new Thread(() => Environment.Exit(1)) { IsBackground = true }.Start();
            Thread.Sleep(Patience);
            // An exit that waits for somebody who never comes must not leave a process behind on a terminal that is gone.
            if (!OperatingSystem.IsWindows()) EndNow(1);
        })
        { IsBackground = true }.Start();
        WindowEnd.Await(context.Signal);
    }

    private void OnUnhandled(object? sender, UnhandledExceptionEventArgs e) => Close();

    /// <summary>Closing the library hangs at this point; only the raw reset works.</summary>
    private void OnExit(object? sender, EventArgs e) => RawReset();

    private void RawReset()
    {
        if (_app is null || Interlocked.Exchange(ref _reset, 1) != 0) return;
        // A Windows console that the library has put back would print these sequences instead of obeying them.
        if (!OperatingSystem.IsWindows() || !_restored) Send(Reset);
        if (_modes is { } modes) _ = SetModes(_terminal, 0, modes);
    }

    /// <summary>
    /// Past the library, straight to the terminal. On one that is really gone it fails, and that is all right.
    /// </summary>
    private static void Send(string text)
    {
        if (System.Console.IsOutputRedirected) return;
        byte[] bytes = Encoding.ASCII.GetBytes(text);
        if (!OperatingSystem.IsWindows())
        {
            _ = Write(1, bytes, bytes.Length);
            return;
        }

        try
        {
            using Stream console = System.Console.OpenStandardOutput();
            console.Write(bytes);
        }
        catch (IOException)
        {
            // Its window is gone.
        }
    }

    /// <summary>The line discipline's settings as an opaque block (at most 60 bytes on Linux, 72 on macOS).</summary>
    private byte[]? Modes()
    {
        byte[] block = new byte[256];
        return GetModes(_terminal, block) == 0 ? block : null;
    }

    [LibraryImport("libc", EntryPoint = "_exit")]
    private static partial void EndNow(int code);

    [LibraryImport("libc", EntryPoint = "pipe")]
    private static partial int MakePipe(Span<int> ends);

    [LibraryImport("libc", EntryPoint = "dup")]
    private static partial int Copy(int descriptor);

    [LibraryImport("libc", EntryPoint = "dup2")]
    private static partial int Duplicate(int from, int to);

    [LibraryImport("libc", EntryPoint = "write")]
    private static partial nint Write(int descriptor, byte[] bytes, nint count);

    [LibraryImport("libc", EntryPoint = "tcgetattr")]
    private static partial int GetModes(int descriptor, byte[] block);

    [LibraryImport("libc", EntryPoint = "tcsetattr")]
    private static partial int SetModes(int descriptor, int when, byte[] block);
}
