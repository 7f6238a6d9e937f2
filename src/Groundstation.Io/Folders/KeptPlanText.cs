using System.Collections.Immutable;
using System.Text;
using System.Text.RegularExpressions;
using Groundstation.Core.Plan;
using Groundstation.Io.Toml;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace Groundstation.Io.Folders;

/// <summary>The text of a plan as a flight folder keeps it.</summary>
internal static partial class KeptPlanText
{
    /// <summary>
    /// A plan's text as it stands, but for a relative terrain folder, which is told from here, and the wind files,
    /// which
    /// are the folder's own copies.
    /// </summary>
    public static byte[] Of(string text, FlightPlan plan, ImmutableArray<string> winds)
    {
        if (!winds.IsEmpty && SyntaxParser.Parse(text, "", true).KeyValues
                .FirstOrDefault(entry => TomlFile.NameOf(entry.Key!) == "winds")?.Value is { } value)
        {
            SourceSpan span = value.Span;
            text = text[..span.Offset] + "[" + string.Join(", ", winds.Select(Quoted)) + "]"
                + text[(span.Offset + span.Length)..];
        }

        if (plan.TerrainFolder is { } folder)
            text = TerrainLine().Replace(text, m => m.Groups[1].Value + Quoted(folder));
        return Encoding.UTF8.GetBytes(text);
    }

    private static string Quoted(string text) => "\"" + text.Replace("\\", "\\\\", StringComparison.Ordinal)
        .Replace("\"", "\\\"", StringComparison.Ordinal) + "\"";

    [GeneratedRegex("""^([ \t]*terrain_folder[ \t]*=[ \t]*)(?:"(?:[^"\\\r\n]|\\.)*"|'[^'\r\n]*')""",
        RegexOptions.Multiline)]
    private static partial Regex TerrainLine();
}
