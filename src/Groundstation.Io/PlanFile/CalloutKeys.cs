using System.Collections.Immutable;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Tomlyn.Syntax;

namespace Groundstation.Io.PlanFile;

/// <summary>The keys of callouts and of the program that reads them aloud.</summary>
internal static class CalloutKeys
{
    private const int MostArguments = 50;

    /// <summary>Words of <c>callouts.coordinates</c>.</summary>
    private static readonly (string Word, CoordinateFormat Format)[] _formats =
    [
        ("degrees", CoordinateFormat.DecimalDegrees), ("minutes", CoordinateFormat.DegreesMinutes),
        ("seconds", CoordinateFormat.DegreesMinutesSeconds), ("utm", CoordinateFormat.Utm),
        ("mgrs", CoordinateFormat.Mgrs), ("locator", CoordinateFormat.Maidenhead),
    ];

    /// <summary>The keys.</summary>
    public static readonly PlanKey[] All =
    [
        Name("callouts.to", (c, v) => c with { To = v }),
        Name("callouts.from", (c, v) => c with { From = v }),
        PlanKey.Text("callouts.coordinates", "\"degrees\", \"minutes\", \"seconds\", \"utm\", \"mgrs\" or \"locator\"",
            (p, v) => Array.FindIndex(_formats, f => f.Word == v) is >= 0 and var i
                ? Of(p, c => c with { Coordinates = _formats[i].Format }) : null),
        PlanKey.Text("callouts.bearings", "\"true\" or \"magnetic\"", (p, v) =>
            v is "true" or "magnetic" ? Of(p, c => c with { MagneticBearings = v == "magnetic" }) : null),
        PlanKey.Number("callouts.ascent_every_s", 60, 3600, "s", "",
            (p, v) => Of(p, c => c with { AscentCadenceS = v })),
        PlanKey.Number("callouts.descent_every_s", 60, 3600, "s", "",
            (p, v) => Of(p, c => c with { DescentCadenceS = v })),
        PlanKey.Number("callouts.moved_m", 50, 100_000, "m", "a move of the estimate by more is called",
            (p, v) => Of(p, c => c with { MovedM = v })),

        PlanKey.Text("speech.program", "the name or path of a program that reads text aloud", (p, v) =>
            v.Length is >= 1 and <= 400 && !v.Any(UserErrorException.IsUnseen)
                ? p with { Speech = p.Speech with { Program = v } } : null),
        new("speech.arguments", "a list of texts such as [\"-s\", \"150\"]; {text} in one stands for the words",
            (p, v) => Texts(v) is { } texts ? p with { Speech = p.Speech with { Arguments = texts } } : null),
    ];

    /// <summary>A call name is said twice in twenty seconds: it must be short.</summary>
    private static PlanKey Name(string key, Func<CalloutSettings, string, CalloutSettings> set) => PlanKey.Text(key,
        "a call name of 1 or 2 words, at most 30 letters, digits and blanks", (p, v) =>
            v.Length is >= 1 and <= 30 && v.All(c => char.IsLetterOrDigit(c) || c == ' ')
                && v.Split(' ', StringSplitOptions.RemoveEmptyEntries).Length is 1 or 2
                ? Of(p, c => set(c, v.Trim())) : null);

    private static FlightPlan Of(FlightPlan plan, Func<CalloutSettings, CalloutSettings> set) =>
        plan with { Callouts = set(plan.Callouts) };

    private static ImmutableArray<string>? Texts(ValueSyntax value)
    {
        if (value is not ArraySyntax array) return null;
        string?[] texts = [.. array.Items.Select(item => (item.Value as StringValueSyntax)?.Value)];
        return texts.Length <= MostArguments && texts.All(t => t is { Length: <= 400 } && !t.Any(char.IsControl))
            ? [.. texts!] : null;
    }
}
