using System.Collections.Immutable;
using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Plan;

/// <summary>One level of a wind forecast.</summary>
/// <param name="Height">Height.</param>
/// <param name="Wind">Wind there.</param>
/// <param name="TemperatureC">Air temperature, °C; null where not told.</param>
/// <param name="PressurePa">Pressure, Pa; null where not told.</param>
public readonly record struct ForecastLevel(HeightMsl Height, WindVector Wind, double? TemperatureC = null,
    double? PressurePa = null);

/// <summary>Whether winds were computed ahead of their time or measured.</summary>
public enum WindOrigin
{
    /// <summary>Computed ahead: wrong by its own error from the start.</summary>
    Forecast,

    /// <summary>
    /// Measured by a balloon: right when and where it was, and wrong by what the wind has changed since.
    /// </summary>
    Measured,
}

/// <summary>
/// Winds by height from one place and time, as one bulletin, report, sounding or table tells them. Immutable.
/// </summary>
public sealed record WindForecast
{
    /// <summary>The source of the levels that stand in the plan itself.</summary>
    public const string OwnLevels = "the plan's own levels";

    /// <summary>
    /// What it is and where it came from, in words: <c>fb.txt: winds aloft bulletin, station BRL</c>.
    /// </summary>
    public required string Source { get; init; }

    /// <summary>Computed or measured.</summary>
    public WindOrigin Origin { get; init; }

    /// <summary>When it holds; null: not told.</summary>
    public ReportTime? Valid { get; init; }

    /// <summary>Time of the observations that a forecast was computed from; null: not told, or measured.</summary>
    public ReportTime? BasedOn { get; init; }

    /// <summary>Where it holds; null: not told.</summary>
    public GeoPoint? Place { get; init; }

    /// <summary>Levels with a wind, lowest first, at least one, no height twice.</summary>
    public required ImmutableArray<ForecastLevel> Levels { get; init; }

    /// <summary>What a reader should know: gaps, levels left out and why; each one line.</summary>
    public ImmutableArray<string> Notes { get; init; } = [];

    /// <summary>Lowest level; the wind below is not told.</summary>
    public HeightMsl Bottom => Levels[0].Height;

    /// <summary>Highest level; the wind above is not told.</summary>
    public HeightMsl Top => Levels[^1].Height;
}

/// <summary>
/// The time of a report: whole, or only a day of the month and an hour, as bulletins tell it, which is resolved to the
/// moment nearest to the time it is wanted for.
/// </summary>
/// <param name="Utc">The moment, where the date is told; else null.</param>
/// <param name="Day">Day of the month, 1–31.</param>
/// <param name="Minutes">Minutes since midnight UTC, 0–1440.</param>
public readonly record struct ReportTime(Instant? Utc, int Day = 1, int Minutes = 0)
{
    /// <summary>
    /// The moment, nearest to another one where the date is not told: months without that day are passed over.
    /// </summary>
    public Instant Near(Instant reference)
    {
        if (Utc is { } known) return known;
        Instant? best = null;
        DateOnly month = reference.Date;
        month = new DateOnly(month.Year, month.Month, 1);
        for (int ahead = -2; ahead <= 2; ahead++)
        {
            DateOnly one = month.AddMonths(ahead);
            if (Day > DateTime.DaysInMonth(one.Year, one.Month)) continue;
            Instant at = Instant.FromUtc(new DateOnly(one.Year, one.Month, Day), TimeSpan.FromMinutes(Minutes));
            if (best is not { } other || Math.Abs(at.SecondsSince(reference)) < Math.Abs(other.SecondsSince(reference)))
                best = at;
        }
        return best!.Value;
    }
}
