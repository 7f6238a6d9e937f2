using System.CommandLine;
using System.Net.Sockets;
using System.Text;
using Groundstation.Io;
using Groundstation.Io.Faults;

namespace Groundstation.Console.Commands;

/// <summary><c>instruct</c>: the instructor's terminal beside a replay.</summary>
internal static class InstructCommand
{
    /// <summary>The command.</summary>
    public static Command Create(TextWriter output)
    {
        Argument<string> socket = new("SOCKET") { Description = "The path given to replay --instructor" };
        StationCommand command = new("instruct",
            "Put faults into a running replay from a second terminal; the trainee does not see it.",
            "groundstation replay recordings/clean --instructor drill.sock",
            "groundstation instruct drill.sock", "echo silence 300 | groundstation instruct drill.sock")
        { More = "What may be typed:\n" + InstructorWords.Help + "\n\n" };
        command.Add(socket);
        command.SetAction(int (ParseResult parsed) =>
        {
            Talk(parsed.GetRequiredValue(socket), output);
            return 0;
        });
        return command;
    }

    private static void Talk(string path, TextWriter output)
    {
        using Socket socket = InstructorPort.Unconnected();
        try
        {
            socket.Connect(new UnixDomainSocketEndPoint(path));
        }
        catch (Exception e) when (e is SocketException or ArgumentException)
        {
            throw new UserErrorException($"{path}: no replay answers there; start one with --instructor {path}");
        }

        using NetworkStream stream = new(socket);
        bool left = false;
        Thread typing = new(() =>
        {
            try
            {
                while (System.Console.In.ReadLine() is { } line)
                {
                    if (line.Trim() is "quit" or "exit") Volatile.Write(ref left, true);
                    stream.Write(Encoding.UTF8.GetBytes(line + "\n"));
                }

                Volatile.Write(ref left, true);
                socket.Shutdown(SocketShutdown.Send);
            }
            catch (Exception e) when (e is IOException or ObjectDisposedException or SocketException)
            {
                // The replay has ended.
            }
        })
        { IsBackground = true };
        typing.Start();
        using StreamReader answers = new(stream, Encoding.UTF8);
        try
        {
            while (answers.ReadLine() is { } line)
            {
                output.WriteLine(line);
                output.Flush();
            }
        }
        catch (IOException)
        {
            // As when it ends in good order.
        }

        if (!Volatile.Read(ref left)) output.WriteLine("the replay has ended");
    }
}
