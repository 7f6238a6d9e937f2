using System.Globalization;
using Groundstation.Core.Earth;

namespace Groundstation.Console.Screens;

/// <summary>Checks what the operator typed and puts it into the form of an operator's act.</summary>
internal static class Answers
{
    /// <summary>The act's argument, or null and what was wrong.</summary>
    public static (string? Argument, string Complaint) Read(string verb, string typed) => verb switch
    {
        "chase-position" => Position(typed),
        "ground-height" => Ground(typed),
        _ => (typed, ""),
    };

    private static (string?, string) Position(string typed)
    {
        (GeoPoint? place, string complaint) = CoordinateText.Read(typed);
        return place is { } at
            ? (string.Create(CultureInfo.InvariantCulture, $"{at.LatitudeDeg:F6},{at.LongitudeDeg:F6}"), "")
            : (null, complaint);
    }

    private static (string?, string) Ground(string typed)
    {
        bool feet = typed.EndsWith("ft", StringComparison.OrdinalIgnoreCase);
        string alone = feet ? typed[..^2] : typed.EndsWith('m') ? typed[..^1] : typed;
        if (!Number(alone, out double metres)) return (null, "needs one number, in metres; or in feet: 1380 ft");
        if (feet) metres *= Core.Quantities.CustomaryUnits.FootM;
        if (metres is < -500 or > 9000) return (null, "ground lies between -500 and 9000 m");
        return (string.Create(CultureInfo.InvariantCulture, $"{metres:F1}"), "");
    }

    private static bool Number(string text, out double value) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
}
