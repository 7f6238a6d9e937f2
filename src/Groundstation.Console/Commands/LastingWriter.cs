using System.Text;

namespace Groundstation.Console.Commands;

/// <summary>
/// Writes to a terminal or pipe that may be gone. After a hang-up a write fails with an I/O error; without this the
/// summary's own failure would be reported, fail again, and leave the program hanging in its exit for ever.
/// </summary>
/// <param name="inner">Where the text goes while there is somebody to read it.</param>
internal sealed class LastingWriter(TextWriter inner) : TextWriter
{
    /// <inheritdoc/>
    public override Encoding Encoding => inner.Encoding;

    /// <inheritdoc/>
    public override void Write(char value) => Try(() => inner.Write(value));

    /// <inheritdoc/>
    public override void Write(string? value) => Try(() => inner.Write(value));

    /// <inheritdoc/>
    public override void WriteLine(string? value) => Try(() => inner.WriteLine(value));

    /// <inheritdoc/>
    public override void Flush() => Try(inner.Flush);

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
