using System.Globalization;
using Groundstation.Core.Quantities;
using nietras.SeparatedValues;

namespace Groundstation.Io.Folders;

/// <summary>How values are written in cells: fixed decimals, missing is empty.</summary>
internal static class Cells
{
    /// <summary>A number with fixed decimals; empty when missing. Minus zero is zero.</summary>
    public static void Number(SepWriter.Row row, string column, double? value, int decimals)
    {
        if (value is not { } v || !double.IsFinite(v))
        {
            row[column].Set("");
            return;
        }

        Span<char> text = stackalloc char[64];
        if (!v.TryFormat(text, out int n, Format(decimals), CultureInfo.InvariantCulture))
        {
            // Beyond 10⁵⁰: no quantity of ours, but a row is never lost for it.
            row[column].Set(v.ToString("R", CultureInfo.InvariantCulture));
            return;
        }

        ReadOnlySpan<char> written = text[..n];
        row[column].Set(written[0] == '-' && !written.ContainsAnyInRange('1', '9') ? written[1..] : written);
    }

    /// <summary>A whole number; empty when missing.</summary>
    public static void Whole(SepWriter.Row row, string column, long? value) =>
        row[column].Set(value?.ToString(CultureInfo.InvariantCulture) ?? "");

    /// <summary>A moment; empty when missing.</summary>
    public static void Time(SepWriter.Row row, string column, Instant? at) =>
        row[column].Set(at?.ToString() ?? "");

    /// <summary>
    /// A text. One that a spreadsheet would take for a formula (<c>= + - @</c>, tab or CR first) gets an apostrophe in
    /// front, and what cannot be seen becomes a space: what a radio sent must not run on somebody's laptop.
    /// </summary>
    public static void Text(SepWriter.Row row, string column, string text)
    {
        if (text.AsSpan().ContainsAnyExceptInRange(' ', '~'))
            text = string.Create(text.Length, text, static (to, from) =>
            {
                for (int i = 0; i < to.Length; i++)
                    to[i] = UserErrorException.IsUnseen(from[i]) ? ' ' : from[i];
            });
        row[column].Set(text is ['=' or '+' or '-' or '@', ..] ? "'" + text : text);
    }

    /// <summary>A word of ours: an enum's name in lower case, with hyphens between its words.</summary>
    public static string Word<T>(T value) where T : struct, Enum
    {
        string name = value.ToString();
        System.Text.StringBuilder word = new(name.Length + 4);
        foreach (char c in name)
        {
            if (char.IsAsciiLetterUpper(c) && word.Length > 0)
                word.Append('-');
            word.Append(char.ToLowerInvariant(c));
        }

        return word.ToString();
    }

    /// <summary>The words of all flags that are set, a space between them; empty for none.</summary>
    public static string Flags(Core.Fixes.RefusalReasons flags)
    {
        List<string> words = [];
        for (int bit = 1; bit <= (int)flags && bit > 0; bit <<= 1)
        {
            if (((int)flags & bit) != 0)
                words.Add(Word((Core.Fixes.RefusalReasons)bit));
        }

        return string.Join(' ', words);
    }

    private static string Format(int decimals) => decimals switch
    {
        0 => "F0",
        1 => "F1",
        2 => "F2",
        3 => "F3",
        6 => "F6",
        _ => "F9",
    };
}
