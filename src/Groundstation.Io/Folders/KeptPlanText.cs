using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Groundstation.Core.Plan;
using Groundstation.Io.Toml;
using Tomlyn.Syntax;

namespace Groundstation.Io.Folders;

/// <summary>The text of a plan as a flight folder keeps it: paths are told from there, all else stays as it was.</summary>
internal static class KeptPlanText
{
    /// <summary>Name of a map file's copy in the flight folder.</summary>
    /// <param name="number">Its place in the plan's list, from 0.</param>
    /// <param name="file">The file copied; its ending says what it holds.</param>
    public static string CopyName(int number, string file) => string.Create(CultureInfo.InvariantCulture,
        $"keep-out-{number + 1}{Path.GetExtension(file).ToLowerInvariant()}");

    /// <summary>A plan's text with its paths as they hold in the flight folder.</summary>
    /// <param name="text">The plan file's text.</param>
    /// <param name="plan">What it says.</param>
    /// <param name="winds">Names of the wind files' copies.</param>
    public static byte[] Of(string text, FlightPlan plan, ImmutableArray<string> winds)
    {
        // From the end, so that places further up stay where they are.
        foreach (KeyValueSyntax entry in Entries(text).Reverse())
        {
            string? value = TomlFile.NameOf(entry.Key!).Split('.')[^1] switch
            {
                "terrain_folder" => Quoted(plan.TerrainFolder!),
                "keep_out" => "[" + string.Join(", ", plan.KeepOutFiles.Select((f, i) => Quoted(CopyName(i, f)))) + "]",
                "winds" => "[" + string.Join(", ", winds.Select(Quoted)) + "]",
                _ => null,
            };
            if (value is null) continue;
            SourceSpan span = entry.Value!.Span;
            text = text[..span.Start.Offset] + value + text[(span.End.Offset + 1)..];
        }

        return Encoding.UTF8.GetBytes(text);
    }

    /// <summary>All keys with their values, those of inline tables too, in the order of the text.</summary>
    private static IEnumerable<KeyValueSyntax> Entries(string text)
    {
        DocumentSyntax document = new TomlFile("plan", "plan").Parse(text);
        return document.KeyValues.Concat(document.Tables.SelectMany(t => t.Items)).SelectMany(e =>
            e.Value is InlineTableSyntax inline ? inline.Items.Select(i => i.KeyValue!) : [e]);
    }

    private static string Quoted(string value) => "\"" + value.Replace("\\", "\\\\", StringComparison.Ordinal)
        .Replace("\"", "\\\"", StringComparison.Ordinal) + "\"";
}
