using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;

namespace Groundstation.Console.Screens;

/// <summary>Checks what the operator typed and puts it into the form of an operator's act.</summary>
internal static class Answers
{
    /// <summary>The act's argument, or null and what was wrong. A height without a unit is in the screen's.</summary>
    public static (string? Argument, string Complaint) Read(string verb, string typed, DisplayUnits units) =>
        verb switch
        {
            "chase-position" => Position(typed),
            "ground-height" => Ground(typed, units),
            _ => (typed, ""),
        };

    private static (string?, string) Position(string typed)
    {
        (GeoPoint? place, string complaint) = CoordinateText.Read(typed);
        return place is { } at
            ? (string.Create(CultureInfo.InvariantCulture, $"{at.LatitudeDeg:F6},{at.LongitudeDeg:F6}"), "")
            : (null, complaint);
    }

    private static (string?, string) Ground(string typed, DisplayUnits units)
    {
        bool ft = typed.EndsWith("ft", StringComparison.OrdinalIgnoreCase), m = !ft && typed.EndsWith('m');
        if (!Number(ft ? typed[..^2] : m ? typed[..^1] : typed, out double metres))
        {
            return (null, units == DisplayUnits.Customary ? "needs one number, in feet; or in metres: 420 m"
                : "needs one number, in metres; or in feet: 1380 ft");
        }

        if (ft || (!m && units == DisplayUnits.Customary)) metres *= CustomaryUnits.FootM;
        if (metres is < -500 or > 9000)
        {
            (Measure least, Measure most) = (Measure.Height(-500).Bare, Measure.Height(9000));
            return (null, $"ground lies between {least.In(units)} and {most.In(units)}");
        }

        return (string.Create(CultureInfo.InvariantCulture, $"{metres:F1}"), "");
    }

    private static bool Number(string text, out double value) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
}
