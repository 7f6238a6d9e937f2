using System.Text;
using Groundstation.Io;

namespace Groundstation.Console.Commands;

/// <summary>
/// Writes to a terminal or pipe that may be gone. After a hang-up a write fails with an I/O error; without this the
/// summary's own failure would be reported, fail again, and leave the program hanging in its exit for ever. What a
/// terminal would obey instead of showing it does not get through: names of files, stations and areas come from
/// outside.
/// </summary>
/// <param name="inner">Where the text goes while there is somebody to read it.</param>
internal sealed class LastingWriter(TextWriter inner) : TextWriter
{
    /// <inheritdoc/>
    public override Encoding Encoding => inner.Encoding;

    /// <inheritdoc/>
    public override void Write(char value) => Try(() => inner.Write(Seen(value)));

    /// <inheritdoc/>
    public override void Write(string? value) => Try(() => inner.Write(Seen(value)));

    /// <inheritdoc/>
    public override void WriteLine(string? value) => Try(() => inner.WriteLine(Seen(value)));

    /// <inheritdoc/>
    public override void Flush() => Try(inner.Flush);

    private static char Seen(char c) => UserErrorException.IsUnseen(c) && c is not ('\n' or '\r' or '\t') ? '?' : c;

    private static string? Seen(string? text) =>
        text is null || !text.AsSpan().ContainsAnyExceptInRange(' ', '~') ? text : string.Create(text.Length, text, static (to, from) =>
        {
            for (int i = 0; i < to.Length; i++) to[i] = Seen(from[i]);
        });

    private static void Try(Action write)
    {
        try
        {
            write();
        }
        catch (IOException)
        {
            // Nobody is left to read it.
        }
    }
}
