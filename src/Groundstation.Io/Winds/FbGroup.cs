using System.Globalization;
using Groundstation.Core.Air;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Io.Winds;

/// <summary>
/// One group of a winds aloft bulletin, <c>ddff±TT</c>: tens of degrees true, knots, °C. From 100 kt on 50 is added to
/// dd and 100 taken from ff; 9900 is light and variable; 7799 and the like 199 kt or more; above 24 000 ft
/// temperatures are negative and stand without a sign (AC 00-45, AIM 7-1).
/// </summary>
/// <param name="DirectionDeg">Where it comes from, degrees true, 10–360; null: light and variable.</param>
/// <param name="SpeedKt">Knots; null: light and variable, under 5 kt.</param>
/// <param name="OrMore">True when the speed is 199 kt or more.</param>
/// <param name="TemperatureC">°C; null where not told.</param>
public readonly record struct FbGroup(int? DirectionDeg, int? SpeedKt, bool OrMore, int? TemperatureC)
{
    /// <summary>Above this height, ft, temperatures have no sign and are negative.</summary>
    public const int SignlessAboveFt = 24_000;

    /// <summary>The wind; light and variable is none.</summary>
    public WindVector Wind =>
        DirectionDeg is { } from && SpeedKt is { } kt ? WindVector.FromDirection(from, kt * KnotMps) : default;

    /// <summary>Decodes a group; null when it is none.</summary>
    /// <param name="group">The group.</param>
    /// <param name="altitudeFt">Height of its column, ft.</param>
    public static FbGroup? Parse(string group, int altitudeFt)
    {
        if (group.Length < 4 || !Digits(group[..4])) return null;
        int? celsius = null;
        string rest = group[4..];
        if (rest.Length > 0)
        {
            bool signed = rest[0] is '+' or '-';
            string figures = signed ? rest[1..] : rest;
            if (figures.Length is < 1 or > 2 || !Digits(figures)) return null;
            celsius = int.Parse(figures, CultureInfo.InvariantCulture);
            if (signed ? rest[0] == '-' : altitudeFt > SignlessAboveFt) celsius = -celsius;
        }

        int tens = int.Parse(group.AsSpan(0, 2), CultureInfo.InvariantCulture);
        int knots = int.Parse(group.AsSpan(2, 2), CultureInfo.InvariantCulture);
        return (tens, knots) switch
        {
            (99, 0) => new(null, null, false, celsius),
            ( >= 51 and <= 86, _) => new((tens - 50) * 10, knots + 100, knots == 99, celsius),
            ( >= 1 and <= 36, _) => new(tens * 10, knots, false, celsius),
            (0, 0) => new(360, 0, false, celsius),
            _ => null,
        };
    }

    private static bool Digits(string text) => text.All(char.IsAsciiDigit);
}
