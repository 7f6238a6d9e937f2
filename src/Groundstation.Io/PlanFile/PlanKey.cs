using System.Collections.Immutable;
using System.Globalization;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Tomlyn.Syntax;

namespace Groundstation.Io.PlanFile;

/// <summary>One key of the plan file: what it may be and where its value goes.</summary>
/// <param name="Name"><c>section.key</c>.</param>
/// <param name="Allowed">What is allowed, as the error line says it.</param>
/// <param name="Set">Takes the value into the plan; null when the value is not allowed.</param>
internal sealed record PlanKey(string Name, string Allowed, Func<FlightPlan, ValueSyntax, FlightPlan?> Set)
{
    /// <summary>A number within bounds, both allowed.</summary>
    public static PlanKey Number(string name, double min, double max, string unit, string reason,
        Func<FlightPlan, double, FlightPlan> set) => new(name, Range(min, max, unit, reason),
        (plan, value) => Real(value) is { } v && v >= min && v <= max ? set(plan, v) : null)
        {
            InUnit = (given, own) =>
            {
                // Bounds in another unit are rounded to four figures for the error line, never for the check.
                double least = Math.Min(own.In(given, min), own.In(given, max));
                double most = Math.Max(own.In(given, min), own.In(given, max));
                return new PlanKey(name, Range(Short(least), Short(most), given.Suffix, reason), (plan, value) =>
                    Real(value) is { } v && v >= least && v <= most
                        ? set(plan, Math.Clamp(given.In(own, v), min, max)) : null);
            },
        };

    /// <summary>For a quantity: the same key with its value in another unit.</summary>
    private Func<Unit, Unit, PlanKey>? InUnit { get; init; }

    /// <summary>The key that a name in the file means, in whatever unit; null: it means another.</summary>
    public PlanKey? As(string given) => given == Name ? this
        : InUnit is not null && Unit.Match(given, Name) is var (unit, own) ? InUnit(unit, own) : null;

    /// <summary>A whole number within bounds.</summary>
    public static PlanKey Whole(string name, long min, long max, string reason,
        Func<FlightPlan, long, FlightPlan> set) => new(name, $"a whole number from {min} to {max} ({reason})",
        (plan, value) => value is IntegerValueSyntax i && i.Value >= min && i.Value <= max
            ? set(plan, i.Value) : null);

    /// <summary>True or false.</summary>
    public static PlanKey Switch(string name, Func<FlightPlan, bool, FlightPlan> set) => new(name, "true or false",
        (plan, value) => value is BooleanValueSyntax b ? set(plan, b.Value) : null);

    /// <summary>A text in quotes that <paramref name="set"/> takes or refuses.</summary>
    public static PlanKey Text(string name, string allowed, Func<FlightPlan, string, FlightPlan?> set) =>
        new(name, allowed, (plan, value) => value is StringValueSyntax { Value: { } s } ? set(plan, s) : null);

    /// <summary>A moment with its zone, as TOML's date and time or as a text.</summary>
    public static PlanKey Moment(string name, Func<FlightPlan, Instant, FlightPlan> set) => new(name,
        "a date and time from 1950 to 2199 that ends with Z, such as 2026-06-21T10:30:00Z", (plan, value) =>
    {
        string text = (value is StringValueSyntax s ? s.Value ?? "" : (value as DateTimeValueSyntax)?.Token?.Text ?? "")
            .Trim().Replace(' ', 'T').ToUpperInvariant();
        return DateTimeOffset.TryParseExact(text, ["yyyy-MM-dd'T'HH:mmK", "yyyy-MM-dd'T'HH:mm:ssK"],
            CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset at)
            && at.Year is >= 1950 and < 2200 && (text.EndsWith('Z') || text.LastIndexOfAny(['+', '-']) > 10)
            ? set(plan, Instant.FromUnixMilliseconds(at.ToUnixTimeMilliseconds())) : null;
    });

    /// <summary>A list of texts in quotes, each of which <paramref name="fits"/>.</summary>
    public static PlanKey Texts(string name, int most, string allowed, Func<string, bool> fits,
        Func<FlightPlan, ImmutableArray<string>, FlightPlan> set) => new(name, allowed, (plan, value) =>
        value is ArraySyntax list && list.Items.Select(i => (i.Value as StringValueSyntax)?.Value).ToArray() is var texts
        && texts.Length <= most && texts.All(t => t is not null && fits(t)) ? set(plan, [.. texts!]) : null);

    /// <summary>A finite number, written as integer or float; null for anything else.</summary>
    public static double? Real(ValueSyntax value) => value switch
    {
        IntegerValueSyntax i => i.Value,
        FloatValueSyntax f when double.IsFinite(f.Value) => f.Value,
        _ => null,
    };

    private static double Short(double value) =>
        double.Parse(value.ToString("G4", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    /// <summary>The words for bounds.</summary>
    public static string Range(double min, double max, string unit, string reason) => string.Create(
        CultureInfo.InvariantCulture, $"a number from {min} to {max}")
        + (unit.Length > 0 ? " " + unit : "") + (reason.Length > 0 ? $" ({reason})" : "");
}
