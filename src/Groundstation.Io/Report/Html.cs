using System.Globalization;
using System.Text;
using Groundstation.Core.Quantities;

namespace Groundstation.Io.Report;

/// <summary>Builds a page. Every text is escaped on its way in; only drawings made here go in as they are.</summary>
internal sealed class Html
{
    private readonly StringBuilder _page = new();

    /// <summary>The page so far.</summary>
    public override string ToString() => _page.ToString();

    /// <summary>Markup of our own.</summary>
    public Html Raw(string markup)
    {
        _page.Append(markup).Append('\n');
        return this;
    }

    /// <summary>An element that holds a text.</summary>
    public Html Element(string name, string text) => Raw($"<{name}>{Escape(text)}</{name}>");

    /// <summary>A paragraph.</summary>
    public Html Paragraph(string text) => Element("p", text);

    /// <summary>A remark in small print.</summary>
    public Html Remark(string text) => Raw($"<p class=\"remark\">{Escape(text)}</p>");

    /// <summary>The heading that begins a section.</summary>
    public Html Heading(string text) => Element("h2", text);

    /// <summary>A table; a row with fewer cells than there are columns is filled up.</summary>
    public Html Table(IReadOnlyList<string> columns, IEnumerable<IReadOnlyList<string>> rows)
    {
        _page.Append("<table><thead><tr>");
        foreach (string column in columns)
            _page.Append("<th scope=\"col\">").Append(Escape(column)).Append("</th>");
        _page.Append("</tr></thead><tbody>\n");
        foreach (IReadOnlyList<string> row in rows)
        {
            _page.Append("<tr>");
            for (int i = 0; i < columns.Count; i++)
            {
                string cell = i < row.Count ? row[i] : "";
                // A word that fits no column may be cut anywhere; all others stay whole.
                bool longWord = cell.Split(' ').Any(word => word.Length > 30);
                _page.Append(longWord ? "<td class=\"long\">" : "<td>").Append(Escape(cell)).Append("</td>");
            }

            _page.Append("</tr>\n");
        }

        _page.Append("</tbody></table>\n");
        return this;
    }

    /// <summary>A list.</summary>
    public Html List(IEnumerable<string> items)
    {
        _page.Append("<ul>\n");
        foreach (string item in items)
            _page.Append("<li>").Append(Escape(item)).Append("</li>\n");
        _page.Append("</ul>\n");
        return this;
    }

    /// <summary>A text that is only a text, in an element or an attribute: what a radio sent cannot become markup, and
    /// what turns the direction of writing or cannot be seen becomes <c>?</c>.</summary>
    public static string Escape(string text)
    {
        StringBuilder escaped = new(text.Length);
        foreach (char c in Exports.MapAttribute.Clean(text))
        {
            escaped = c switch
            {
                '<' => escaped.Append("&lt;"),
                '>' => escaped.Append("&gt;"),
                '&' => escaped.Append("&amp;"),
                '"' => escaped.Append("&quot;"),
                '\'' => escaped.Append("&#39;"),
                '\u200e' or '\u200f' or (>= '\u202a' and <= '\u202e') or (>= '\u2066' and <= '\u2069') =>
                    escaped.Append('?'),
                _ => escaped.Append(char.IsControl(c) ? '?' : c),
            };
        }

        return escaped.ToString();
    }

    /// <summary>Whole metres, thousands apart: <c>29 600 m</c>.</summary>
    public static string Metres(double metres) => Whole(metres) + " m";

    /// <summary>Metres below a kilometre, else kilometres with a decimal.</summary>
    public static string Distance(double metres) => metres < 995 ? $"{metres:F0} m" : $"{metres / 1000:F1} km";

    /// <summary>A whole number, thousands apart.</summary>
    public static string Whole(double value) =>
        (Math.Round(value) + 0.0).ToString("#,0", CultureInfo.InvariantCulture).Replace(',', '\u202f')
            .Replace('-', '−');

    /// <summary>A decimal number with a true minus sign.</summary>
    public static string Number(double value, int decimals) =>
        value.ToString("F" + decimals, CultureInfo.InvariantCulture).Replace('-', '−');

    /// <summary>A moment to the second: <c>2027-05-08 09:59:17 Z</c>.</summary>
    public static string Moment(Instant utc) => $"{utc.ToString()[..10]} {Clock(utc)}";

    /// <summary>A time of day: <c>09:59:17 Z</c>.</summary>
    public static string Clock(Instant utc) => utc.ToString()[11..19] + "\u00a0Z";

    /// <summary>A duration: <c>2 h 12 min</c>, <c>5 min 20 s</c>, <c>14 s</c>.</summary>
    public static string Duration(double seconds)
    {
        long s = (long)Math.Round(Math.Abs(seconds));
        string sign = seconds < -0.5 ? "−" : "";
        return sign + (s >= 3600 ? $"{s / 3600} h {s / 60 % 60:00} min" : s >= 60 ? $"{s / 60} min {s % 60:00} s"
            : $"{s} s");
    }
}
