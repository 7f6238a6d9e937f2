using System.ComponentModel;
using System.Diagnostics;
using System.Threading.Channels;
using Groundstation.Core.Plan;

namespace Groundstation.Io.Speech;

/// <summary>
/// Reads callouts aloud through the plan's speech program, one at a time, on a task of its own: the station never waits
/// for it. When several wait, only the newest is read; what was left out, and what went wrong, is told in one line
/// each. Any thread may call it.
/// </summary>
internal sealed class Speaker : IDisposable
{
    // A callout takes 20 s. A program that needs longer than a minute hangs.
    private static readonly TimeSpan _longest = TimeSpan.FromSeconds(60);

    // Older than this a callout is overtaken by events.
    private static readonly TimeSpan _stale = TimeSpan.FromSeconds(45);

    private readonly SpeechSettings _settings;
    private readonly TimeProvider _time;
    private readonly Action<string> _tell;
    private readonly Channel<Waiting> _waiting = Channel.CreateUnbounded<Waiting>(new() { SingleReader = true });
    private readonly CancellationTokenSource _stop = new();
    private readonly Task _worker;
    private bool _missing;
    private string _told = "";

    /// <summary>A speaker that waits for its first callout.</summary>
    /// <param name="settings">The program; it must be named.</param>
    /// <param name="time">For the age of what waits.</param>
    /// <param name="tell">Takes what is to be known about the reading aloud; called on the speaker's own task.</param>
    public Speaker(SpeechSettings settings, TimeProvider time, Action<string> tell)
    {
        ArgumentException.ThrowIfNullOrEmpty(settings.Program);
        (_settings, _time, _tell) = (settings, time, tell);
        _worker = Task.Run(Work);
    }

    /// <summary>Reads a callout aloud as soon as the one before is done. Returns at once.</summary>
    /// <param name="number">Its number.</param>
    /// <param name="words">Its words.</param>
    /// <param name="asked">True when the operator asked for it: then a program that was missing is tried again.</param>
    public void Say(int number, string words, bool asked) =>
        _waiting.Writer.TryWrite(new Waiting(number, words, asked, _time.GetTimestamp()));

    /// <inheritdoc/>
    public void Dispose()
    {
        _waiting.Writer.TryComplete();
        _stop.Cancel();
        // The program is killed at once; a kill that hangs must not hold up the station's end.
        _worker.Wait(TimeSpan.FromSeconds(2));
        _stop.Dispose();
    }

    private async Task Work()
    {
        try
        {
            while (await _waiting.Reader.WaitToReadAsync(_stop.Token).ConfigureAwait(false))
            {
                if (Newest() is { } next && (next.Asked || !_missing))
                    await Speak(next).ConfigureAwait(false);
            }
        }
        catch (OperationCanceledException)
        {
            // The session ends.
        }
    }

    /// <summary>The newest that waits, if it is still worth reading; the others are dropped with a word.</summary>
    private Waiting? Newest()
    {
        Waiting? newest = null;
        List<int> dropped = [];
        while (_waiting.Reader.TryRead(out Waiting? next))
        {
            if (newest is not null)
                dropped.Add(newest.Number);
            newest = next;
        }

        if (newest is not null && _time.GetElapsedTime(newest.Since) > _stale)
        {
            dropped.Add(newest.Number);
            newest = null;
        }

        if (dropped.Count > 0 && !_missing)
            _tell($"callout {string.Join(", ", dropped)} was overtaken and not read aloud");
        return newest;
    }

    private async Task Speak(Waiting next)
    {
        bool byArgument = _settings.Arguments.Any(a => a.Contains(SpeechSettings.TextMark, StringComparison.Ordinal));
        ProcessStartInfo start = new(_settings.Program!)
        {
            // Nothing that the program prints may reach the terminal.
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            CreateNoWindow = true,
        };
        foreach (string argument in _settings.Arguments)
            start.ArgumentList.Add(argument.Replace(SpeechSettings.TextMark, next.Words, StringComparison.Ordinal));
        using Process program = new() { StartInfo = start };
        try
        {
            program.Start();
        }
        catch (Exception e) when (e is Win32Exception or FileNotFoundException or PlatformNotSupportedException)
        {
            _missing = true;
            string why = (e as Win32Exception)?.NativeErrorCode switch
            {
                2 => "there is no such program",
                // EACCES; ERROR_ACCESS_DENIED and ERROR_BAD_EXE_FORMAT on Windows.
                13 or 5 or 193 => "it may not be run",
                _ => UserErrorException.OneLine(e.Message),
            };
            Once($"{_settings.Program} cannot be started ({why}): callouts are only shown", next.Asked);
            return;
        }

        _missing = false;
        string complaint = "";
        program.ErrorDataReceived += (_, line) => complaint = complaint.Length == 0 ? line.Data ?? "" : complaint;
        program.BeginErrorReadLine();
        program.BeginOutputReadLine();
        await Feed(program, byArgument ? "" : next.Words + "\n").ConfigureAwait(false);
        if (!await Ended(program).ConfigureAwait(false))
            Once($"{_settings.Program} did not end within {_longest.TotalSeconds:F0} s and was stopped", next.Asked);
        else if (program.ExitCode != 0)
            Once($"{_settings.Program} failed ({program.ExitCode}{(complaint.Length > 0 ? ": " + complaint : "")})", next.Asked);
    }

    private static async Task Feed(Process program, string words)
    {
        try
        {
            await program.StandardInput.WriteAsync(words).ConfigureAwait(false);
            program.StandardInput.Close();
        }
        catch (IOException)
        {
            // It reads nothing, or has ended: its exit code tells.
        }
    }

    /// <summary>Waits for its end; false when it took too long. However this returns, the program is gone.</summary>
    private async Task<bool> Ended(Process program)
    {
        using CancellationTokenSource limit = CancellationTokenSource.CreateLinkedTokenSource(_stop.Token);
        limit.CancelAfter(_longest);
        try
        {
            await program.WaitForExitAsync(limit.Token).ConfigureAwait(false);
            return true;
        }
        catch (OperationCanceledException)
        {
            Kill(program);
            _stop.Token.ThrowIfCancellationRequested();
            return false;
        }
    }

    private static void Kill(Process program)
    {
        try
        {
            program.Kill(entireProcessTree: true);
        }
        catch (Exception e) when (e is InvalidOperationException or Win32Exception)
        {
            // It has just ended by itself.
        }
    }

    /// <summary>The same trouble with every callout is told once, and again only when the operator asked.</summary>
    private void Once(string trouble, bool asked)
    {
        if (_told == trouble && !asked)
            return;
        _told = trouble;
        _tell(UserErrorException.OneLine(trouble));
    }

    private sealed record Waiting(int Number, string Words, bool Asked, long Since);
}
