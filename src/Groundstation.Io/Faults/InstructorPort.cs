using System.Net.Sockets;
using System.Text;
using Groundstation.Io.Desk;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Faults;

/// <summary>
/// A Unix-domain socket at which an instructor's terminal reaches a replay: nothing of it shows on the trainee's
/// screen, and nobody but users of this machine who may open the file can reach it.
/// </summary>
public sealed class InstructorPort : IDisposable
{
    private readonly string _path;
    private readonly TrainingDesk _desk;
    private readonly Socket _socket;
    private readonly CancellationTokenSource _stop = new();
    private readonly Task _serving;

    private InstructorPort(string path, TrainingDesk desk, Socket socket)
    {
        (_path, _desk, _socket) = (path, desk, socket);
        _serving = Task.Run(Serve);
    }

    /// <summary>Opens the socket.</summary>
    /// <exception cref="UserErrorException">It cannot be made there, or something else is there.</exception>
    public static InstructorPort Open(string path, TrainingDesk desk)
    {
        Socket socket = Unconnected();
        try
        {
            if (File.Exists(path) && !Forsaken(path))
                throw new UserErrorException($"{path}: there is a file already; name another path for the instructor");
            socket.Bind(new UnixDomainSocketEndPoint(path));
            if (!OperatingSystem.IsWindows())
                File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite);
            socket.Listen(4);
            return new InstructorPort(path, desk, socket);
        }
        catch (Exception e)
        {
            socket.Dispose();
            if (e is SocketException or ArgumentException || FileTrouble.Is(e))
                throw new UserErrorException($"{path}: no socket can be made there ({e.Message})", e);
            throw;
        }
    }

    /// <summary>A socket of this kind that leads nowhere yet.</summary>
    /// <exception cref="UserErrorException">The system has none.</exception>
    public static Socket Unconnected()
    {
        try
        {
            return new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        }
        catch (SocketException e)
        {
            throw new UserErrorException(
                "instructor: this system has no Unix-domain sockets (Windows has them from 10 version 1803 on)", e);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _stop.Cancel();
        _socket.Dispose();
        _serving.Wait(TimeSpan.FromSeconds(2));
        try
        {
            File.Delete(_path);
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            // A stale socket is put aside by the next one.
        }

        _stop.Dispose();
    }

    /// <summary>True for the socket of a replay that was killed: nobody answers, and it may be put aside.</summary>
    private static bool Forsaken(string path)
    {
        if (new FileInfo(path).Length > 0)
            return false;
        using Socket probe = Unconnected();
        try
        {
            probe.Connect(new UnixDomainSocketEndPoint(path));
            return false;
        }
        catch (SocketException)
        {
            File.Delete(path);
            return true;
        }
    }

    private async Task Serve()
    {
        List<Task> talks = [];
        try
        {
            while (true)
                talks.Add(Talk(await _socket.AcceptAsync(_stop.Token).ConfigureAwait(false)));
        }
        catch (Exception e) when (e is OperationCanceledException or ObjectDisposedException or SocketException)
        {
            // The replay has ended.
        }

        await Task.WhenAll(talks).ConfigureAwait(false);
    }

    private async Task Talk(Socket client)
    {
        try
        {
            using NetworkStream stream = new(client, ownsSocket: true);
            using StreamReader lines = new(stream, Encoding.UTF8);
            await Say(stream, _desk.Standing() + "\nhelp shows what may be typed").ConfigureAwait(false);
            while (await lines.ReadLineAsync(_stop.Token).ConfigureAwait(false) is { } line
                && await InstructorWords.Answer(line.Length > 500 ? line[..500] : line, _desk).WaitAsync(_stop.Token)
                    .ConfigureAwait(false) is { } answer)
                await Say(stream, answer).ConfigureAwait(false);
        }
        catch (Exception e) when (e is IOException or OperationCanceledException or ObjectDisposedException)
        {
            // The instructor's terminal has gone, or the replay ends.
        }
    }

    private async Task Say(NetworkStream to, string text) =>
        await to.WriteAsync(Encoding.UTF8.GetBytes(text + "\n"), _stop.Token).ConfigureAwait(false);
}
