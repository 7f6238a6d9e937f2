namespace Groundstation.Console.Cells;

/// <summary>
/// The characters that may reach the terminal. Everything a radio, a file or a plan can hold passes here: only
/// printable, one cell wide, left-to-right characters get through, all others become <c>?</c>.
/// </summary>
internal static class Glyphs
{
    /// <summary>A blank at which running text is not broken; shown as a blank.</summary>
    public const char NoBreak = '\u00A0';

    /// <summary>The character itself if it may be shown, else <c>?</c>; its ASCII stand-in when asked for.</summary>
    public static char Safe(char c, bool ascii)
    {
        if (c is >= ' ' and <= '~') return c;
        if (c == NoBreak) return ' ';
        if (!Allowed(c)) return '?';
        return ascii ? Plain(c) : c;
    }

    /// <summary>
    /// Text with the signs that one ASCII character does not say spelt out: "~" for "±" would mean expected, not heard.
    /// </summary>
    public static string Spelt(string text, bool ascii) => !ascii ? text
        : text.Replace("±", "+/-", StringComparison.Ordinal).Replace("≤", "<=", StringComparison.Ordinal)
            .Replace("≥", ">=", StringComparison.Ordinal).Replace("…", "...", StringComparison.Ordinal);

    /// <remarks>
    /// Latin, Greek and Cyrillic letters without combining marks, and the few signs the screens use. No soft hyphen, no
    /// zero-width or bidirectional characters, nothing two cells wide.
    /// </remarks>
    private static bool Allowed(char c) => c switch
    {
        >= '\u00A1' and <= '\u017F' => c != '\u00AD',
        >= '\u0391' and <= '\u03C9' => true,
        >= '\u0410' and <= '\u044F' => true,
        >= '\u2500' and <= '\u259F' => true,
        >= '\u2800' and <= '\u28FF' => true,
        >= '\u2190' and <= '\u2199' => true,
        '–' or '—' or '‘' or '’' or '“' or '”' or '…' or '≈' or '≤' or '≥' or '√' or '⁄' => true,
        '■' or '▲' or '▼' or '●' or '◆' or '○' or '◇' or '−' => true,
        _ => false,
    };

    /// <summary>One ASCII character that says nearly the same.</summary>
    private static char Plain(char c) => c switch
    {
        '─' or '–' or '—' or '−' or '╌' or '┄' or '━' => '-',
        '│' or '┃' or '┆' => '|',
        '┼' or '├' or '┤' or '┬' or '┴' or '┌' or '┐' or '└' or '┘' => '+',
        '·' => '.',
        // Where text is cut off: a full stop would end the sentence.
        '…' => '>',
        '×' => 'x',
        '≈' => '~',
        '°' => 'd',
        '²' => '2',
        '≤' => '<',
        '≥' => '>',
        '⁄' => '|',
        '‘' or '’' => '\'',
        '“' or '”' => '"',
        '●' => 'O',
        '○' => 'o',
        '◆' => 'X',
        '◇' => '+',
        '■' => '#',
        '▲' or '↑' => '^',
        '▼' or '↓' => 'v',
        '→' => '>',
        '←' => '<',
        '↗' or '↙' => '/',
        '↖' or '↘' => '\\',
        >= '▁' and <= '█' => '#',
        >= '▉' and <= '▏' => '=',
        '░' or '▒' or '▓' => ':',
        >= '\u2800' and <= '\u28FF' => c == '\u2800' ? ' ' : '*',
        _ => '?',
    };
}
