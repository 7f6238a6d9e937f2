namespace Groundstation.Io.Storage;

/// <summary>
/// A small text file that is replaced whole: whoever looks sees the old text or the new one. A text that cannot be
/// written does not throw; it waits, and <see cref="Look"/> tries again.
/// </summary>
internal sealed class ReplacedFile(string path)
{
    private string? _waiting;

    /// <summary>Where it lies.</summary>
    public string Path { get; } = path;

    /// <summary>Why it cannot be written at the moment; empty when all is well.</summary>
    public string Trouble { get; private set; } = "";

    /// <summary>Replaces the text.</summary>
    public void Write(string text)
    {
        _waiting = text;
        Look();
    }

    /// <summary>Tries again what could not be written.</summary>
    public void Look()
    {
        if (_waiting is null) return;
        try
        {
            string anew = Path + ".new";
            File.WriteAllText(anew, _waiting);
            File.Move(anew, Path, overwrite: true);
            (_waiting, Trouble) = (null, "");
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            Trouble = FileTrouble.Words(e);
        }
    }
}
