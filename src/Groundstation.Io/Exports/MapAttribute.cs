using System.Globalization;
using System.Xml;
using Groundstation.Core.Quantities;

namespace Groundstation.Io.Exports;

/// <summary>A named value of something on the map; the unit stands in the name, SI.</summary>
public readonly record struct MapAttribute
{
    private MapAttribute(string name, string value, bool isNumber) => (Name, Value, IsNumber) = (name, value, isNumber);

    /// <summary>Its name, lower case, with the unit: <c>area95_major_m</c>.</summary>
    public string Name { get; }

    /// <summary>The value as text.</summary>
    public string Value { get; }

    /// <summary>True when <see cref="Value"/> is a decimal number.</summary>
    public bool IsNumber { get; }

    /// <summary>A text.</summary>
    public static MapAttribute Of(string name, string value) => new(name, value, false);

    /// <summary>A moment.</summary>
    public static MapAttribute Of(string name, Instant value) => new(name, value.ToString(), false);

    /// <summary>A finite number with fixed decimals.</summary>
    public static MapAttribute Of(string name, double value, int decimals)
    {
        if (!double.IsFinite(value))
            throw new ArgumentOutOfRangeException(nameof(value), "a missing value is left out");
        string text = Math.Round(value, decimals).ToString("F" + decimals, CultureInfo.InvariantCulture);
        return new(name, text.AsSpan().ContainsAnyInRange('1', '9') ? text : text.TrimStart('-'), true);
    }

    /// <summary>
    /// A text without the characters that XML 1.0 cannot hold, in whatever way escaped: they become <c>?</c>.
    /// </summary>
    internal static string Clean(string text)
    {
        int bad = FirstBad(text, 0);
        if (bad < 0)
            return text;
        char[] clean = text.ToCharArray();
        for (; bad >= 0; bad = FirstBad(text, bad + 1))
            clean[bad] = '?';
        return new string(clean);
    }

    private static int FirstBad(string text, int from)
    {
        for (int i = from; i < text.Length; i++)
        {
            if (i + 1 < text.Length && XmlConvert.IsXmlSurrogatePair(text[i + 1], text[i]))
                i++;
            else if (!XmlConvert.IsXmlChar(text[i]))
                return i;
        }

        return -1;
    }
}
