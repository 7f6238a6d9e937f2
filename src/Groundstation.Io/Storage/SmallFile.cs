namespace Groundstation.Io.Storage;

/// <summary>
/// Files that a user names and that have a largest size. A pipe has no length, and a device would never end.
/// </summary>
internal static class SmallFile
{
    /// <summary>All bytes of a file; null when it has more than <paramref name="most"/>.</summary>
    public static byte[]? Read(string path, int most)
    {
        using FileStream file = File.OpenRead(path);
        if (file.CanSeek && file.Length > most)
            return null;
        using MemoryStream bytes = new();
        byte[] piece = new byte[81_920];
        for (int n; (n = file.Read(piece)) > 0;)
        {
            if (bytes.Length + n > most)
                return null;
            bytes.Write(piece, 0, n);
        }

        return bytes.ToArray();
    }

    /// <summary>Its text; null when it has more bytes.</summary>
    public static string? Text(string path, int most)
    {
        if (Read(path, most) is not { } bytes)
            return null;
        using StreamReader text = new(new MemoryStream(bytes));
        return text.ReadToEnd();
    }
}
