using System.Globalization;

namespace Groundstation.Core.Alarms;

/// <summary>How the causes of alarms write figures: SI, decimal point.</summary>
internal static class Words
{
    public static string Span(double seconds) => seconds switch
    {
        < 120 => Text($"{seconds:F0} s"),
        < 7200 => Text($"{(int)seconds / 60} min {(int)seconds % 60} s"),
        < 172_800 => Text($"{(int)(seconds / 3600)} h {(int)(seconds / 60) % 60} min"),
        _ => Text($"{(long)(seconds / 86_400)} days"),
    };

    public static string Distance(double metres) => metres < 1000 ? Text($"{metres:F0} m") : Text($"{metres / 1000:F1} km");

    public static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
