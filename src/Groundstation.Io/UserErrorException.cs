using System.Globalization;

namespace Groundstation.Io;

/// <summary>
/// Something the user can put right. <see cref="Exception.Message"/> is one line that names the file or device, the
/// line and key where there is one, and the remedy; the program prints it as it is and exits with 1.
/// </summary>
public sealed class UserErrorException : Exception
{
    // A key or a name quoted from a hostile file can be megabytes long.
    private const int Longest = 1000;

    /// <summary>With its one line; control characters in it are replaced.</summary>
    public UserErrorException(string message) : base(OneLine(message))
    {
    }

    /// <summary>With its one line and what lies behind it.</summary>
    public UserErrorException(string message, Exception inner) : base(OneLine(message), inner)
    {
    }

    /// <summary>
    /// File names and device messages come from outside: no line break or escape of theirs gets through.
    /// </summary>
    internal static string OneLine(string text) =>
        string.Create(Math.Min(text.Length, Longest), text, static (span, from) =>
        {
            for (int i = 0; i < span.Length; i++)
                span[i] = IsUnseen(from[i]) ? '?' : from[i];
        });

    /// <summary>
    /// True for what a terminal would obey, or would show as nothing: controls, line separators, marks that turn or
    /// join writing.
    /// </summary>
    public static bool IsUnseen(char c) => char.GetUnicodeCategory(c) is UnicodeCategory.Control
        or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator;
}
