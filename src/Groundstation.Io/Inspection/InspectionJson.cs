using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Groundstation.Io.Inspection;

/// <summary>The report as JSON: the properties' names in snake_case, a missing value as null.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.SnakeCaseLower, WriteIndented = true,
    NewLine = "\n", UseStringEnumConverter = true, Converters = [typeof(FitnessConverter)])]
[JsonSerializable(typeof(InspectionReport))]
internal sealed partial class InspectionJson : JsonSerializerContext
{
    /// <summary>Writes it, with a line end behind.</summary>
    public static void Write(InspectionReport report, TextWriter to)
    {
        // For files and pipes, not for HTML: + and letters beyond ASCII stay readable; control characters are escaped.
        InspectionJson relaxed = new(new JsonSerializerOptions(Default.Options)
        {
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        });
        to.Write(JsonSerializer.Serialize(report, relaxed.InspectionReport));
        to.Write('\n');
    }
}

/// <summary>The verdict in words: <c>fit</c>, <c>fit_with_cautions</c>, <c>not_fit</c>.</summary>
internal sealed class FitnessConverter() : JsonStringEnumConverter<Fitness>(JsonNamingPolicy.SnakeCaseLower);
