using System.Text;
using System.Text.RegularExpressions;
using Groundstation.Core.Plan;

namespace Groundstation.Io.Folders;

/// <summary>The text of a plan as a flight folder keeps it.</summary>
internal static partial class KeptPlanText
{
    /// <summary>A plan's text as it stands, but for a relative terrain folder, which is told from here.</summary>
    public static byte[] Of(string text, FlightPlan plan)
    {
        if (plan.TerrainFolder is { } folder)
        {
            string quoted = folder.Replace("\\", "\\\\", StringComparison.Ordinal)
                .Replace("\"", "\\\"", StringComparison.Ordinal);
            text = TerrainLine().Replace(text, m => $"{m.Groups[1].Value}\"{quoted}\"");
        }

        return Encoding.UTF8.GetBytes(text);
    }

    [GeneratedRegex("""^([ \t]*terrain_folder[ \t]*=[ \t]*)(?:"(?:[^"\\\r\n]|\\.)*"|'[^'\r\n]*')""",
        RegexOptions.Multiline)]
    private static partial Regex TerrainLine();
}
