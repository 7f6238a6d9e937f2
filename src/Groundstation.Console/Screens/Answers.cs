using System.Globalization;

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
        string[] parts = typed.Split([',', ' ', ';'], StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length != 2 || !Number(parts[0], out double lat) || !Number(parts[1], out double lon))
            return (null, "needs two numbers: latitude, longitude");
        if (Math.Abs(lat) > 90) return (null, "latitude runs from -90 to 90");
        if (Math.Abs(lon) > 180) return (null, "longitude runs from -180 to 180");
        return (string.Create(CultureInfo.InvariantCulture, $"{lat:F6},{lon:F6}"), "");
    }

    private static (string?, string) Ground(string typed)
    {
        if (!Number(typed, out double metres)) return (null, "needs one number, in metres");
        if (metres is < -500 or > 9000) return (null, "ground lies between -500 and 9000 m");
        return (string.Create(CultureInfo.InvariantCulture, $"{metres:F1}"), "");
    }

    private static bool Number(string text, out double value) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
}
