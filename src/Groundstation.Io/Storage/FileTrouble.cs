namespace Groundstation.Io.Storage;

/// <summary>Plain words for what the file system says.</summary>
internal static class FileTrouble
{
    /// <summary>True for the exceptions that opening, reading and writing a file can end in.</summary>
    public static bool Is(Exception e) => e is IOException or UnauthorizedAccessException or NotSupportedException
        or System.Security.SecurityException or ArgumentException;

    /// <summary>The cause in a few words, without the path.</summary>
    public static string Words(Exception e) => e switch
    {
        FileNotFoundException => "no such file",
        DirectoryNotFoundException => "no such folder",
        // Windows says it too when a file that is to be replaced is open in another program.
        UnauthorizedAccessException => OperatingSystem.IsWindows()
            ? "permission denied, or another program has it open" : "permission denied",
        PathTooLongException => "the name is too long",
        IOException io when IsInUse(io) => "another program has it open",
        IOException io when IsFull(io) => "no space left on the disk",
        ArgumentException => "not a usable file name",
        // A pipe has neither length nor beginning.
        NotSupportedException => "not a plain file",
        _ => UserErrorException.OneLine(e.Message),
    };

    /// <summary>True when another program has the file open for itself alone; the number differs from system to system.
    /// </summary>
    public static bool IsInUse(IOException e) =>
        e.Message.Contains("being used by another process", StringComparison.Ordinal);

    /// <summary>ENOSPC and EDQUOT on Unix; ERROR_DISK_FULL and ERROR_HANDLE_DISK_FULL on Windows.</summary>
    private static bool IsFull(IOException e) =>
        e.HResult is 28 or 122 || unchecked((uint)e.HResult) is 0x80070070 or 0x80070027;
}
